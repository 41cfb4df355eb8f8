"""Holds what a row states against what it has."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from stitchproof.rows.row_tree import RowTree, Stated, StatedCount
from stitchproof.simulation.counts import OF_ROWS, RIBS, Basis, Tally, of_count
from stitchproof.simulation.slips import CountWrong, HalfRibs, Slip
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Ways


def count_slips(stated: Stated, tally: Tally, ways: Ways, size: int, basis: Basis) -> Iterator[Slip]:
    """The counts that are not what the row has; those that cannot be told from it say nothing."""
    for count in stated.counts:
        said = value(count.amount, size)
        if said is None:
            continue
        noun = count.thing.name if count.thing else ""
        if noun in RIBS and tally.rows % 2:
            yield HalfRibs(tally.rows, said, count.at)
            continue
        worked = of_count(count, tally, ways, size, basis)
        if worked is not None and worked != said:
            yield CountWrong(said, worked, noun, count.change, count.at)


def plain_total(stated: tuple[Stated, ...], size: int) -> tuple[int, str] | None:
    """The stated total of a row in a size and its noun, if it is one plain count of stitches."""
    if not stated or len(stated[-1].counts) != 1 or stated[-1].per_group:
        return None
    count: StatedCount = stated[-1].counts[0]
    said = value(count.amount, size)
    noun = count.thing.name if count.thing else "st"
    if said is None or count.change or noun in (*OF_ROWS, "chsp", "slst"):
        return None
    return said, noun


def report_counts(
    tree: RowTree,
    tally: Tally,
    ways: Ways,
    size: int,
    basis: Basis,
    report: Callable[[Slip, int], None],
    part: int,
) -> None:
    """Report the counts of a line that are not what is there after it."""
    for stated in tree.stated:
        for slip in count_slips(stated, tally, ways, size, basis):
            report(slip, part)
