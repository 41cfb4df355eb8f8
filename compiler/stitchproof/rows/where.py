"""Where a stitch goes: in next st, in each sc and ch-1 sp across, in 2nd ch from hook, around the post of the next dc."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.chain_places import accept_as_what, accept_of_chain, read_base, read_top, where_it_stands
from stitchproof.rows.meetings import read_piece
from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Amount, Reach, Stop, Stretch, Target, Thing
from stitchproof.rows.stops import read_stop
from stitchproof.rows.things import at_thing, read_thing

PREPOSITIONS = frozenset({"in", "over", "under", "on", "between", "through"})
WHERE_WORDS = frozenset({"next", "first", "last", "each", "same", "every", "all", "rem"})
"""Words that begin a where-phrase whose "in" is left out."""


def at_target(reader: Reader) -> bool:
    """Whether a where-phrase comes next."""
    if reader.kind == "stitch" or reader.kind == "end":
        return False
    if reader.word in PREPOSITIONS:
        return not (reader.word == "on" and reader.peek(1).word in ("rnd", "row"))
    if reader.word == "around":
        return _is_place(reader, 1)
    if reader.word == "across":
        return is_so_many(reader, 1)
    if reader.word == "work" and reader.peek(1).word == "in":
        return True
    if reader.at("all", "the", "way"):
        return False
    return reader.word in WHERE_WORDS and not (reader.word == "last" and reader.peek(1).word in ("rep", "row", "rnd"))


def is_so_many(reader: Reader, ahead: int) -> bool:
    """Whether "across" goes on with a number of places: the first 5 sts, next 2 sts, 10 sts."""
    while (
        reader.peek(ahead).word in ("the", "each", "of", "next", "last", "rem") or reader.peek(ahead).kind == "ordinal"
    ):
        ahead += 1
    return reader.peek(ahead).kind == "number" and at_thing(reader, ahead + 1)


def _is_place(reader: Reader, ahead: int) -> bool:
    while reader.peek(ahead).word in ("the", "a"):
        ahead += 1
    lexeme = reader.peek(ahead)
    if lexeme.kind == "number" and reader.peek(ahead + 1).word in ("skipped", "unworked"):
        return True
    return lexeme.kind in ("stitch", "ordinal") or lexeme.word in (
        WHERE_WORDS | {"post", "st", "ch", "chsp", "sp", "ring", "lp", "tch", "begch", "posts"}
    )


def read_target(reader: Reader) -> Target:
    """The where-phrase that comes next, its preposition included."""
    first = reader.position
    reader.accept("work")
    word = reader.word
    over = word == "over"
    around_post = word == "around"
    if word in PREPOSITIONS or word in ("around", "across"):
        reader.take()
    target = _gap(reader, first) if word == "between" else _place(reader, first)
    around_post = (around_post and target.reach is not Reach.AROUND_RING) or target.around_post
    return replace(target, at=reader.stretch(first), around_post=around_post, over=over)


def _gap(reader: Reader, first: int) -> Target:
    """Between two stitches: a gap, which is no place of the row below."""
    place = _place(reader, first)
    at = reader.stretch(first)
    return Target(Reach.ELSEWHERE, place.things, None, at, words=reader.text(at))


def read_place(reader: Reader) -> Target:
    """A place without its preposition: next 2 sts, first st, ch-1 sp."""
    return _place(reader, reader.position)


def _place(reader: Reader, first: int) -> Target:
    while reader.accept("the") or reader.accept("a") or reader.accept("any"):
        pass
    loops = reader.loops()
    if loops is not None:
        reader.accept("of")
        if reader.loops() is not None or not (
            at_thing(reader) or reader.word in WHERE_WORDS or reader.word in ("the", "around", "across")
        ):
            raise reader.stop()
        reader.said_loops = loops
        if reader.word in ("around", "across"):
            return _each(reader, first, bare=True)
        return _place(reader, first)
    post = reader.accept("post|posts", "of")
    while reader.accept("the"):
        pass
    target = _kind_of_place(reader, first)
    if post:
        target = replace(target, around_post=True)
    return target


def _kind_of_place(reader: Reader, first: int) -> Target:
    if reader.at("same"):
        return _same(reader, first)
    if reader.at("top|tops", "of"):
        return read_top(reader, first)
    if reader.at("base", "of") or reader.at("st|ch|place", "at", "base", "of"):
        return read_base(reader, first)
    if (
        reader.at("ring")
        or reader.at("center", "of", "ring")
        or reader.at("lp|circle|begch", "ring")
        or _bare_loop(reader)
    ):
        while reader.word in ("ring", "center", "of", "lp", "begch"):
            reader.take()
        return Target(Reach.AROUND_RING, (), None, reader.stretch(first))
    if reader.kind == "ordinal":
        return _ordinal(reader, first)
    if reader.word in ("each", "every", "all"):
        return _each(reader, first)
    if reader.at("next"):
        reader.take()
        return _counted(reader, first, Reach.NEXT)
    if reader.at("last"):
        reader.take()
        return _counted(reader, first, Reach.LAST)
    if reader.at("skipped") or reader.at("unworked"):
        return _elsewhere(reader, first)
    if reader.at("rem") and reader.peek(1).kind == "number":
        reader.take()
        return _counted(reader, first, Reach.NEXT)
    if reader.at("rem"):
        return _each(reader, first, bare=True)
    if reader.kind == "number" or at_thing(reader):
        place = _counted(reader, first, Reach.NEXT)
        return replace(place, bare=place.reach is Reach.NEXT and place.count is None)
    raise reader.stop()


def _bare_loop(reader: Reader) -> bool:
    """ "into loop" with nothing after it is the ring; a ring needs no "next"."""
    return reader.at("lp") and (reader.peek(1).word in (",", ".", ";", ")", "--") or reader.peek(1).kind == "end")


def _same(reader: Reader, first: int) -> Target:
    reader.take()
    things: tuple[Thing, ...] = ()
    if at_thing(reader):
        things = (read_thing(reader),)
    elif not reader.accept("place") and not reader.at_break() and not reader.at("as"):
        raise reader.stop()
    if reader.accept("as"):
        accept_as_what(reader)
    return Target(Reach.SAME, things, None, reader.stretch(first))


def _ordinal(reader: Reader, first: int) -> Target:
    lexeme = reader.take()
    at = Stretch(lexeme.start, lexeme.end)
    nth = Amount(reader.line.scalar(lexeme.number), at)
    if reader.at("ch|st", "from", "hook") or reader.at("ch|st", "from", "the", "hook") or reader.at("from", "hook"):
        while reader.word in ("ch", "st", "from", "the", "hook"):
            if reader.take().word == "hook":
                break
        return Target(Reach.FROM_HOOK, (Thing("ch", at),), nth, reader.stretch(first), counts=_passed_over(reader))
    if accept_of_chain(reader):
        return Target(Reach.TOP_OF_CHAIN, (), nth, reader.stretch(first))
    if lexeme.number == 1:
        return _counted(reader, first, Reach.FIRST)
    if reader.at("ch") and reader.peek(1).kind != "number":
        reader.take()
        where_it_stands(reader)
        return Target(Reach.TOP_OF_CHAIN, (), nth, reader.stretch(first))
    thing = read_thing(reader)
    if reader.accept("of"):
        while reader.word in ("the", "next", "each"):
            reader.take()
        within = read_thing(reader)
        thing = Thing(thing.name, reader.stretch(first), thing.chains, thing.of, within.name, nth)
        return Target(Reach.NEXT, (thing,), None, reader.stretch(first))
    where_it_stands(reader)
    at = reader.stretch(first)
    return Target(Reach.ELSEWHERE, (thing,), nth, at, words=reader.text(at))


def _passed_over(reader: Reader) -> tuple[str, ...] | None:
    """ "(3 skipped chs count as dc)" after "4th ch from hook"."""
    from stitchproof.rows.chains import read_counts_as

    counts = read_counts_as(reader)
    return counts.names if counts else None


def read_all_up_to(reader: Reader) -> Target:
    """All places of a kind up to where the words say: "sts to next marker"."""
    return _each(reader, reader.position, bare=True)


def _each(reader: Reader, first: int, bare: bool = False) -> Target:
    every = 1
    if not bare:
        every = _every(reader)
    elif reader.word in ("rem",):
        reader.take()
    if reader.accept("of"):
        while reader.accept("the"):
            pass
        if reader.word in ("next", "last", "rem") or reader.kind == "ordinal":
            return _kind_of_place(reader, first)
        if reader.kind == "number":
            return _counted(reader, first, Reach.NEXT)
    while reader.word in ("the", "rem", "next"):
        reader.take()
    if reader.kind == "number" and not bare and not (_is_part_of_thing(reader) or reader.peek(1).word == "chsp"):
        # "each next 4 sts", "each 2 dc": so many of them.
        return _counted(reader, first, Reach.NEXT)
    things = _things(reader)
    stop = read_stop(reader)
    where_it_stands(reader)
    stop = stop or read_stop(reader)
    end = Stop(None, None, True, None, reader.stretch(reader.position))
    return Target(Reach.EACH, tuple(things), None, reader.stretch(first), stop or end, every)


def _every(reader: Reader) -> int:
    """Takes "each", "every other", "every 3rd"; how many of them go to one stitch."""
    reader.take()
    reader.accept("one", "of")
    if reader.accept("other") or reader.accept("alternate"):
        return 2
    if reader.kind == "ordinal" and reader.peek(1).word != "ch":
        return max(reader.take().number, 1)
    if reader.accept("2nd"):
        return 2
    return 1


def _things(reader: Reader) -> list[Thing]:
    """What each is: one kind, or several ("each sc and in each ch-1 sp")."""
    if not _at_each_thing(reader, 0):
        if reader.at_break() or reader.word in ("across", "around", "to"):
            return [Thing("st", reader.stretch(reader.position))]
        raise reader.stop()
    things = [read_thing(reader)]
    while reader.word in ("and", "or", "&", "/"):
        ahead = 1
        while reader.peek(ahead).word in ("in", "each", "every", "the", "rem"):
            ahead += 1
        if not _at_each_thing(reader, ahead) or reader.peek(ahead + 1).word in ("in", "to", "from"):
            break
        if ahead == 1 and reader.word == "and" and not _goes_on(reader, ahead):
            break
        for _ in range(ahead):
            reader.take()
        things.append(read_thing(reader))
    return things


def _at_each_thing(reader: Reader, ahead: int) -> bool:
    """Whether a thing comes next behind "each", where "1 ch sp" is a space of one chain."""
    return at_thing(reader, ahead) or (reader.peek(ahead).kind == "number" and reader.peek(ahead + 1).word == "chsp")


def _goes_on(reader: Reader, ahead: int) -> bool:
    """Whether "and sc …" is a further kind to work into, not the next item: a chain or space, or nothing more is said of it."""
    lexeme = reader.peek(ahead)
    if lexeme.kind == "number":
        lexeme = reader.peek(ahead + 1)
    if lexeme.word in ("chsp", "sp", "lp", "tch"):
        return True
    if lexeme.word == "ch":
        return reader.peek(ahead + 1).glued or reader.peek(ahead + 1).word in ("across", "around", "to", "sp")
    after = reader.peek(ahead + 1)
    return after.word in ("across", "around", "to") or after.kind == "end" or after.word in (",", ";", ".", ")", "--")


def _counted(reader: Reader, first: int, reach: Reach) -> Target:
    """So many of a thing: 3 sts, st, ch-1 sp; of "next 3" the stitches are understood."""
    while reader.accept("the"):
        pass
    number = None if _is_part_of_thing(reader) else reader.number()
    narrowed = reader.accept("rem")
    if _at_each_thing(reader, 0) if number is None else at_thing(reader):
        thing = read_thing(reader)
    elif number is not None or reader.at_break() or reader.word in ("across", "around", "to"):
        thing = Thing("st", reader.stretch(reader.position))
    else:
        raise reader.stop()
    if thing.of in ("skipped", "unworked"):
        where_it_stands(reader)
        at = reader.stretch(first)
        return Target(Reach.ELSEWHERE, (thing,), number, at, words=reader.text(at))
    if narrowed:
        thing = Thing(thing.name, thing.at, thing.chains, "rem")
    if thing.of == "center" and reader.accept("of"):
        each = reader.at("each|every")
        while reader.word in ("the", "next", "each", "every"):
            reader.take()
        within = read_thing(reader).name
        if each:
            part = (Thing(thing.name, thing.at, None, "center", within),)
            stop = read_stop(reader) or Stop(None, None, True, None, reader.stretch(reader.position))
            return Target(Reach.EACH, part, None, reader.stretch(first), stop)
        return Target(reach, (Thing(thing.name, thing.at, None, "center", within),), number, reader.stretch(first))
    if reader.at("of", "each|every") and reader.peek(2).word not in ("row", "rnd"):
        reader.take()
        return _in_each_group(reader, first, thing)
    _of_group(reader, thing)
    at_end, elsewhere = where_it_stands(reader)
    reach = Reach.LAST if at_end and reach is Reach.NEXT else reach
    if number is not None:
        reader.accept("across") or reader.accept("around")
    at = reader.stretch(first)
    if thing.name == "tch" and number is None:
        return Target(Reach.TOP_OF_CHAIN, (), None, at)
    if elsewhere:
        return Target(Reach.ELSEWHERE, (thing,), number, at, words=reader.text(at))
    piece = read_piece(reader)
    return Target(reach, (thing,), number, reader.stretch(first), piece=piece)


def _of_group(reader: Reader, thing: Thing) -> None:
    """Take "of next shell", "of last V-st" behind a space: it is the next one, or the last, that is meant."""
    if thing.name not in ("chsp", "sp") or not reader.at("of"):
        return
    ahead = 1
    while reader.peek(ahead).word in ("the", "next", "last", "same", "first"):
        ahead += 1
    if reader.peek(ahead).kind == "stitch" or reader.peek(ahead).word in ("group", "corner"):
        for _ in range(ahead + 1):
            reader.take()


def _in_each_group(reader: Reader, first: int, thing: Thing) -> Target:
    """ "ch-1 sp of each V-st across": a part of every group."""
    groups = _each(reader, first)
    if groups.reach is not Reach.EACH or len(groups.things) != 1:
        raise reader.stop()
    return replace(groups, things=(replace(thing, within=groups.things[0].name),), at=reader.stretch(first))


def _is_part_of_thing(reader: Reader) -> bool:
    """ "1ch-sp", "3-dc cluster", "2 ch sp": the number belongs to the thing."""
    lexeme, after, third = reader.peek(), reader.peek(1), reader.peek(2)
    if lexeme.kind != "number":
        return False
    if after.kind == "stitch" and after.glued:
        return third.kind == "stitch" or third.word in ("group", "sp")
    return after.word == "chsp" and (after.glued or not after.spaced or _is_one_space(reader, after.start, after.end))


def _is_one_space(reader: Reader, start: int, end: int) -> bool:
    """Whether "3 ch sp" is one space of three chains: the word is in the singular."""
    return not reader.line.text[start:end].lower().rstrip(".").endswith("s")


def _elsewhere(reader: Reader, first: int) -> Target:
    """A place out of the line of work, such as a skipped stitch."""
    reader.take()
    thing = read_thing(reader) if at_thing(reader) else Thing("st", reader.stretch(reader.position))
    where_it_stands(reader)
    at = reader.stretch(first)
    return Target(Reach.ELSEWHERE, (thing,), None, at, words=reader.text(at))
