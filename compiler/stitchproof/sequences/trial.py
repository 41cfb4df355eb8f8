"""A row tried: worked in every size it serves, on copies, under given conventions."""

from __future__ import annotations

from dataclasses import dataclass, field

from msgspec import Struct
from msgspec.structs import replace as changed

from stitchproof.rows.row_tree import Join, Repeat, RowTree, Turn
from stitchproof.sequences.read_rows import ReadRow
from stitchproof.simulation.counts import Basis, Tally
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.piece_work import PieceWork
from stitchproof.simulation.row_work import RowWork
from stitchproof.simulation.slips import CannotWork, Fit, NumberWrong, SideWrong, Slip, WrongCourse, YarnIsCut
from stitchproof.simulation.ways import Course, Ways

_NOT_JUDGED = (NumberWrong, SideWrong, WrongCourse, YarnIsCut)
"""What an excerpt cannot show: the rows between are left out."""


class Habits(Struct, frozen=True):
    """Conventions in force: ways of working, and what counts include.

    told: the starting chains of which the file itself says what they count as; they are not tried otherwise.
    """

    ways: Ways
    basis: Basis
    told: frozenset[tuple[int, str]] = frozenset()


@dataclass(slots=True)
class Strand:
    """One size of a sequence as far as it is worked. known: whether what is live is known; doubtful: it follows a fault.

    candidates: other readings of what is live.
    """

    fabric: Fabric
    known: bool = True
    doubtful: bool = False
    candidates: list[LiveRow] = field(default_factory=list)

    def copy(self, ways: Ways) -> Strand:
        """A strand that can be worked on without touching this one."""
        fabric = self.fabric.copied()
        fabric.ways, fabric.census, fabric.shaken = ways, {}, False
        return Strand(fabric, self.known, self.doubtful, list(self.candidates))


class Tried(Struct, frozen=True, eq=False):
    """A row worked in one size. tally: for counting; None where it could not be worked."""

    strand: Strand
    slips: tuple[Slip, ...]
    tally: Tally | None
    fit: Fit | None = None
    cut_short: bool = False

    @property
    def cannot(self) -> CannotWork | None:
        return next((slip for slip in self.slips if isinstance(slip, CannotWork)), None)


class Trial(Struct, frozen=True, eq=False):
    """A row worked in its sizes under some habits."""

    habits: Habits
    by_size: dict[int, Tried]

    @property
    def closes(self) -> bool:
        return not any(tried.slips for tried in self.by_size.values())

    @property
    def cut_short(self) -> bool:
        return any(tried.cut_short for tried in self.by_size.values())

    @property
    def cannot(self) -> CannotWork | None:
        return next((tried.cannot for tried in self.by_size.values() if tried.cannot), None)


def try_row(row: ReadRow, tree: RowTree, strands: dict[int, Strand], habits: Habits) -> Trial:
    """Work a row on copies of the strands of its sizes."""
    ways = changed(habits.ways, course=course_of(row, tree, habits.ways.course))
    return Trial(habits, {size: _tried(row, tree, strand.copy(ways), size, habits) for size, strand in strands.items()})


def _tried(row: ReadRow, tree: RowTree, strand: Strand, size: int, habits: Habits) -> Tried:
    slips: list[Slip] = []

    def report(slip: Slip, part: int, as_row: str = "") -> None:
        if not isinstance(slip, _NOT_JUDGED):
            slips.append(slip)

    fabric = strand.fabric
    before = fabric.row or LiveRow()
    work = RowWork(fabric, size, report, habits.basis, strand.candidates)
    PieceWork(work, frozenset(), _no_piece).step(row.label, (tree,))
    strand.candidates = []
    last = work.worked_last
    cut_short = bool(last and last.cut_short)
    if slips and isinstance(slips[-1], CannotWork):
        return Tried(strand, tuple(slips), None)
    tally = Tally(
        fabric.last_made,
        before,
        last.slip_stitches if last else 0,
        fabric.old_chain,
        len(fabric.rows),
    )
    return Tried(strand, tuple(slips), tally, last.fit if last else None, cut_short)


def _no_piece(name: str) -> Fabric | None:
    """A sequence is one piece; there are no others to work it as."""
    return None


def course_of(row: ReadRow, tree: RowTree, usual: Course) -> Course:
    """How this row goes on from the one before: what it says itself comes first."""
    joins = any(isinstance(item, Join) and not item.not_joined for item in _flat(tree))
    turns = any(isinstance(item, Turn) and not item.not_turned for item in _flat(tree))
    in_rounds = usual.in_rounds or bool(row.label and row.label.in_rounds)
    if joins and in_rounds:
        return Course.TURNED if turns else Course.JOINED
    if row.label and row.label.in_rounds and not usual.in_rounds:
        return Course.TURNED if turns else Course.JOINED
    return Course.TURNED if turns and usual.in_rounds else usual


def _flat(tree: RowTree) -> list[object]:
    found: list[object] = []
    waiting = list(tree.items)
    while waiting:
        item = waiting.pop()
        found.append(item)
        if isinstance(item, Repeat):
            waiting += [*item.items, *(item.ending or ())]
    return found
