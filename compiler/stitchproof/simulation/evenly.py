"""Shapings spread evenly, in text that is not ours: how many stitches there are then is told, where they lie is the maker's."""

from __future__ import annotations

from stitchproof.rows.row_tree import Evenly
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.live_row import RowBuilder
from stitchproof.simulation.position import stitch
from stitchproof.simulation.slips import CannotWork, Stopped
from stitchproof.simulation.starting_chains import resolve_chain
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Ways


def work_evenly(item: Evenly, hook: Hook, ways: Ways, size: int) -> None:
    """The row with so many stitches more or fewer. Raises Stopped where that cannot be told, or places would matter."""
    number, to = value(item.number, size), value(item.to, size)
    whole = not hook.started and hook.left != 0
    if (
        not ways.lenient
        or not item.sign
        or (number is None and to is None)
        or hook.marks
        or not (whole or hook.left == 0)
    ):
        raise Stopped(CannotWork("evenly", item.at))
    main = hook.last_stitch or hook.main_stitch or ways.plain
    if hook.pending_chain:
        resolve_chain(main, hook, ways)
    hook.make(stitch(main, ways.facts(main).base), hook.left)
    hook.cursor = hook.end
    made = hook.made.size
    change = item.sign * number if number is not None else (to or 0) - made
    if change * item.sign < 0 or made + change < 1:
        raise Stopped(CannotWork("evenly", item.at))
    if change >= 0:
        hook.make(stitch(main, ways.facts(main).base), change)
        return
    kept = hook.made.row().part(0, made + change)
    hook.made = RowBuilder()
    hook.made.add_row(kept)
