"""Chains at the edge of a row: those a foundation passes over, and those that close a round."""

from __future__ import annotations

from stitchproof.rows.row_tree import Item, Reach, Repeat, Target, Work
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.live_row import RowBuilder
from stitchproof.simulation.position import CHAIN, Kind, Position, space
from stitchproof.simulation.targets import is_for_spaces
from stitchproof.simulation.ways import Ways

OTHER_SIDE = frozenset(
    {"opposite", "other", "underside", "free", "unused", "remaining", "bottom", "upside", "rotate", "180", "around"}
)


def count_passed(chains: int, said: tuple[str, ...] | None, name: str, hook: Hook, ways: Ways) -> None:
    """Chains passed over before the first stitch of a foundation may count: as a stitch, or as one with a space beside it."""
    base = ways.facts(name).base
    for part in ways.passed_count_as(chains, name) if said is None else said:
        if part == "chsp":
            # What is more than the stitch's height is half the space, half what lies under it.
            hook.made.add(space(max((chains - ways.facts(base).height + 1) // 2, 1)), 1)
        else:
            named = base if part == "st" else part
            hook.made.add(Position(Kind.STARTING_CHAIN, named, ways.facts(named).base), 1)


def is_other_side(words: str, hook: Hook) -> bool:
    """Whether words lead along the other side of the starting chain, all of whose first side is worked."""
    said = set(words.lower().replace("-", " ").split())
    on_chain = hook.end > 1 and hook.base.count(lambda place: place.kind is Kind.CHAIN) == hook.end
    return on_chain and hook.cursor == hook.end and hook.made.size > 0 and bool(said & OTHER_SIDE)


def go_along_other_side(hook: Hook) -> None:
    """The chains again, from the one before the last back to the one first worked into; the last is gone around already."""
    building = RowBuilder()
    building.add_row(hook.base)
    building.add(CHAIN, hook.end - 1 - hook.start_place)
    hook.base = building.row()


def first_stitch(items: tuple[Item, ...], ways: Ways) -> str:
    """The stitch that comes next."""
    for item in items:
        if isinstance(item, Work):
            return item.stitch
        if isinstance(item, Repeat):
            return first_stitch(item.items, ways)
    return ways.plain


def is_foundation(items: tuple[Item, ...]) -> bool:
    """Whether the next stitch goes into a chain counted from the hook: chains made now are passed over with the others."""
    work = next((item for item in items if isinstance(item, Work)), None)
    return work is not None and work.target is not None and work.target.reach is Reach.FROM_HOOK


def is_reminder(target: Target, hook: Hook) -> bool:
    """Whether "skip first st" only says again that a chain stands on it."""
    return (
        target.reach is Reach.FIRST
        and not hook.started
        and hook.cursor > hook.start_place
        and not is_for_spaces(target.things)
    )


def bridged(hook: Hook, ways: Ways) -> bool:
    """Chains that close a round before the join lie over what is left, whether or not the text says to skip it."""
    last = hook.made.last
    return ways.lenient and hook.ring and last is not None and last.kind is Kind.SPACE and hook.left <= last.chains > 1


def to_loop(hook: Hook) -> bool:
    """Slip stitches in the chains of a loop lead to its middle: the round begins there. False where no loop comes."""
    index = hook.find(hook.cursor, lambda place: place.kind is Kind.SPACE)
    if index is None or index >= hook.end:
        return False
    hook.rotate(index)
    return True
