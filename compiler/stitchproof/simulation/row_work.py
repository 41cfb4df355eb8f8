"""Works the rows of a piece one after the other, in one size, and keeps what came of each."""

from __future__ import annotations

from typing import Protocol

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.rows.row_tree import (
    FastenOff,
    Join,
    Mark,
    Reach,
    Remark,
    RowTree,
    Segment,
    Stated,
    Stretch,
    Turn,
    Work,
)
from stitchproof.simulation.counts import Basis, Tally, total
from stitchproof.simulation.fabric import Fabric, Held, RowDone
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.live_row import LiveRow, row_of
from stitchproof.simulation.position import stitch
from stitchproof.simulation.readings import rows_stated, unlike
from stitchproof.simulation.round_joins import join_slips
from stitchproof.simulation.rows_walked import RowsWalked
from stitchproof.simulation.slips import (
    CannotWork,
    CountWrong,
    JoinedElsewhere,
    LeftOver,
    NoMarker,
    PartRoundJoined,
    PastEnd,
    SidesDiffer,
    Slip,
    WrongCourse,
)
from stitchproof.simulation.spans import PartRound, Written, marks_of_part
from stitchproof.simulation.stated import count_slips, plain_total
from stitchproof.simulation.walk import Walked, walk
from stitchproof.simulation.ways import Course, Ways


class Report(Protocol):
    """Takes a slip and the number of the part of the step in which it lies; of a row that another line has worked, as which."""

    def __call__(self, slip: Slip, part: int, as_row: str = "") -> None: ...


NO_STITCH = (Join, Turn, Mark, Remark, Segment, FastenOff)
"""What makes no stitch, whatever it is worked on."""

_SORTS: dict[type[Slip], str] = {WrongCourse: "course", JoinedElsewhere: "join"}
"""Slips that change nothing of what a row makes: it may have another one as well, and is worked on as if there were none."""


class Trial(Struct):
    """A row worked on one reading of the row below."""

    below: LiveRow
    walked: list[Walked]
    slips: list[tuple[Slip, int]]


class RowWork(Struct):
    """Works rows on a fabric. size: index of the size. candidates: other readings of the live edge, after a fault in it.

    walked: rows walked before, of all sizes of the piece. told: rows of which a slip is already reported, of the row itself or
    of its course; shared by all pieces of a size. worked_last: the row worked last. instead: the words of the line that calls
    for rows told elsewhere, and what it counts them in: what goes wrong with them there is shown there.
    homes: where rows that are defined by name are written, until one has come out: before that what is wrong is wrong there.
    """

    fabric: Fabric
    size: int
    report: Report
    basis: Basis = Basis.STITCHES
    candidates: list[LiveRow] = field(default_factory=list)
    walked: RowsWalked = field(default_factory=RowsWalked)
    told: set[tuple[str, int]] = field(default_factory=set)
    worked_last: Walked | None = None
    instead: tuple[Stretch, str] | None = None
    homes: dict[int, Report] = field(default_factory=dict)

    @property
    def ways(self) -> Ways:
        return self.fabric.ways

    @property
    def goes_on_from(self) -> tuple[object, ...]:
        """What the next row is walked on. A row that leaves it as it was leaves it so whenever it is worked again."""
        fabric = self.fabric
        return fabric.row, fabric.marks, fabric.next_chain, fabric.old_chain, fabric.main_stitch

    def base(self, row: LiveRow) -> LiveRow:
        """A row as the next one comes to its places."""
        return row.turned() if self.ways.course.turns else row

    def row(self, parts: tuple[RowTree, ...], word: str, number: int | None, stops: str = "") -> bool:
        """Work one row and hold its counts against it. False: it could not be worked, and nothing is known after it.

        stops: the name of a round that stops part of the way, so that the next one goes on from there.
        """
        fabric = self.fabric
        if not parts or (fabric.row is None and (fabric.chain_unknown or not founds(parts, self.ways))):
            self._hold_to_nothing(parts)
            return self.restart(parts, word, number)
        stated = told_stated = stated_of(parts)
        is_told = ("row", id(parts[0].items)) in self.told
        if is_told:
            parts, stated = without_counts(parts), ()  # its count is told to be wrong
        trials = [self._trial(parts, each, bool(stops)) for each in (fabric.row or LiveRow(), *self.candidates)]
        closing = [each for each in trials if not each.slips]
        best = closing[0] if closing else trials[0]
        self.worked_last = best.walked[-1]
        for slip, part in best.slips:
            if isinstance(slip, CannotWork):
                self._say(slip, part, parts)
                return self.restart(parts, word, number)
        for slip, part in self._course_slips(best.walked[-1], parts):
            self.once(slip, part, parts)
        if not (stops or best.walked[-1].slips):
            for join, part in join_slips(best.walked[-1].made, parts, self.ways, self.size):
                self.once(join, part, parts)
        for slip, part in best.slips[:1]:
            self.tell(slip, part, parts)
        self.homes.pop(id(parts[0].items), None)
        settled = len(closing) < len(trials) or (len(trials) == 1 and plain_total(stated, self.size) is not None)
        if stops:
            self._enter_part(parts, best, stops)
        else:
            self.enter(parts, best, word, number)
        if is_told:
            self._follow(told_stated)
        elif best.slips:
            fabric.shaken = fabric.has_fault = True
        elif settled:
            fabric.shaken, self.candidates = False, []
        else:
            ends = [each.walked[-1] for each in closing]
            self.candidates = unlike([end.made for end in ends if end.made != fabric.row])
            fabric.left_doubted = len(ends) > 1 and len({end.left for end in ends}) > 1
        return True

    def _follow(self, stated: tuple[Stated, ...]) -> None:
        """After a row that is told to be wrong and is worked again: what it makes and what it states are both open."""
        fabric = self.fabric
        made = fabric.row or LiveRow()
        readings = rows_stated(stated, made.main_stitch or self.ways.plain, self.size)
        fabric.row, *self.candidates = unlike([*readings, made, *self.candidates])
        fabric.shaken = fabric.has_fault = True

    def _hold_to_nothing(self, parts: tuple[RowTree, ...]) -> None:
        """Report a count stated of a row whose words make no stitch at all, where there is no row below to hold it against."""
        makes_none = all(isinstance(item, NO_STITCH) for tree in parts for item in tree.items)
        for part, tree in enumerate(parts):
            stated = plain_total(tree.stated, self.size)
            if makes_none and stated and tree.items:
                self.tell(CountWrong(stated[0], 0, stated[1], 0, tree.stated[-1].at), part, parts)

    def tell(self, slip: Slip, part: int, parts: tuple[RowTree, ...] = ()) -> None:
        """Report a slip, unless it follows from one that is reported, or from a row that is not known."""
        fabric = self.fabric
        no_sense = fabric.has_fault and isinstance(slip, NoMarker | SidesDiffer)
        if not (fabric.shaken or no_sense or (isinstance(slip, NoMarker) and fabric.restarted)):
            self.once(slip, part, parts)
        fabric.has_fault = True

    def once(self, slip: Slip, part: int, parts: tuple[RowTree, ...]) -> None:
        """Report a slip of a row that is worked more than once the first time."""
        key = (_SORTS.get(type(slip), "row"), id(parts[0].items)) if parts else None
        if key is None or key not in self.told:
            self._say(slip, part, parts)
        if key:
            self.told.add(key)

    def _say(self, slip: Slip, part: int, parts: tuple[RowTree, ...]) -> None:
        """Report a slip of a row where the row is written, or at the line that has a row worked which came out before."""
        if self.instead is None or not parts:
            self.report(slip, part)
            return
        at, noun = self.instead
        home = self.homes.get(id(parts[0].items))
        if home is None:
            self.report(replace(slip, at=at), 0)
        else:
            home(slip, part, f"{noun} {self.fabric.done(noun) + 1}")

    def _enter_part(self, parts: tuple[RowTree, ...], trial: Trial, words: str) -> None:
        """Keep a round that stopped part of the way: the live edge begins where it stopped."""
        fabric, last = self.fabric, trial.walked[-1]
        items = [(number, item) for number, tree in enumerate(parts) for item in tree.items]
        for number, item in items:
            if isinstance(item, Join) and not item.not_joined:
                self.once(PartRoundJoined(words, item.at), number, parts)
        works = [(number, item.at) for number, item in items if isinstance(item, Work)]
        part, at = works[-1] if works else (0, Stretch(0, 0))
        base = self.base(trial.below)
        taken = min(last.taken, last.available)
        fabric.keep_part(last.made)
        written = Written(self.report, part, at)
        fabric.places.part = PartRound(base, last.made, taken, words, bool(trial.slips), written)
        fabric.row = fabric.places.part.ring()
        left, places = len(base) - taken, len(fabric.row)
        fabric.marks = marks_of_part(last.marks, last.marks_left, taken, left, places)
        fabric.old_chain, fabric.next_chain, fabric.cut_off = False, 0, last.cut_off

    def _trial(self, parts: tuple[RowTree, ...], below: LiveRow, stops: bool) -> Trial:
        """The row worked on one reading of the row below."""
        walked = self._walked(parts, below, stops)
        slips = [
            (slip, each.end_part if isinstance(slip, LeftOver | PastEnd) else part)
            for part, each in enumerate(walked)
            for slip in each.slips
        ]
        return Trial(below, walked, slips or self._count_slips(parts, walked, below))

    def _walked(self, parts: tuple[RowTree, ...], below: LiveRow, stops: bool) -> list[Walked]:
        """Walk a row; one that comes again on an edge that is the same is not walked again."""
        fabric = self.fabric
        main = fabric.rows[-1].stitch if fabric.rows else ""
        key = (
            self.walked.row(parts, self.size),
            below,
            fabric.marks,
            fabric.next_chain,
            fabric.old_chain,
            main,
            stops,
        )
        return self.walked.find(key) or self.walked.keep(key, parts, self._walk(parts, below, stops))

    def _walk(self, parts: tuple[RowTree, ...], below: LiveRow, stops: bool) -> list[Walked]:
        course = self.ways.course
        base = self.base(below)
        hook = Hook(
            base,
            course.in_rounds,
            course is Course.SPIRAL,
            self.fabric.old_chain,
            pending_chain=self.fabric.next_chain,
            marks=self._marks(base),
            main_stitch=self.fabric.main_stitch,
            left_declared=stops,
        )
        walked = []
        for number, tree in enumerate(parts):
            hook.part = number
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
            if not tree.stated:
                continue
            tally = Tally(each.made, below, each.slip_stitches, each.old_chain, len(self.fabric.rows) + 1)
            for stated in tree.stated:
                found += [(slip, number) for slip in count_slips(stated, tally, self.ways, self.size, self.basis)]
        return found

    def _course_slips(self, walked: Walked, parts: tuple[RowTree, ...]) -> list[tuple[Slip, int]]:
        course = self.ways.course
        if walked.turned and course in (Course.SPIRAL, Course.JOINED):
            return [(WrongCourse(course.value, Stretch(0, 0)), len(parts) - 1)]
        return []

    def enter(self, parts: tuple[RowTree, ...], trial: Trial, word: str, number: int | None) -> None:
        """Keep the row. After a fault go on from the stated count, with what was worked as the other reading."""
        fabric, below, last = self.fabric, trial.below, trial.walked[-1]
        made = last.made
        if fabric.foundation is None:
            fabric.foundation = below if below else made
            fabric.own_foundation = not below
        main = made.main_stitch or fabric.main_stitch
        fabric.keep(RowDone(word, number, main, fabric.side, total(made, self.basis)), made, parts)
        fabric.places.part = None
        if trial.slips:
            readings = [*rows_stated(stated_of(parts), main or "sc", self.size), made, self._ring_after(last), below]
            fabric.row, *self.candidates = unlike(readings)
        else:
            fabric.row = self._ring_after(last)
        if len(last.left):
            fabric.left, fabric.divided_from = last.left, len(fabric.rows) - 1
            fabric.left_doubted = bool(trial.slips)
        stopped = bool(trial.slips) and len(last.marks) < len(fabric.marks)
        fabric.marks = fabric.marks if stopped else last.marks
        fabric.old_chain, fabric.next_chain = last.old_chain, last.next_chain
        fabric.cut_off = last.cut_off
        if last.held:
            fabric.held = [Held(row, chains) for row, chains in last.held]
        fabric.side = fabric.side.other if fabric.side and self.ways.course.turns else fabric.side
        if total(made, self.basis) == total(below, self.basis):
            fabric.plain = parts

    def go_on_from(self, stated: tuple[Stated, ...]) -> None:
        """After a count that is wrong: the stated count, with what was worked as the other reading."""
        fabric = self.fabric
        made = fabric.row or LiveRow()
        fabric.row, *self.candidates = unlike(
            [*rows_stated(stated, made.main_stitch or self.ways.plain, self.size), made]
        )
        fabric.shaken = True

    def _ring_after(self, last: Walked) -> LiveRow:
        """The live edge: of a spiral that has gone on over its own first stitch, the places it has not yet worked."""
        return (
            last.made.part(last.over, len(last.made)) if last.over and self.ways.course is Course.SPIRAL else last.made
        )

    def restart(self, parts: tuple[RowTree, ...], word: str, number: int | None) -> bool:
        """After what could not be read: go on from the next plain stated count."""
        fabric = self.fabric
        stated = plain_total(tuple(each for tree in parts for each in tree.stated), self.size)
        noun = stated[1] if stated and stated[1] != "st" else self.ways.plain
        fabric.row = row_of((stitch(noun, self.ways.facts(noun).base), stated[0])) if stated else None
        fabric.restarted, fabric.rows_known = True, False
        fabric.keep(RowDone(word, number, noun, fabric.side, stated[0] if stated else 0), LiveRow(), parts)
        fabric.marks, fabric.next_chain, fabric.left = (), 0, None
        self.candidates = []
        fabric.side = fabric.side.other if fabric.side and self.ways.course.turns else fabric.side
        return False


def founds(parts: tuple[RowTree, ...], ways: Ways) -> bool:
    """Whether the row makes its own foundation: foundation stitches only, chains to be worked into, or a ring."""
    works = [item for tree in parts for item in tree.items if isinstance(item, Work) and item.stitch != "slst"]
    if not works:
        return False
    reach = works[0].target.reach if works[0].target else None
    if reach in (Reach.FROM_HOOK, Reach.AROUND_RING):
        return True
    return all(ways.facts(work.stitch).foundation for work in works)


def without_counts(parts: tuple[RowTree, ...]) -> tuple[RowTree, ...]:
    """A row without what it states: worked again elsewhere it has other counts than it had."""
    return tuple(RowTree(tree.items, ()) for tree in parts)


def stated_of(parts: tuple[RowTree, ...]) -> tuple[Stated, ...]:
    """All counts that the parts of a row state."""
    return parts[0].stated if len(parts) == 1 else tuple([each for tree in parts for each in tree.stated])
