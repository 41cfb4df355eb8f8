"""Goes over the rest of a row and works each kind of place in its own way."""

from __future__ import annotations

from stitchproof.rows.row_tree import Work
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.live_row import RowBuilder
from stitchproof.simulation.position import Kind, stitch
from stitchproof.simulation.slips import Absent, Stopped
from stitchproof.simulation.targets import test_for, value
from stitchproof.simulation.ways import Ways


def each_by_kind(works: list[Work], hook: Hook, ways: Ways, size: int) -> None:
    """Work every place that is left by the first of the works whose kind it is; only spaces may be passed over."""
    tests = [test_for(work.target.things, hook, ways, size) if work.target else None for work in works]
    building = RowBuilder()
    for run in hook.base.part(hook.cursor, hook.end).runs:
        unit = []
        for position, number in run.unit:
            for work, test in zip(works, tests, strict=True):
                if test is not None and test(position):
                    facts, each = ways.facts(work.stitch), value(work.each, size) or 1
                    unit.append((stitch(work.stitch, facts.base), number * each))
                    break
            else:
                if position.kind is not Kind.SPACE:
                    raise Stopped(Absent(works[0].stitch, position.stitch, works[0].at))
        building.add_unit(tuple(unit), run.times)
    hook.made.add_row(building.row())
    hook.cursor, hook.started, hook.to_end = hook.end, True, True
