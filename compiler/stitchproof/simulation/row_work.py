"""Works the rows of a piece one after the other, in one size, and keeps what came of each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from stitchproof.rows.row_tree import Chain, Join, Reach, RowTree, Stated, Stretch, Work
from stitchproof.simulation.counts import Basis, Tally, total
from stitchproof.simulation.fabric import Fabric, Held, RowDone
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.live_row import LiveRow, row_of
from stitchproof.simulation.position import stitch
from stitchproof.simulation.slips import CannotWork, PartRoundJoined, Slip, WrongCourse
from stitchproof.simulation.spans import PartRound, Written, marks_of_part
from stitchproof.simulation.stated import count_slips, plain_total
from stitchproof.simulation.walk import Walked, walk
from stitchproof.simulation.ways import Course, Ways

Report = Callable[[Slip, int], None]
"""Takes a slip and the number of the part of the step in which it lies."""


@dataclass(slots=True)
class RowWork:
    """Works rows on a fabric. size: index of the size. candidates: other readings of the live edge, after a fault in it."""

    fabric: Fabric
    size: int
    report: Report
    basis: Basis = Basis.STITCHES
    candidates: list[LiveRow] = field(default_factory=list)

    @property
    def ways(self) -> Ways:
        return self.fabric.ways

    def base(self, row: LiveRow) -> LiveRow:
        """A row as the next one comes to its places."""
        return row.turned() if self.ways.course.turns else row

    def row(self, parts: tuple[RowTree, ...], word: str, number: int | None, stops: str = "") -> bool:
        """Work one row and hold its counts against it. False: it could not be worked, and nothing is known after it.

        stops: the name of a round that stops part of the way, so that the next one goes on from there.
        """
        fabric = self.fabric
        if fabric.row is None and not founds(parts):
            return self.restart(parts, word, number)
        below = fabric.row or LiveRow()
        walked = self._best(parts, below, bool(stops))
        slips = [(slip, part) for part, each in enumerate(walked) for slip in each.slips]
        last = walked[-1]
        if any(isinstance(slip, CannotWork) for slip, _ in slips):
            return self._cannot(parts, slips, word, number)
        slips += self._course_slips(last, parts)
        counted = self._count_slips(parts, walked, below)
        for slip, part in slips[:1] or counted[:1]:
            self.report(slip, part)
        if stops:
            self._enter_part(parts, walked, below, stops, bool(slips or counted))
        else:
            self.enter(parts, last, below, word, number, bool(slips or counted))
        return True

    def _enter_part(
        self, parts: tuple[RowTree, ...], walked: list[Walked], below: LiveRow, words: str, faulty: bool
    ) -> None:
        """Keep a round that stopped part of the way: the live edge begins where it stopped."""
        fabric, last = self.fabric, walked[-1]
        joins = [(number, item) for number, tree in enumerate(parts) for item in tree.items if isinstance(item, Join)]
        for number, item in joins if not faulty else ():
            if not item.not_joined:
                self.report(PartRoundJoined(words, item.at), number)
        works = [(number, item) for number, tree in enumerate(parts) for item in tree.items if isinstance(item, Work)]
        part, at = (works[-1][0], works[-1][1].at) if works else (0, Stretch(0, 0))
        base = self.base(below)
        taken = min(last.taken, last.available)
        fabric.keep_part(last.made)
        fabric.places.part = PartRound(base, last.made, taken, words, faulty, Written(self.report, part, at))
        fabric.row = fabric.places.part.ring()
        fabric.marks = marks_of_part(last.marks, last.marks_left, taken, len(base) - taken)
        fabric.old_chain, fabric.next_chain, fabric.cut_off = False, 0, last.cut_off

    def _best(self, parts: tuple[RowTree, ...], below: LiveRow, stops: bool) -> list[Walked]:
        """Walk on the row below; after a fault in it, on whichever reading of it lets this row close."""
        candidates = [below, *self.candidates]
        self.candidates = []
        tried = [self._walked(parts, candidate, stops) for candidate in candidates]
        for walked, candidate in zip(tried, candidates, strict=True):
            if not any(each.slips for each in walked) and not self._count_slips(parts, walked, candidate):
                return walked
        return tried[0]

    def _walked(self, parts: tuple[RowTree, ...], below: LiveRow, stops: bool) -> list[Walked]:
        course = self.ways.course
        base = self.base(below)
        hook = Hook(
            base,
            course.in_rounds,
            course is Course.SPIRAL,
            self.fabric.old_chain,
            pending_chain=self.fabric.next_chain,
            marks=self._marks(base),
            main_stitch=self.fabric.rows[-1].stitch if self.fabric.rows else "",
            left_declared=stops,
        )
        walked = []
        for number, tree in enumerate(parts):
            walked.append(walk(tree, hook, self.ways, self.size, is_last=number == len(parts) - 1))
            if walked[-1].slips:
                break
        return walked

    def _marks(self, base: LiveRow) -> tuple[Marker, ...]:
        if self.ways.course.turns:
            return tuple(mark.turned(len(base)) for mark in self.fabric.marks)
        return self.fabric.marks

    def _count_slips(self, parts: tuple[RowTree, ...], walked: list[Walked], below: LiveRow) -> list[tuple[Slip, int]]:
        found: list[tuple[Slip, int]] = []
        for number, (tree, each) in enumerate(zip(parts, walked, strict=False)):
            tally = Tally(each.made, below, each.slip_stitches, each.old_chain, len(self.fabric.rows) + 1)
            for stated in tree.stated:
                found += [(slip, number) for slip in count_slips(stated, tally, self.ways, self.size, self.basis)]
        return found

    def _course_slips(self, walked: Walked, parts: tuple[RowTree, ...]) -> list[tuple[Slip, int]]:
        course, at = self.ways.course, Stretch(0, 0)
        if walked.joined and course is Course.SPIRAL:
            return [(WrongCourse("joined", course.value, at), len(parts) - 1)]
        if walked.turned and course in (Course.SPIRAL, Course.JOINED):
            return [(WrongCourse("turned", course.value, at), len(parts) - 1)]
        return []

    def enter(
        self, parts: tuple[RowTree, ...], last: Walked, below: LiveRow, word: str, number: int | None, faulty: bool
    ) -> None:
        """Keep the row. After a fault go on from the stated count, with what was worked as the other reading."""
        fabric = self.fabric
        made = last.made
        if fabric.foundation is None:
            fabric.foundation = below if below else made
            fabric.own_foundation = not below
        main = _main_stitch(made)
        fabric.keep(RowDone(word, number, main, fabric.side, total(made, self.basis)), made, parts)
        fabric.places.part = None
        stated = plain_total(tuple(each for tree in parts for each in tree.stated), self.size)
        after = self._ring_after(last)
        if faulty and stated:
            fabric.row, self.candidates = row_of((stitch(main or "sc"), stated[0])), [after]
        else:
            fabric.row = after
        if len(last.left):
            fabric.left, fabric.divided_from = last.left, len(fabric.rows) - 1
        fabric.marks, fabric.old_chain, fabric.next_chain = last.marks, last.old_chain, last.next_chain
        fabric.cut_off = last.cut_off
        if last.held:
            fabric.held = [Held(row, chains) for row, chains in last.held]
        fabric.side = fabric.side.other if fabric.side and self.ways.course.turns else fabric.side
        if total(made, self.basis) == total(below, self.basis):
            fabric.plain = parts

    def _ring_after(self, last: Walked) -> LiveRow:
        """The live edge: of a spiral that has gone on over its own first stitch, the places it has not yet worked."""
        return (
            last.made.part(last.over, len(last.made)) if last.over and self.ways.course is Course.SPIRAL else last.made
        )

    def _cannot(self, parts: tuple[RowTree, ...], slips: list[tuple[Slip, int]], word: str, number: int | None) -> bool:
        slip, part = next((slip, part) for slip, part in slips if isinstance(slip, CannotWork))
        self.report(slip, part)
        return self.restart(parts, word, number)

    def restart(self, parts: tuple[RowTree, ...], word: str, number: int | None) -> bool:
        """After what could not be read: go on from the next plain stated count."""
        fabric = self.fabric
        stated = plain_total(tuple(each for tree in parts for each in tree.stated), self.size)
        noun = stated[1] if stated and stated[1] != "st" else self.ways.plain
        fabric.row = row_of((stitch(noun, self.ways.facts(noun).base), stated[0])) if stated else None
        fabric.restarted, fabric.rows_known = True, False
        fabric.keep(RowDone(word, number, noun, fabric.side, stated[0] if stated else 0), LiveRow(), parts)
        fabric.marks, fabric.next_chain, fabric.left = (), 0, None
        fabric.side = fabric.side.other if fabric.side and self.ways.course.turns else fabric.side
        return False


def founds(parts: tuple[RowTree, ...]) -> bool:
    """Whether the row makes its own foundation, or begins with chains to be worked into."""
    for item in parts[0].items if parts else ():
        if isinstance(item, Work):
            reach = item.target.reach if item.target else None
            return reach in (Reach.FROM_HOOK, Reach.AROUND_RING) or item.stitch.startswith("f")
        if not isinstance(item, Chain):
            continue
    return False


def _main_stitch(made: LiveRow) -> str:
    """The plain stitch that most of a row is made of."""
    counts: dict[str, int] = {}
    for run in made.runs:
        for position, number in run.unit:
            if position.is_stitch:
                counts[position.base] = counts.get(position.base, 0) + number * run.times
    return max(counts, key=lambda name: counts[name]) if counts else ""


def stated_of(parts: tuple[RowTree, ...]) -> tuple[Stated, ...]:
    """All counts that the parts of a row state."""
    return tuple(each for tree in parts for each in tree.stated)
