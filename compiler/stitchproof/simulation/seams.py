"""Rows that close a piece: two of its edges slipped together, stitch to stitch."""

from __future__ import annotations

from collections.abc import Callable

from stitchproof.rows.row_tree import JoinAs, Remark, Segment, Sewn, Work
from stitchproof.simulation.counts import Tally
from stitchproof.simulation.fabric import Fabric, Parts
from stitchproof.simulation.position import Kind
from stitchproof.simulation.row_work import RowWork
from stitchproof.simulation.slips import Absent, CountWrong, EdgesDiffer, NoSuchRow
from stitchproof.simulation.spans import SpanKnown
from stitchproof.simulation.stated import report_counts
from stitchproof.simulation.targets import value


def is_seam(trees: Parts) -> bool:
    """Whether a row works through two edges at once, by slip stitches only."""
    items = [item for tree in trees for item in tree.items]
    works = [item for item in items if isinstance(item, Work)]
    together = any(isinstance(item, Segment | Remark) and "together" in item.words for item in items)
    return together and bool(works) and all(work.stitch == "slst" for work in works)


def join_as(item: JoinAs, trees: Parts, other: Fabric | None, work: RowWork) -> bool:
    """Close a piece as another was closed. False: one of its edges is not known."""
    if other is None or not other.seam:
        work.report(NoSuchRow(f"the joining row of {item.piece}", item.at), 0)
        return True
    return work_seam(trees, work)


def sew(item: Sewn, part: int, work: RowWork, find_span: Callable[[str], tuple[Fabric, SpanKnown] | None]) -> None:
    """Hold two sides that are sewn stitch to stitch against each other, and their numbers against the spans."""
    if work.fabric.shaken:
        return
    sides: list[int] = []
    for side in (item.one, item.other):
        found = [find_span(name) for name in side.spans]
        missing = next((name for name, each in zip(side.spans, found, strict=True) if each is None), "")
        if missing:
            work.report(Absent(missing, "", side.at), part)
            return
        numbers = [each[1].number for each in found if each]
        told = [each[1].told for each in found if each]
        said = value(side.number, work.size)
        if side.number and said not in (None, numbers[0], sum(numbers), told[0], sum(told)):
            work.report(CountWrong(said or 0, numbers[0], "sts", 0, side.number.at), part)
            return
        sides += numbers[:1]
        if any(number != numbers[0] for number in numbers):
            work.report(EdgesDiffer(numbers[0], next(each for each in numbers if each != numbers[0]), side.at), part)
            return
    if sides[0] != sides[1]:
        work.report(EdgesDiffer(sides[0], sides[1], item.at), part)


def work_seam(trees: Parts, work: RowWork) -> bool:
    """Hold the two edges against each other. False: one of them is not known."""
    fabric = work.fabric
    fabric.seam = trees
    if fabric.row is None or not fabric.foundation or not fabric.rows_known:
        return False
    if fabric.shaken:
        return True
    # A chain has one loop more than the stitches worked into it from the 2nd ch on.
    edge = len(fabric.foundation) - (1 if fabric.foundation.at(0).kind is Kind.CHAIN else 0)
    if edge != len(fabric.row) and not fabric.has_fault:
        work.report(EdgesDiffer(edge, len(fabric.row), trees[0].items[-1].at), 0)
    tally = Tally(fabric.row, fabric.row, slip_stitches=len(fabric.row), rows=len(fabric.rows))
    for part, tree in enumerate(trees):
        report_counts(tree, tally, work.ways, work.size, work.basis, work.report, part)
    return True
