"""Whether a round is joined into the stitch that it begins with, where the join names one."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.rows.row_tree import Item, Join, Reach, Repeat, RowTree, Thing, Work
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import GROUP, Kind, Position
from stitchproof.simulation.slips import JoinedElsewhere
from stitchproof.simulation.targets import CHAINS, GROUP_NAMES, value
from stitchproof.simulation.ways import Ways
from stitchproof.stitches.stitch_names import facts_of


def join_slips(
    made: LiveRow, parts: tuple[RowTree, ...], ways: Ways, size: int
) -> Iterator[tuple[JoinedElsewhere, int]]:
    """Joins at the end of a round into a stitch by name that is not its first, each with its part. made: the round.

    A starting chain that counts stands before the first stitch, which may then be named or not.
    """
    if ways.lenient or not made:
        return
    first = made.at(0)
    for number, join in _closing_joins(parts):
        target = join.target
        if (
            target is None
            or target.reach is not Reach.FIRST
            or target.piece
            or value(target.count, size) not in (None, 1)
        ):
            continue
        names = tuple([thing.name for thing in target.things])
        if _is_one_of(names, first) or not names or not all(_names_one(thing, ways) for thing in target.things):
            continue
        held = any(_is_one_of(names, place) for place in made.kinds)
        begins_otherwise = not held or first.kind is Kind.STITCH
        if begins_otherwise and (held or not _may_hold(names, first, parts)):
            yield JoinedElsewhere(names[0], first.stitch, first.kind is Kind.STARTING_CHAIN, held, join.at), number


def _closing_joins(parts: tuple[RowTree, ...]) -> Iterator[tuple[int, Join]]:
    """The joins after which a round works nothing more: one before that closes another round or a ring."""
    for number in range(len(parts) - 1, -1, -1):
        for item in reversed(parts[number].items):
            if isinstance(item, Work | Repeat):
                return
            if isinstance(item, Join) and not item.not_joined:
                yield number, item


def _names_one(thing: Thing, ways: Ways) -> bool:
    """Whether a stitch or a group of stitches is named, and nothing that says which of several."""
    return ways.is_stitch(thing.name) and thing.name not in (*CHAINS, GROUP, "slst") and not (thing.of or thing.within)


def _may_hold(names: tuple[str, ...], first: Position, parts: tuple[RowTree, ...]) -> bool:
    """Whether a round that makes nothing by a name may hold it all the same: inside a stitch of the pattern's own that does not
    tell what it is made of, or as a group of stitches in one place that is written out."""
    alone = first.kind is Kind.STITCH and not first.group
    untold = alone and (first.stitch in GROUP_NAMES or facts_of(first.stitch) is None)
    written_out = not set(GROUP_NAMES).isdisjoint(names) and any(_has_group(tree.items) for tree in parts)
    return untold or written_out


def _has_group(items: tuple[Item, ...]) -> bool:
    return any(isinstance(item, Repeat) and (item.target is not None or _has_group(item.items)) for item in items)


def _is_one_of(names: tuple[str, ...], place: Position) -> bool:
    """Whether a place may be called so: hdc2tog also hdc."""
    return place.stitch in names or place.base in names or place.group in names
