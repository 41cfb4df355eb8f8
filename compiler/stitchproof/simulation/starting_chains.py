"""Chains of a row: at its start they lift the hook, and may count as a stitch; elsewhere they make a space."""

from __future__ import annotations

from stitchproof.rows.row_tree import (
    Chain,
    FastenOff,
    Item,
    Mark,
    Reach,
    Remark,
    Skip,
    Turn,
    Work,
)
from stitchproof.simulation.edge_chains import first_stitch, is_foundation
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.position import Kind, Position, space
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Course, Ways

ENDINGS = (Turn, Remark, FastenOff, Mark)
"""What may follow the last chain of a row."""


def start_chain(name: str, item: Work, hook: Hook, ways: Ways) -> None:
    """The first stitch of a row settles what the chain before it is."""
    chains, hook.pending_chain = hook.pending_chain, 0
    if not chains:
        return
    from_hook = item.target is not None and item.target.reach is Reach.FROM_HOOK
    if from_hook:
        hook.pending_chain = chains
        return
    counts = ways.counts_as(chains, name)
    if hook.spiral and not counts and chains > 1 and ways.lenient:
        hook.make(space(chains), 1)
        return
    _count_chain(counts, chains, name, hook, ways)


def _count_chain(counts: tuple[str, ...], chains: int, name: str, hook: Hook, ways: Ways) -> None:
    """A counted chain stands on the first place, or on the last one that was slipped into."""
    for part in counts:
        if part == "loop":
            hook.make(Position(Kind.SPACE, "", "", chains, of=chains), 1)
            if hook.end and not hook.travelled and not hook.ring:
                hook.cursor += 1
        elif part == "chsp":
            height = ways.facts(counts[0]).height
            hook.make(Position(Kind.SPACE, "", "", max(chains - height, 1), of=chains), 1)
        else:
            hook.made.add(Position(Kind.STARTING_CHAIN, part, ways.facts(part).base), 1)
            if (hook.end and not hook.travelled) or (hook.end and hook.ring):
                hook.worked = hook.cursor
                hook.cursor += 1
    hook.started = False


def work_chain(item: Chain, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool) -> None:
    """Chains: to lift the hook at the start, to start the next row at the end, a space elsewhere."""
    chains = value(item.number, size)
    if not chains:
        return
    if _is_picot(after):
        return
    at_start = outermost and not hook.started and not hook.made.size and hook.worked in (None, hook.cursor - 1)
    if at_start and not _skips_next(after, ways):
        hook.pending_chain += chains
        if item.counts is not None and is_foundation(after):
            hook.chain_said = item.counts
        elif item.counts is not None:
            _settle(item, after, chains, hook, ways)
        return
    if outermost and _ends_row(after) and not hook.ring:
        hook.next_chain = chains
        return
    hook.make(space(chains), 1)


def _settle(item: Chain, after: tuple[Item, ...], chains: int, hook: Hook, ways: Ways) -> None:
    """The row says what its chain counts as."""
    hook.pending_chain = 0
    if item.counts:
        row = ways.facts(first_stitch(after, ways)).base
        counts = tuple(row if name == "st" else name for name in item.counts)
        _count_chain(counts, chains, counts[0], hook, ways)
    # "does not count": it is there, and that is all


def _skips_next(after: tuple[Item, ...], ways: Ways) -> bool:
    """Whether a chain at the start of a spiral bridges what is skipped next, and so is a space."""
    following = next((item for item in after if not isinstance(item, Remark)), None)
    return ways.course is Course.SPIRAL and isinstance(following, Skip)


def _is_picot(after: tuple[Item, ...]) -> bool:
    """Chains that a slip stitch closes into a knot make no place."""
    following = after[0] if after else None
    return (
        isinstance(following, Work)
        and following.stitch == "slst"
        and following.target is not None
        and following.target.reach in (Reach.FROM_HOOK, Reach.SAME)
    )


def _ends_row(after: tuple[Item, ...]) -> bool:
    return all(isinstance(item, ENDINGS) for item in after)


def resolve_chain(first: str, hook: Hook, ways: Ways) -> None:
    """The chain at the start, told by the stitch that comes next."""
    chains, hook.pending_chain = hook.pending_chain, 0
    _count_chain(ways.counts_as(chains, first), chains, first, hook, ways)
