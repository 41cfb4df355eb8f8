"""How far rows go: until 6 rows are complete, until 8 sts rem, until piece measures 12 cm, ending with a WS row."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Amount, Stretch, Until
from stitchproof.rows.things import at_thing

_MOST_WORDS = 5
_VERBS = frozenset({"are", "is", "have", "has", "been", "rem", "remain", "left", "complete", "ending", "in", "worked"})
_COMPLETE = frozenset([
    "are", "is", "complete", "completed", "have", "has", "been", "worked", "in", "all", "total", "rem",
    "remain", "remains", "left", "done", "of", "work",
])  # fmt: skip


def at_until(reader: Reader) -> bool:
    """Whether "until" comes next with rows, stitches or a length, not with a place of the row at hand."""
    return reader.word in ("until", "for") and reader.kind == "word"


def read_until(reader: Reader) -> Until:
    """Until so many rows, stitches or so long, with the row it ends on."""
    first = reader.position
    reader.take()
    until = _so_many(reader, first) or _so_long(reader, first)
    if until is None:
        raise reader.stop()
    return with_last_row(reader, until, first)


def with_last_row(reader: Reader, until: Until, first: int) -> Until:
    """The same, with "ending with a WS row" if it follows."""
    ahead = 1 if reader.word in (",", ";") else 0
    if reader.peek(ahead).word not in ("ending", "end"):
        return until
    for _ in range(ahead + 1):
        reader.take()
    reader.accept("with") or reader.accept("on") or reader.accept("after")
    reader.accept("a") or reader.accept("an") or reader.accept("the")
    begin = reader.position
    side = ""
    while not reader.at_break() and reader.position - begin < 6:
        side = reader.word.upper() if reader.word in ("rs", "ws") else side
        reader.take()
    ends = reader.text(reader.stretch(begin))
    return replace(until, side=side, ends="" if side else ends, at=reader.stretch(first))


def _so_many(reader: Reader, first: int) -> Until | None:
    start = reader.position
    reader.accept("there", "are") or reader.accept("you", "have") or reader.accept("there", "will", "be")
    until = read_so_many(reader, first)
    if until is None:
        reader.position = start
    return until


def read_so_many(reader: Reader, first: int) -> Until | None:
    """ "40 rnds are complete", "24 rows in all", "8 sts rem"; None where something else comes next."""
    start = reader.position
    reader.accept("a", "total", "of")
    amount = reader.number()
    begin = reader.position
    if amount is not None:
        while reader.kind in ("word", "stitch") and not reader.at_break() and reader.word not in _VERBS:
            reader.take()
    words = [each.word for each in reader.lexemes[begin : reader.position]]
    if amount is None or len(words) > _MOST_WORDS or not words:
        reader.position = start
        return None
    counts_sts = words[-1] == "st" or reader.lexemes[begin].kind == "stitch"
    ends = reader.position
    while reader.word in _COMPLETE and reader.kind == "word":
        reader.take()
        ends = reader.position if reader.lexemes[reader.position - 1].word in ("in", "all", "total") else ends
    noun = reader.text(Stretch(reader.lexemes[begin].start, reader.lexemes[ends - 1].end))
    if {"row", "rnd", "r"} & set(words):
        return Until("rows", amount, noun, "", reader.stretch(first))
    if counts_sts:
        return Until("sts", amount, noun, "", reader.stretch(first))
    reader.position = start
    return None


def _so_long(reader: Reader, first: int) -> Until | None:
    """ "until piece measures 30 cm from beg": the length is told by its number; the row it comes to by the gauge."""
    begin = reader.position
    amount = None
    measured = False
    while not (reader.kind == "end" or reader.word in (",", ";", ".", "--", ":", "ending")):
        lexeme = reader.peek()
        measured = measured or lexeme.word in ("measures", "measure", "long", "desired", "length", "reach", "reaches")
        if lexeme.kind in ("length", "number") and amount is None and lexeme.values is not None:
            amount = Amount(lexeme.values, Stretch(lexeme.start, lexeme.end))
        elif lexeme.kind == "stitch" or (at_thing(reader) and lexeme.word == "chsp"):
            return None
        reader.take()
    if not measured or reader.position == begin:
        return None
    return Until("length", amount, reader.text(reader.stretch(begin)), "", reader.stretch(first))


def until_after(reader: Reader) -> Until | None:
    """ "until …" behind what it bounds, after a comma or none; None where it does not come next."""
    start = reader.position
    reader.accept(",")
    if at_until(reader) and reader.word == "until":
        return read_until(reader)
    reader.position = start
    return None
