"""Whether a round is joined into the stitch that it begins with, where the join names one."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.rows.row_tree import Item, Join, Reach, Repeat, RowTree, Thing, Work
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import Kind, Position
from stitchproof.simulation.slips import JoinedElsewhere
from stitchproof.simulation.targets import CHAINS, GROUP_NAMES, value
from stitchproof.simulation.ways import Ways


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
        if not target.things or not all(_is_plain_stitch(thing, ways) for thing in target.things):
            continue
        names = tuple(thing.name for thing in target.things)
        held = any(_is_one_of(names, place) for place in made.kinds)
        begins_so = _is_one_of(names, first) or (held and first.kind is not Kind.STITCH)
        if not begins_so:
            yield JoinedElsewhere(names[0], first.stitch, first.kind is Kind.STARTING_CHAIN, held, join.at), number


def _closing_joins(parts: tuple[RowTree, ...]) -> Iterator[tuple[int, Join]]:
    """The joins after which a round works nothing more: one before that closes another round or a ring."""
    items: list[tuple[int, Item]] = [(number, item) for number, tree in enumerate(parts) for item in tree.items]
    for number, item in reversed(items):
        if isinstance(item, Work | Repeat):
            return
        if isinstance(item, Join) and not item.not_joined:
            yield number, item


def _is_plain_stitch(thing: Thing, ways: Ways) -> bool:
    """Whether a stitch is named, and nothing that says which of several."""
    return (
        ways.is_stitch(thing.name)
        and thing.name not in (*CHAINS, *GROUP_NAMES, "slst")
        and not (thing.of or thing.within)
    )


def _is_one_of(names: tuple[str, ...], place: Position) -> bool:
    """Whether a place may be called so: hdc2tog also hdc."""
    return any(name in (place.stitch, place.base, place.group) for name in names)
