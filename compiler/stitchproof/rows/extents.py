"""How often something is worked: 6 times, x 6, twice, 3 more times, across, to last 2 sts."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Amount, Extent, Stretch
from stitchproof.rows.stops import read_stop

_MORE = frozenset({"more", "further", "additional", "other"})


def read_extent(reader: Reader, starred: bool) -> Extent | None:
    """How often, if words for it come next. starred: they follow "rep from *", so that times are on top of the one worked."""
    first = reader.position
    repeated = not starred and reader.word == "rep" and reader.peek(1).word not in ("from", "row", "rnd", "last", "*")
    if repeated:
        reader.take()
    reader.accept("for") if reader.peek(1).kind == "number" else None
    total = reader.accept("a", "total", "of") or reader.accept("total", "of")
    times, more = _times(reader)
    if times is not None:
        total = _in_all(reader) or total
        if reader.word in ("around", "across"):
            read_stop(reader)  # "6 times around": the times say it
        again = (starred or more) and not total
        words = reader.lexemes[first : reader.position]
        named = any(each.word == "twice" for each in words)
        doubtful = not total and not more and (repeated or (starred and not named))
        return Extent(times, None, again, doubtful, reader.stretch(first))
    stop = read_stop(reader)
    if stop is not None:
        return Extent(None, stop, False, False, reader.stretch(first))
    if repeated and reader.at_break():
        return Extent(None, None, False, False, reader.stretch(first))
    reader.position = first
    return None


def _times(reader: Reader) -> tuple[Amount | None, bool]:
    """A number of times, and whether they are further ones."""
    first = reader.position
    more = reader.accept("another") or reader.accept("a", "further")
    if reader.word == "twice" and reader.peek().values is not None:
        lexeme = reader.take()
        again = reader.word in _MORE
        if again:
            reader.take()
        return Amount(lexeme.values or (), Stretch(lexeme.start, lexeme.end)), more or again
    is_times = reader.word == "x" or (reader.word == "*" and not reader.stars)
    if is_times and reader.peek(1).kind == "number" and _stands_alone(reader, 2):
        reader.take()
        number = reader.number()
        reader.accept("times")
        return number, more
    if reader.kind == "number":
        number = reader.number()
        again = False
        if reader.word in _MORE:
            reader.take()
            again = True
        if reader.word in ("times", "x") and reader.kind != "stitch":
            reader.take()
            if reader.word in _MORE:
                reader.take()
                again = True
            return number, more or again
        if again and reader.at_break():
            return number, True
    reader.position = first
    return None, False


def _stands_alone(reader: Reader, ahead: int) -> bool:
    """Whether the number behind a times sign is not that of a stitch."""
    lexeme = reader.peek(ahead)
    return lexeme.kind in ("end", "sign") or lexeme.word in (
        "times",
        "turn",
        "join",
        "and",
        "then",
        "in",
        "around",
        "more",
    )


def _in_all(reader: Reader) -> bool:
    return reader.accept("in", "all|total") or reader.accept("total") or reader.accept("altogether")


def extent_of_rows(reader: Reader) -> Extent | None:
    """How often rows are worked again; a number of times is further, as the trade has it."""
    extent = read_extent(reader, starred=True)
    if extent is not None and extent.stop is not None:
        raise reader.stop()
    return replace(extent, doubtful=False) if extent else None
