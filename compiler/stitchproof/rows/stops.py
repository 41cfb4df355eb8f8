"""Where "each" and repeats stop: across, around, to last 2 sts, to 1 st before next marker, to next ch-2 sp."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Stop, Stretch, Thing
from stitchproof.rows.things import at_thing, read_thing

_EVERYWHERE = frozenset({"across", "around", "along"})


def at_stop(reader: Reader) -> bool:
    """Whether words come next that say how far something goes."""
    if reader.kind == "stitch":
        return False
    if reader.word in _EVERYWHERE:
        return True
    if reader.at("entire|whole", "row|rnd") or reader.at("the", "entire|whole|rnd|row"):
        return True
    if reader.at("all", "the", "way") or (reader.at("all|right", "rnd") and _at_end(reader, 2)):
        return True
    return reader.word in ("to", "until", "up", "unto", "for") and _to_where(reader, 1)


def _to_where(reader: Reader, ahead: int) -> bool:
    while reader.peek(ahead).word in ("to", "within", "the", "you", "reach", "only", "there", "are"):
        ahead += 1
    lexeme = reader.peek(ahead)
    if lexeme.kind == "ordinal" or lexeme.word == "first":
        return reader.peek(ahead + 1).word == "marker"
    if lexeme.kind == "number":
        # "until 2 tr remain", "to 1 st before marker"; "until 8 rows are complete" is no place of the row at hand
        words = [reader.peek(ahead + further).word for further in range(1, 6)]
        near = {"before", "from", "rem", "remain", "remains", "left", "marker"} & set(words)
        return bool(near) and not ({"row", "rnd"} & set(words))
    if lexeme.word in ("chsp", "sp") or (lexeme.word == "ch" and reader.peek(ahead + 1).glued):
        return reader.word in ("to", "until")
    return lexeme.word in ("last", "end", "marker", "marked", "next", "corner", "tch", "begch", "rem", "center", "beg")


def read_stop(reader: Reader) -> Stop | None:
    """How far, if words for it come next."""
    if not at_stop(reader):
        return None
    first = reader.position
    everywhere = False
    if reader.at("all|right", "rnd") and _at_end(reader, 2):
        reader.take()
        reader.take()
        return Stop(None, None, True, None, reader.stretch(first))
    if reader.accept("all", "the", "way"):
        everywhere = True
        if reader.at("rnd") and _at_end(reader, 1):
            reader.take()
    if reader.at("entire|whole|the"):
        while reader.word in ("the", "entire", "whole", "row", "rnd"):
            reader.take()
        return Stop(None, None, True, None, reader.stretch(first))
    while reader.word in _EVERYWHERE and not (everywhere and reader.peek(1).kind == "stitch"):
        reader.take()
        everywhere = True
        while reader.word in ("the", "row", "rnd", "entire", "whole", "each") and _ends_phrase(reader):
            reader.take()
        if reader.at("from") or reader.at("in"):
            break
    if not at_stop(reader) or reader.word in _EVERYWHERE:
        return Stop(None, None, True, None, reader.stretch(first))
    return _to(reader, first)


def _at_end(reader: Reader, ahead: int) -> bool:
    return reader.peek(ahead).kind == "end" or reader.peek(ahead).word in (",", ";", ".", "--", ")", "]", "*", "(", "[")


def _ends_phrase(reader: Reader) -> bool:
    """Whether "the", "row" or "rnd" belongs to "across the row" and does not begin a place."""
    if reader.word in ("row", "rnd"):
        return True
    ahead = 1
    while reader.peek(ahead).word in ("the", "entire", "whole", "each"):
        ahead += 1
    return reader.peek(ahead).word in ("row", "rnd")


def _to(reader: Reader, first: int) -> Stop:
    while reader.word in ("to", "until", "up", "within", "the", "you", "reach", "only", "for", "there", "are"):
        reader.take()
    if reader.accept("end") or reader.accept("rem", "st"):
        if reader.accept("of"):
            reader.accept("the")
            if reader.word in ("row", "rnd", "ch", "basech", "body"):
                reader.take()
        return Stop(None, None, True, None, reader.stretch(first))
    if reader.accept("last"):
        reader.accept("rem")
        # In "last 3-ch sp" the number is that of the chains.
        of_chains = reader.peek(1).glued and reader.peek(1).word in ("ch", "chsp")
        before = (None if of_chains else reader.number()) or reader.unwritten(1)
        thing = read_thing(reader) if at_thing(reader) else Thing("st", reader.stretch(reader.position))
        reader.accept("rem") or reader.accept("of", "row|rnd")
        if thing.name == "marker":
            return Stop(None, None, False, "", reader.stretch(first), nth=0)
        return Stop(before, thing, True, None, reader.stretch(first))
    if reader.kind == "number":
        return _so_many(reader, first)
    marker = _marker(reader)
    if marker is not None:
        return Stop(None, None, False, marker[0], reader.stretch(first), marker[1])
    while reader.accept("next"):
        pass
    thing = read_thing(reader)
    if thing.name == "tch":
        return Stop(reader.unwritten(1), thing, True, None, reader.stretch(first))
    return Stop(None, thing, False, None, reader.stretch(first))


def _so_many(reader: Reader, first: int) -> Stop:
    """ "2 sts before marker", "until 2 tr remain", "last 3 sts" as "3 sts from end"."""
    number = reader.number()
    thing = read_thing(reader) if at_thing(reader) else Thing("st", reader.stretch(reader.position))
    if reader.accept("rem|remain|left|remains") or reader.accept("from|before", "end"):
        return Stop(number, thing, True, None, reader.stretch(first))
    if not reader.accept("before|of"):
        raise reader.stop()
    reader.accept("the")
    marker = _marker(reader)
    if marker is not None:
        return Stop(number, thing, False, marker[0], reader.stretch(first), marker[1])
    while reader.accept("next") or reader.accept("the"):
        pass
    if reader.accept("end"):
        return Stop(number, thing, True, None, reader.stretch(first))
    return Stop(number, read_thing(reader), False, None, reader.stretch(first))


def _marker(reader: Reader) -> tuple[str, int | None] | None:
    """The marker that comes next: its name, "" for one without, and which of the row it is. None where none comes."""
    ahead, nth = 0, None
    while reader.peek(ahead).word in ("next", "first", "the", "last") or reader.peek(ahead).kind == "ordinal":
        lexeme = reader.peek(ahead)
        nth = lexeme.number if lexeme.kind == "ordinal" else {"first": 1, "last": 0}.get(lexeme.word, nth)
        ahead += 1
    if reader.peek(ahead).word == "marker":
        for _ in range(ahead + 1):
            reader.take()
        name = reader.peek()
        if name.kind == "word" and name.capital and name.end - name.start == 1:
            return reader.line.text[reader.take().start : name.end], None
        return "", nth
    if reader.peek(ahead).word == "marked":
        for _ in range(ahead + 1):
            reader.take()
        if at_thing(reader):
            read_thing(reader)
        return "", None
    return None


def no_stop(at: int) -> Stop:
    """To the end, where nothing is said."""
    return Stop(None, None, True, None, Stretch(at, at))
