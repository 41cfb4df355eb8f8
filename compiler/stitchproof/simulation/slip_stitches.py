"""Slip stitches: to travel, to shape an edge, to close or level a round; or fabric, as any other stitch."""

from __future__ import annotations

from stitchproof.rows.row_tree import (
    Item,
    Loops,
    Reach,
    Target,
    Work,
)
from stitchproof.simulation.edge_chains import to_loop
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.targets import find_places, is_for_spaces, take, value
from stitchproof.simulation.ways import Ways


def is_slip_work(item: Work, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> bool:
    """Slip stitches that travel, shape or close the round. False: they are fabric, worked as any stitch."""
    number = (value(item.target.count, size) if item.target else value(item.number, size)) or 1
    is_knot = hook.made.size > 0 and item.target is not None and item.target.reach is Reach.FROM_HOOK
    if is_knot:
        hook.slip_stitches += 1
        return True  # the chains before it are a picot, which is no place
    in_one_loop = item.loops in (Loops.BACK, Loops.FRONT)  # slip stitches of ribbing, not of the edge
    over_all = item.target is not None and item.target.reach in (Reach.EACH, Reach.FROM_HOOK)
    fabric = in_one_loop or over_all or ways.plain == "slst"
    if fabric:
        hook.slip_stitches += max(hook.left, 0)
        return False
    hook.slip_stitches += number
    at_start = not hook.made.size and not hook.started
    if not at_start and hook.ring and item.target and item.target.reach in (Reach.FIRST, Reach.TOP_OF_CHAIN):
        hook.joined = True
        return True
    if at_start:
        target = item.target or Target(Reach.NEXT, (), None, item.at)
        if target.reach is Reach.SAME:
            return True
        if ways.lenient and hook.ring and any(thing.name == "ch" for thing in target.things) and to_loop(hook):
            hook.travelled += number
            return True
        bite = find_places(target, 1, hook, ways, size, 0)
        if hook.ring:
            # The round begins where the last slip stitch goes, and comes back to it.
            if bite.start == hook.cursor and _means_after_join(target, hook):
                bite = take(target, bite.to, 1, 1, hook, ways, size)
            hook.rotate((bite.to - 1) % max(hook.end, 1))
        else:
            hook.cursor = hook.start_place = bite.to
            hook.worked = bite.to - 1
        hook.travelled += number
        return True
    # At the end of a round it only levels the step.
    return hook.ring and hook.left <= 0


def _means_after_join(target: Target, hook: Hook) -> bool:
    """ "Next st" after a join is the one after the stitch joined into; "next ch-sp" is found by its kind."""
    return not is_for_spaces(target.things) and not hook.spiral and hook.travelled == 0 and target.reach is Reach.NEXT
