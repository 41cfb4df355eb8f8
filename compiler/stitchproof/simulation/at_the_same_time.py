"""Rows whose two edges are shaped at the same time, each by a line of its own."""

from __future__ import annotations

from functools import partial

from stitchproof.rows.row_tree import EndOf, Even, FastenOff, Rework, RowTree, Shaping, Stretch, Until, Work
from stitchproof.simulation.counts import Tally
from stitchproof.simulation.fabric import Parts
from stitchproof.simulation.row_work import RowWork
from stitchproof.simulation.schedules import edge_shaping, shaped_row
from stitchproof.simulation.side import Side
from stitchproof.simulation.slips import CountWrong, RowsRunOut, SameEdge
from stitchproof.simulation.stated import count_slips
from stitchproof.simulation.targets import value

MOST_ROWS = 10_000


def take_schedule(trees: Parts, work: RowWork) -> bool:
    """Whether a line tells a shaping at one edge, to be worked together with that at the other; it is kept for its rows."""
    fabric, found = work.fabric, False
    if any(isinstance(item, Shaping) and item.row for tree in trees for item in tree.items):
        return False
    for part, tree in enumerate(trees):
        told = edge_shaping(tree, fabric.side or Side.RS, work.size)
        if told is None:
            continue
        shaping, word = told
        fabric.count_from(word, only_first=True)
        fabric.schedule_word = fabric.schedule_word or word
        for other in fabric.schedule:
            if shaping.at_start is not None and other.at_start is shaping.at_start:
                work.tell(SameEdge(other.name, shaping.name, shaping.at), part)
                fabric.shaken = True
        fabric.schedule.append(shaping)
        _hold_losses(tree, sum(_lost(each, work) for each in shaping.shapings.values()), work, part)
        found = True
    return found


def _lost(work: Work, rows: RowWork) -> int:
    facts = rows.ways.facts(work.stitch)
    return facts.takes - facts.makes


def _hold_losses(tree: RowTree, lost: int, work: RowWork, part: int) -> None:
    """Hold "9 sts dec at neck edge" against what the schedule loses. It is reported when it is known how many rows there are."""
    for count in (count for stated in tree.stated for count in stated.counts):
        said = value(count.amount, work.size)
        if count.change and said is not None and said != lost:
            slip = CountWrong(said, lost, count.thing.name if count.thing else "", count.change, count.at)
            work.fabric.schedule_slips.append(partial(work.report, slip, part))


def work_scheduled(trees: Parts, work: RowWork) -> bool:
    """Work up to a row that is checked, or to the end of the stretch. False: it cannot be worked."""
    fabric, proved = work.fabric, True
    for part, tree in enumerate(trees):
        for item in tree.items:
            if isinstance(item, EndOf):
                number = value(item.rows.first, work.size) if item.rows.first else None
                proved = _up_to(number, item.rows.word, item.at, work) and proved
            elif isinstance(item, Even | Rework) and item.until and item.until.what == "rows":
                number = value(item.until.amount, work.size)
                proved = _up_to(number, item.until.noun, item.at, work) and proved
                _finish(number, item.until, work, part)
            elif isinstance(item, FastenOff):
                fabric.cut_off = True
        if proved:
            _hold_counts(tree, work, part)
    return proved


def _finish(number: int | None, until: Until, work: RowWork, part: int) -> None:
    """The end of the stretch: whether its shaping fits in, and what was wrong with it from the start."""
    fabric = work.fabric
    last = max((edge.last for edge in fabric.schedule), default=0)
    if number is not None and last > number:
        work.tell(RowsRunOut(last, number, until.noun, until.at, len(fabric.schedule_slips) > 0), part)
        fabric.shaken = True
    elif fabric.schedule_slips and not fabric.shaken:
        fabric.schedule_slips[0]()
        fabric.shaken = True
    fabric.schedule, fabric.schedule_word, fabric.schedule_slips = [], "", []


def _hold_counts(tree: RowTree, work: RowWork, part: int) -> None:
    """Hold what a line states against the row it stands at; once a count is wrong the later ones follow from it."""
    fabric = work.fabric
    tally = Tally(fabric.last_made, fabric.last_made, rows=len(fabric.rows))
    slips = [slip for each in tree.stated for slip in count_slips(each, tally, work.ways, work.size, work.basis)]
    for slip in slips[:1]:
        if not fabric.schedule_slips:
            work.tell(slip, part)
            fabric.shaken = True
    if not fabric.schedule and tree.stated and (slips or fabric.shaken):
        work.go_on_from(tree.stated)


def _up_to(number: int | None, word: str, at: Stretch, work: RowWork) -> bool:
    fabric = work.fabric
    if number is None or any(edge.at_start is None for edge in fabric.schedule):
        return False
    while fabric.done(word) < min(number, MOST_ROWS):
        row = shaped_row(fabric.done(word) + 1, fabric.side or Side.RS, fabric.schedule, at)
        if not work.row((row,), "", None):
            return False
    return True
