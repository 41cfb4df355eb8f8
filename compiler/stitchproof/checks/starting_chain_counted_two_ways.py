"""SP163 starting-chain-counted-two-ways

Severity  error
Checks    in rows of one stitch the chain at the start counts as a stitch in all of them, or in none.
Matters   where one row counts it and the others do not, the maker works into it, or not, by guess: a stitch comes or goes.
Mend      keep to one rule for each stitch and say it once.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1 (does not count as a st), hdc in each st across, turn. — 20 hdc
    Row 3: Ch 1 (does not count as a st), hdc in each st across, turn. — 20 hdc
    Row 4: Ch 2 (counts as hdc), sk first st, hdc in each st across, turn. — 20 hdc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 3 (counts as dc), sk first st, dc in each st across, turn. — 20 dc
    Row 3: Ch 1 (does not count as a st), sc in each st across, turn. — 20 sc
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from msgspec import Struct

from stitchproof.checks.row_findings import row_report, row_words
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Step
from stitchproof.rows.row_tree import Chain, InLoops, Item, Remark, Repeat, RowTree, Segment, Stretch, Work
from stitchproof.rows.written_pattern import ReadStep
from stitchproof.simulation.slips import CannotWork
from stitchproof.simulation.worked_pattern import RowFinding, WorkedPattern

PAGE = read_page(__doc__)


class _Start(Struct, frozen=True):
    """A row's starting chain: the plain stitch that follows it, and whether it counts."""

    step: Step
    part: int
    stitch: str
    counts: bool
    said: bool
    at: Stretch


def counted_two_ways(worked: WorkedPattern, report: Report) -> None:
    """Rows whose starting chain counts otherwise than in the other rows of the same stitch."""
    starts = list(_starts(worked))
    for stitch in dict.fromkeys(start.stitch for start in starts):
        held = [start for start in starts if start.stitch == stitch]
        ways = Counter(start.counts for start in held)
        if len(ways) < 2 or not all(any(each.said and each.counts is way for each in held) for way in ways):
            continue
        usual = max(ways, key=lambda way: ways[way])
        for start in held:
            if start.counts is not usual:
                _tell(start, usual, worked, report)


def _tell(start: _Start, usual: bool, worked: WorkedPattern, report: Report) -> None:
    for size in start.step.served:
        finding = RowFinding(CannotWork("", start.at), start.step, start.part, size)
        here, there = ("counts", "does not count") if start.counts else ("does not count", "counts")
        report.add(
            row_report(
                PAGE,
                f"the chain at the start of {row_words(finding)} {here}, and elsewhere it {there}",
                finding,
                start.at,
                f"{here} here",
                f"rows of {start.stitch}: in the others the chain at the start {there}",
                worked,
            )
        )


def _starts(worked: WorkedPattern) -> Iterator[_Start]:
    for_good = {number: chain.counts for chain in _throughout(worked) for number in chain.number.values}
    facts = worked.written.facts
    for read in worked.written.readings:
        chain = _first_chain(read)
        if chain is None:
            continue
        part, held, stitch = chain
        counts = held.counts if held.counts is not None else for_good.get(held.number.values[0])
        if counts is None:
            continue
        base = facts[stitch].base if stitch in facts else stitch
        yield _Start(read.step, part, base, bool(counts), True, held.at)


def _first_chain(read: ReadStep) -> tuple[int, Chain, str] | None:
    """The chain that a row begins with, and the first stitch after it."""
    for part, each in enumerate(read.parts):
        items = each.reading.items if isinstance(each.reading, RowTree) else ()
        items = tuple(item for item in items if not isinstance(item, Remark | Segment | InLoops))
        if items and isinstance(items[0], Chain):
            stitch = next((work.stitch for work in _works(items[1:]) if work.stitch not in ("", "slst")), "")
            return (part, items[0], stitch) if stitch else None
    return None


def _works(items: tuple[Item, ...]) -> Iterator[Work]:
    for item in items:
        if isinstance(item, Work):
            yield item
        elif isinstance(item, Repeat):
            yield from _works(item.items)


def _throughout(worked: WorkedPattern) -> Iterator[Chain]:
    for read in worked.written.readings:
        for part in read.parts:
            for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                if isinstance(item, Chain) and item.for_good and item.counts is not None:
                    yield item


CHECKS = (counted_two_ways,)
