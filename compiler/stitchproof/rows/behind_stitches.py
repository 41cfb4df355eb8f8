"""What stands behind plain stitches: exceptions from them, how many rows they fill, counts of things that no stitch makes."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Chain, Item, Join, Reach, Stop, Turn, Work
from stitchproof.rows.trade_words import trade_words

_TRADE = frozenset(trade_words().values())


def goes_to_end(item: Item) -> bool:
    """Whether an item is a stitch in each place that is left."""
    return isinstance(item, Work) and item.target is not None and item.target.reach is Reach.EACH


def exception_to(reader: Reader, found: list[Item]) -> Work | None:
    """A stitch for each place of one kind, "3 sc in each corner" or "2 sc in ch-2 sp", behind the one for all the others."""
    work = found[0] if len(found) == 1 else None
    if not isinstance(work, Work) or work.target is None:
        return None
    if work.target.reach is Reach.EACH:
        return work
    if work.target.bare and all(thing.name in ("chsp", "sp") for thing in work.target.things):
        at = reader.stretch(reader.position)
        return replace(work, target=replace(work.target, reach=Reach.EACH, stop=Stop(None, None, True, None, at)))
    return None


def accept_rows_told(reader: Reader, items: list[Item]) -> bool:
    """Take "4 rounds" behind plain stitches: how many rows the label has; they are all alike."""
    plain = all(isinstance(item, Chain | Turn | Join) or _is_plain(item) for item in items)
    ahead = 1 if reader.word in ("for", "over") else 0
    after = reader.peek(ahead + 2)
    ends = after.kind == "end" or after.word in (".", ",", ";", "--", "(")
    if not (plain and reader.peek(ahead).kind == "number" and reader.peek(ahead + 1).word in ("row", "rnd") and ends):
        return False
    for _ in range(ahead + 2):
        reader.take()
    return True


def _is_plain(item: Item) -> bool:
    return isinstance(item, Work) and goes_to_end(item) and (item.each is None or set(item.each.values) == {1})


def accept_unknown_count(reader: Reader) -> bool:
    """Take "6 petals" at the end of the line: a number of what no stitch makes, which nothing can be held against."""
    after = reader.peek(2)
    is_unknown = reader.peek(1).kind == "word" and reader.peek(1).word not in _TRADE
    if reader.kind != "number" or not is_unknown or not (after.kind == "end" or after.word in ("made", ".")):
        return False
    while reader.kind != "end" and reader.word != ".":
        reader.take()
    return True
