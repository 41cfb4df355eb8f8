"""Rows that close a piece: two of its edges slipped together, stitch to stitch."""

from __future__ import annotations

from stitchproof.rows.row_tree import Remark, Segment, Work
from stitchproof.simulation.counts import Tally
from stitchproof.simulation.fabric import Parts
from stitchproof.simulation.position import Kind
from stitchproof.simulation.row_work import RowWork
from stitchproof.simulation.slips import EdgesDiffer
from stitchproof.simulation.stated import report_counts


def is_seam(trees: Parts) -> bool:
    """Whether a row works through two edges at once, by slip stitches only."""
    items = [item for tree in trees for item in tree.items]
    works = [item for item in items if isinstance(item, Work)]
    together = any(isinstance(item, Segment | Remark) and "together" in item.words for item in items)
    return together and bool(works) and all(work.stitch == "slst" for work in works)


def work_seam(trees: Parts, work: RowWork) -> bool:
    """Hold the two edges against each other. False: one of them is not known."""
    fabric = work.fabric
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
