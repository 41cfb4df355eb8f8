"""Works a published sequence row by row: the trade's usual reading first, another convention only where exactly it closes."""

from __future__ import annotations

from dataclasses import dataclass, field

from msgspec.structs import replace

from stitchproof.reading.written_sequence import WrittenSequence
from stitchproof.rows.row_tree import Chain, NotRead, RowTree, Work
from stitchproof.rows.row_words import RowWords
from stitchproof.sequences.agreement import OFFSETS, agrees, basis_that_agrees, is_right
from stitchproof.sequences.beginnings import usual_course, usual_stitch
from stitchproof.sequences.convention_words import read_conventions
from stitchproof.sequences.conventions import conventions_for, flat_items
from stitchproof.sequences.known_rows import emptied, faults_of, makes_its_own, plain_total, remember, unproved
from stitchproof.sequences.labels import Labels, Place
from stitchproof.sequences.offsets import may_be_offset, single_offsets, start_of_count
from stitchproof.sequences.outcomes import Fault, RowOutcome, SequenceOutcome, Verdict
from stitchproof.sequences.read_rows import ReadRow, read_rows
from stitchproof.sequences.start_words import read_start
from stitchproof.sequences.trial import Habits, Strand, Trial, Tried, try_row
from stitchproof.simulation.counts import Basis
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.live_row import row_of
from stitchproof.simulation.position import stitch
from stitchproof.simulation.row_work import founds
from stitchproof.simulation.ways import Ways

_BASIS_NAMES = {
    Basis.STITCHES: "counts are of stitches",
    Basis.AND_SPACES: "each chain space counts as a st",
    Basis.AND_CHAINS: "each chain of a space counts as a st",
    Basis.NOT_STARTING_CHAIN: "counts leave out the starting chain",
    Basis.WITH_STARTING_CHAIN: "counts include the starting chain",
}
NEAR = 8
"""How far from its stated count the number of stitches below a row is looked for."""
MOST_SOLVED = 2_000
CUT_SHORT = "the last repeat is cut short"


def work_sequence(sequence: WrittenSequence) -> SequenceOutcome:
    """Every row of a sequence, worked in every size."""
    words = RowWords(sequence.terms)
    bench = _begun(sequence, words)
    for row in bench.rows:
        bench.outcomes.append(bench.row(row))
    return SequenceOutcome(sequence, tuple(single_offsets(bench.outcomes)))


def _begun(sequence: WrittenSequence, words: RowWords) -> _Bench:
    said = read_conventions(sequence.convention.text if sequence.convention else "", words)
    rows = read_rows(sequence, words)
    for row in sequence.rows:
        printed = read_conventions(row.printed_as, words)
        said.chain_counts.update({key: counts for key, counts in printed.chain_counts.items() if key[0]})
    start = read_start(sequence, words, "st" if any(said.chain_counts.values()) else "")
    course = said.course or usual_course(rows, start.joined)
    ways = Ways(course, words.facts, said.chain_counts, lenient=True, stacked=said.stacked, plain=usual_stitch(rows))
    told = frozenset(key for key in said.chain_counts if key[0])
    habits = Habits(ways, said.basis or Basis.STITCHES, told)
    strands = {}
    for size, live in enumerate(start.rows):
        fabric = Fabric(sequence.id.text, ways, live, live)
        strands[size] = Strand(fabric, known=live is not None)
    return _Bench(rows, habits, strands)


@dataclass(slots=True)
class _Bench:
    """A sequence being worked. behind: where the row before was worked from, for another look at it."""

    rows: tuple[ReadRow, ...]
    habits: Habits
    strands: dict[int, Strand]
    labels: Labels = field(default_factory=Labels)
    outcomes: list[RowOutcome] = field(default_factory=list)
    marks: dict[str, dict[int, Strand]] = field(default_factory=dict)
    behind: tuple[ReadRow, RowTree, dict[int, Strand], Habits] | None = None

    def row(self, row: ReadRow) -> RowOutcome:
        """Work the next row."""
        place = self.labels.place(row.label, row.served, row.name)
        self._go_back(row)
        if isinstance(row.reading, NotRead):
            self._from_stated(row)
            return RowOutcome(row, Verdict.NOT_READ, words=row.reading.words)
        outcome = self._worked(row, row.reading, place)
        if place.wrong and outcome.verdict not in (Verdict.FAULTY,):
            faults: tuple[tuple[int, Fault], ...] = tuple((size, place.wrong) for size in row.served)
            outcome = replace(outcome, verdict=Verdict.FAULTY, faults=faults)
        self.marks[row.name.lower()] = {size: strand.copy(self.habits.ways) for size, strand in self.strands.items()}
        return outcome

    def _go_back(self, row: ReadRow) -> None:
        held = self.marks.get(row.as_far_as.lower()) if row.as_far_as else None
        for name, strands in self.marks.items() if row.as_far_as and held is None else ():
            held = strands if name and name in row.as_far_as.lower() else held
        if held:
            self.strands = {size: strand.copy(self.habits.ways) for size, strand in held.items()}
            self.behind = None

    def _worked(self, row: ReadRow, tree: RowTree, place: Place) -> RowOutcome:
        self._learn_said(tree)
        strands = {size: self.strands[size] for size in row.served}
        if not any(strand.known for strand in strands.values()) and not founds((tree,), self.habits.ways):
            return self._restart(row, tree)
        if makes_its_own(tree, self.habits.ways, is_new=place.begins and bool(self.outcomes)):
            strands = {size: Strand(emptied(strand.fabric)) for size, strand in strands.items()}
        usual = try_row(row, tree, strands, self.habits)
        if usual.cannot:
            self._from_stated(row)
            return RowOutcome(row, Verdict.NOT_WORKED, right=unproved(row), words=usual.cannot.words)
        found = (
            self._usual(row, usual)
            or self._inferred(row, tree, strands)
            or self._another_look(row, tree)
            or self._usual(row, usual, offsets=True)
            or self._blamed_before(row, tree)
        )
        if found:
            return self._accept(row, tree, strands, usual, *found)
        return self._faulty(row, tree, usual, place)

    def _usual(self, row: ReadRow, trial: Trial, offsets: bool = False) -> tuple[Trial, tuple[str, ...], Habits] | None:
        """The trade's usual reading, if it closes and agrees; a basis that is not yet in force is a convention as well."""
        if not trial.closes or (trial.cut_short and not row.stated):
            return None
        basis = basis_that_agrees(row, trial)
        if basis is None or (basis in OFFSETS and not (offsets and may_be_offset(row, self.habits))):
            return None
        names = () if basis is self.habits.basis else (_BASIS_NAMES[basis],)
        if trial.cut_short:
            names = (*names, CUT_SHORT)
        kept = trial.habits if basis in OFFSETS else replace(trial.habits, basis=basis)
        return trial, names, kept

    def _inferred(
        self, row: ReadRow, tree: RowTree, strands: dict[int, Strand]
    ) -> tuple[Trial, tuple[str, ...], Habits] | None:
        """The first convention, or two of them, under which the row closes and agrees; without a stated count one only."""
        for names, habits, kept in conventions_for(tree, self.habits, strands, 2 if row.stated else 1):
            trial = try_row(row, tree, strands, habits)
            if not trial.closes or (trial.cut_short and not row.stated):
                continue
            basis = basis_that_agrees(row, trial)
            if basis is None or (basis in OFFSETS):
                continue
            more = () if basis is self.habits.basis else (_BASIS_NAMES[basis],)
            if len(names) + len(more) > 2:
                continue
            return trial, (*names, *more), replace(kept, basis=basis)
        return None

    def _another_look(self, row: ReadRow, tree: RowTree) -> tuple[Trial, tuple[str, ...], Habits] | None:
        """The row before under another convention: one that agrees there too, and on which this row closes as usual."""
        if self.behind is None or not self.outcomes:
            return None
        before, its_tree, its_strands, habits = self.behind
        if before.served != row.served or not (before.stated or row.stated):
            return None
        for names, tried, kept in conventions_for(its_tree, habits, its_strands, 1):
            trial = try_row(before, its_tree, its_strands, tried)
            if not trial.closes or (trial.cut_short and not before.stated):
                continue
            basis = basis_that_agrees(before, trial)
            if basis is None or basis is not habits.basis:
                continue
            strands = {size: tried_.strand for size, tried_ in trial.by_size.items()}
            now = try_row(row, tree, strands, replace(kept, basis=basis))
            found = self._usual_on(row, now, basis)
            if found:
                old = self.outcomes[-1]
                self.outcomes[-1] = replace(
                    old, verdict=Verdict.INFERRED, conventions=names, right=is_right(before, trial, basis)
                )
                return found
        return None

    def _blamed_before(self, row: ReadRow, tree: RowTree) -> tuple[Trial, tuple[str, ...], Habits] | None:
        """A count before that only an unusual convention explained is wrong, if without it this row comes out right."""
        if self.behind is None or not self.outcomes or not self.outcomes[-1].otherwise:
            return None
        before, its_tree, its_strands, habits = self.behind
        trial = try_row(before, its_tree, its_strands, habits)
        if before.served != row.served or not trial.closes or not row.stated:
            return None
        strands = {size: tried.strand for size, tried in trial.by_size.items()}
        now = try_row(row, tree, strands, habits)
        found = self._usual_on(row, now, habits.basis)
        if found:
            old = self.outcomes[-1]
            self.outcomes[-1] = replace(
                old,
                verdict=Verdict.FAULTY,
                conventions=(),
                faults=old.otherwise,
                right=is_right(before, trial, habits.basis) if before.has_published else None,
            )
        return found

    def _usual_on(self, row: ReadRow, trial: Trial, basis: Basis) -> tuple[Trial, tuple[str, ...], Habits] | None:
        if not trial.closes or trial.cut_short or basis_that_agrees(row, trial) is not basis:
            return None
        return trial, (), trial.habits

    def _accept(
        self,
        row: ReadRow,
        tree: RowTree,
        strands: dict[int, Strand],
        usual: Trial,
        trial: Trial,
        names: tuple[str, ...],
        kept: Habits,
    ) -> RowOutcome:
        basis = basis_that_agrees(row, trial) or trial.habits.basis
        self.behind = (row, tree, strands, self.habits)
        self.habits = kept
        for size, tried in trial.by_size.items():
            self.strands[size] = tried.strand
            tried.strand.known = tried.strand.fabric.row is not None
            if row.stated:
                tried.strand.doubtful = False
        right = is_right(row, trial, basis) if row.has_published else None
        otherwise = faults_of(row, usual) if names and row.stated else ()
        verdict = Verdict.INFERRED if names else Verdict.PROVED
        return RowOutcome(
            row, verdict, names, right=right, otherwise=otherwise, start=start_of_count(row, tree, trial, basis)
        )

    def _faulty(self, row: ReadRow, tree: RowTree, trial: Trial, place: Place) -> RowOutcome:
        """Nothing usual makes the row right. Where rows are left out before it, what it is worked on is not known."""
        right = is_right(row, trial, trial.habits.basis) if row.has_published else None
        self.behind = None
        doubtful = any(self.strands[size].doubtful for size in row.served)
        if place.after_a_gap:
            return self._restart(row, tree)
        faults = faults_of(row, trial)
        for size, tried in trial.by_size.items():
            self.strands[size] = self._after_fault(row, tried.strand, size)
        return RowOutcome(row, Verdict.FOLLOWS if doubtful else Verdict.FAULTY, faults=faults, right=right)

    def _after_fault(self, row: ReadRow, strand: Strand, size: int) -> Strand:
        """Walk on from the stated count, with what was worked as the other reading; without one, in doubt."""
        stated = plain_total(row, size)
        made = strand.fabric.row
        if stated is not None:
            strand.candidates = [made] if made is not None else []
            strand.fabric.row = row_of((stitch(self.habits.ways.plain), stated))
            strand.doubtful = False
        else:
            strand.doubtful = True
        strand.known = strand.fabric.row is not None
        return strand

    def _restart(self, row: ReadRow, tree: RowTree) -> RowOutcome:
        """Nothing is known below. The row is worked on the number of stitches with which it comes to its stated count."""
        self._from_stated(row)
        if not row.stated:
            return RowOutcome(row, Verdict.SILENT, right=unproved(row))
        found: dict[int, Tried] = {}
        for size in row.served:
            stated = plain_total(row, size)
            tried = self._solved(row, tree, size, stated) if stated else None
            if tried is None:
                return RowOutcome(row, Verdict.FROM_STATED, right=unproved(row))
            found[size] = tried
        for size, tried in found.items():
            self.strands[size] = tried.strand
        trial = Trial(self.habits, found)
        return RowOutcome(row, Verdict.FROM_STATED, right=is_right(row, trial, self.habits.basis))

    def _solved(self, row: ReadRow, tree: RowTree, size: int, stated: int) -> Tried | None:
        """The row on plain stitches of the first number that gives its stated count: the same, half of it, double it."""
        near = range(max(stated - NEAR, 1), stated + NEAR + 1)
        for number in dict.fromkeys(
            (stated, *near, *range(max(stated // 2 - 1, 1), stated // 2 + 2), *range(stated * 2 - 1, stated * 2 + 2))
        ):
            if number > MOST_SOLVED:
                continue
            strand = self.strands[size].copy(self.habits.ways)
            strand.fabric.row = row_of((stitch(self.habits.ways.plain), number))
            trial = try_row(row, tree, {size: strand}, self.habits)
            if trial.closes and not trial.cut_short and agrees(row.stated, row.per_group, trial, self.habits.basis):
                return trial.by_size[size]
        return None

    def _from_stated(self, row: ReadRow) -> None:
        """Nothing is known below: what comes next is worked on the stated count, if it is a plain one."""
        self.behind = None
        for size in row.served:
            strand = self.strands[size].copy(self.habits.ways)
            stated = plain_total(row, size)
            strand.fabric.row = row_of((stitch(self.habits.ways.plain), stated)) if stated else None
            strand.fabric.next_chain, strand.fabric.marks, strand.fabric.old_chain = 0, (), False
            strand.known, strand.doubtful, strand.candidates = stated is not None, False, []
            if isinstance(row.reading, RowTree):
                remember(strand.fabric, row, row.reading, size)
            self.strands[size] = strand

    def _learn_said(self, tree: RowTree) -> None:
        """What a row says of its chains holds for rows that begin alike and say nothing."""
        counts = dict(self.habits.ways.chain_counts)
        first = next((item.stitch for item in flat_items(tree.items) if isinstance(item, Work)), "")
        for item in tree.items[:2]:
            if isinstance(item, Chain) and item.counts is not None:
                for number in item.number.values:
                    if hasattr(number, "numerator"):
                        counts[int(number.numerator), "" if item.for_good else first] = item.counts
        if counts != self.habits.ways.chain_counts:
            told = self.habits.told | {key for key in counts if counts[key] != self.habits.ways.chain_counts.get(key)}
            self.habits = replace(self.habits, ways=replace(self.habits.ways, chain_counts=counts), told=told)
