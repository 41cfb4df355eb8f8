"""Works a published sequence row by row: the trade's usual reading first, another convention only where exactly it closes."""

from __future__ import annotations

from dataclasses import dataclass, field

from msgspec.structs import replace

from stitchproof.reading.written_sequence import WrittenSequence
from stitchproof.rows.row_tree import Chain, Join, NotRead, Reach, RowTree, Skip, Work
from stitchproof.rows.row_words import RowWords
from stitchproof.sequences.agreement import OFFSETS, agrees, basis_that_agrees, is_right, wrong_counts
from stitchproof.sequences.convention_words import read_conventions
from stitchproof.sequences.conventions import conventions_for, flat_items, starting_chain
from stitchproof.sequences.labels import Labels, Place
from stitchproof.sequences.outcomes import Fault, RowOutcome, SequenceOutcome, Verdict
from stitchproof.sequences.read_rows import ReadRow, read_rows
from stitchproof.sequences.start_words import Start, read_start
from stitchproof.sequences.trial import Habits, Strand, Trial, Tried, try_row
from stitchproof.simulation.counts import Basis
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.hook import NOWHERE
from stitchproof.simulation.live_row import row_of
from stitchproof.simulation.position import stitch
from stitchproof.simulation.row_work import founds
from stitchproof.simulation.slips import DoesNotDivide
from stitchproof.simulation.stretches import key_of
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Course, Ways

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
    return SequenceOutcome(sequence, tuple(_single_offsets(bench.outcomes)))


def start_of(sequence: WrittenSequence) -> Start:
    """What the first row is worked into."""
    return read_start(sequence, RowWords(sequence.terms), "")


def _begun(sequence: WrittenSequence, words: RowWords) -> _Bench:
    said = read_conventions(sequence.convention.text if sequence.convention else "", words)
    rows = read_rows(sequence, words)
    for row in sequence.rows:
        printed = read_conventions(row.printed_as, words)
        said.chain_counts.update({key: counts for key, counts in printed.chain_counts.items() if key[0]})
    start = read_start(sequence, words, "st" if any(said.chain_counts.values()) else "")
    course = said.course or _course(rows, start.joined)
    ways = Ways(course, words.facts, said.chain_counts, lenient=True, stacked=said.stacked, plain=_plain(rows))
    told = frozenset(key for key in said.chain_counts if key[0])
    habits = Habits(ways, said.basis or Basis.STITCHES, told)
    strands = {}
    for size, row in enumerate(start.rows):
        fabric = Fabric(sequence.id.text, ways, row, row)
        strands[size] = Strand(fabric, known=row is not None)
    return _Bench(rows, habits, strands)


def _course(rows: tuple[ReadRow, ...], joined: bool) -> Course:
    in_rounds = joined or bool(rows and rows[0].label and rows[0].label.in_rounds)
    if not in_rounds:
        return Course.ROWS
    trees = [row.reading for row in rows if isinstance(row.reading, RowTree)]
    joins = any(isinstance(item, Join) and not item.not_joined for tree in trees for item in flat_items(tree.items))
    chains = any(isinstance(tree.items[0], Chain) for tree in trees if tree.items)
    return Course.JOINED if joins or chains else Course.SPIRAL


def _plain(rows: tuple[ReadRow, ...]) -> str:
    """The stitch that "inc" and "dec" are made of where the row names none: the first that the sequence names."""
    for row in rows:
        for item in flat_items(row.reading.items) if isinstance(row.reading, RowTree) else ():
            if isinstance(item, Work) and item.stitch not in ("", "inc", "dec", "slst"):
                return item.stitch
    return "sc"


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
        if _makes_its_own(tree, self.habits.ways, is_new=place.begins and bool(self.outcomes)):
            strands = {size: Strand(_emptied(strand.fabric)) for size, strand in strands.items()}
        usual = try_row(row, tree, strands, self.habits)
        if usual.cannot:
            self._from_stated(row)
            return RowOutcome(row, Verdict.NOT_WORKED, right=_unproved(row), words=usual.cannot.words)
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
        if basis is None or (basis in OFFSETS and not (offsets and _may_be_offset(row, self.habits))):
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
        """A count in the row before that only an unusual convention explained is wrong, if without it this row comes out right."""
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
        otherwise = _faults_of(row, usual) if names and row.stated else ()
        verdict = Verdict.INFERRED if names else Verdict.PROVED
        return RowOutcome(row, verdict, names, right=right, otherwise=otherwise, start=_start(row, tree, trial, basis))

    def _faulty(self, row: ReadRow, tree: RowTree, trial: Trial, place: Place) -> RowOutcome:
        """Nothing usual makes the row right. Where rows are left out before it, what it is worked on is not known."""
        right = is_right(row, trial, trial.habits.basis) if row.has_published else None
        self.behind = None
        doubtful = any(self.strands[size].doubtful for size in row.served)
        if place.after_a_gap:
            return self._restart(row, tree)
        faults = _faults_of(row, trial)
        for size, tried in trial.by_size.items():
            self.strands[size] = self._after_fault(row, tried.strand, size)
        return RowOutcome(row, Verdict.FOLLOWS if doubtful else Verdict.FAULTY, faults=faults, right=right)

    def _after_fault(self, row: ReadRow, strand: Strand, size: int) -> Strand:
        """Walk on from the stated count, with what was worked as the other reading; without one, in doubt."""
        stated = _plain_total(row, size)
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
            return RowOutcome(row, Verdict.SILENT, right=_unproved(row))
        found: dict[int, Tried] = {}
        for size in row.served:
            stated = _plain_total(row, size)
            tried = self._solved(row, tree, size, stated) if stated else None
            if tried is None:
                return RowOutcome(row, Verdict.FROM_STATED, right=_unproved(row))
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
            stated = _plain_total(row, size)
            strand.fabric.row = row_of((stitch(self.habits.ways.plain), stated)) if stated else None
            strand.fabric.next_chain, strand.fabric.marks, strand.fabric.old_chain = 0, (), False
            strand.known, strand.doubtful, strand.candidates = stated is not None, False, []
            if isinstance(row.reading, RowTree):
                _remember(strand.fabric, row, row.reading, size)
            self.strands[size] = strand

    def _learn_said(self, tree: RowTree) -> None:
        """What a row says of its chains holds for rows that begin alike and say nothing."""
        counts = dict(self.habits.ways.chain_counts)
        first = next((item.stitch for item in flat_items(tree.items) if isinstance(item, Work)), "")
        for item in tree.items[:2]:
            if isinstance(item, Chain) and item.counts is not None:
                for number in item.number.values:
                    if hasattr(number, "numerator"):
                        counts[int(number.numerator), "" if item.for_good else first] = item.counts  # type: ignore[union-attr]
        if counts != self.habits.ways.chain_counts:
            told = self.habits.told | {key for key in counts if counts[key] != self.habits.ways.chain_counts.get(key)}
            self.habits = replace(self.habits, ways=replace(self.habits.ways, chain_counts=counts), told=told)


def _remember(fabric: Fabric, row: ReadRow, tree: RowTree, size: int) -> None:
    """A row that was not worked can still be called for by its name or as one of the last."""
    label = row.label
    fabric.worked.append((tree,))
    if label and label.name:
        fabric.named[label.name.lower()] = (tree,)
    if label and label.rows:
        first, last = value(label.rows.first, size), value(label.rows.last or label.rows.first, size)
        for number in range(first or 0, min(last or -1, (first or 0) + 1000) + 1):
            fabric.by_label[key_of(label.rows.word), number] = (tree,)


def _makes_its_own(tree: RowTree, ways: Ways, is_new: bool) -> bool:
    """Whether a row brings its own chains or ring, so that what was live before does not matter."""
    for item in flat_items(tree.items):
        if isinstance(item, Work):
            foundation = ways.facts(item.stitch).foundation
            return foundation or (is_new and founds((tree,), ways))
        if isinstance(item, Chain) and founds((tree,), ways):
            return is_new
    return False


def _emptied(fabric: Fabric) -> Fabric:
    fresh = Fabric(fabric.piece, fabric.ways)
    fresh.named, fresh.by_label = dict(fabric.named), {}
    return fresh


def _may_be_offset(row: ReadRow, habits: Habits) -> bool:
    """Whether a row begins with a chain that could count as a stitch, and nothing says whether it does; one chain never does."""
    chains = 0
    for item in flat_items(row.reading.items) if isinstance(row.reading, RowTree) else ():
        if isinstance(item, Work):
            break
        if isinstance(item, Chain):
            chains += value(item.number, row.served[0] if row.served else 0) or 0
            if item.counts is not None:
                return False
    return chains > 1 and not any(key[0] == chains for key in habits.told)


def _plain_total(row: ReadRow, size: int) -> int | None:
    """The published total of stitches, if there is one plain one."""
    if len(row.stated) != 1 or row.per_group or row.stated[0].change:
        return None
    count = row.stated[0]
    name = count.thing.name if count.thing else "st"
    if name in ("chsp", "sp", "loop", "mesh", "repeat", "row", "rnd", "group", "shell", "rib"):
        return None
    return count.figures[size] if size < len(count.figures) else None


def _unproved(row: ReadRow) -> bool | None:
    """A row that is read but not worked has no count to compare: that is not a right one."""
    return False if row.has_published else None


def _faults_of(row: ReadRow, trial: Trial) -> tuple[tuple[int, Fault], ...]:
    """What is wrong with a row under the usual reading, in each size: the first thing in the text, else the count."""
    faults: list[tuple[int, Fault]] = [(size, tried.slips[0]) for size, tried in trial.by_size.items() if tried.slips]
    faults = faults or list(wrong_counts(row.stated, row.per_group, trial, trial.habits.basis))
    if not faults:  # it closes only if a repeat is cut short, and no count says that it is
        faults = [(size, DoesNotDivide(tried.fit, NOWHERE)) for size, tried in trial.by_size.items() if tried.fit]
    return tuple(faults)


def _start(row: ReadRow, tree: RowTree, trial: Trial, basis: Basis) -> tuple[int, str, bool] | None:
    """The chain a row starts with, the stitch behind it, and whether the stated count was taken to include the chain."""
    found = starting_chain(tree)
    if found is None or not row.stated or found[0] < 2:
        return None
    chains, first = found
    counts = bool(trial.habits.ways.counts_as(chains, first))
    if basis in OFFSETS:
        counts = not counts
    return chains, trial.habits.ways.facts(first).base, counts


def _single_offsets(outcomes: list[RowOutcome]) -> list[RowOutcome]:
    """A count that is one off in a single row is a mistake; one that is off in every row is a convention.

    A row that starts in the first stitch after the chain may differ: print has it both ways in one piece.
    """
    held = list(outcomes)
    for index, outcome in enumerate(held):
        if outcome.start is None or not outcome.otherwise or _starts_in_first(outcome.row):
            continue
        chains, stitch_, counts = outcome.start
        alike = [
            each.start[2]
            for each in outcomes
            if each.start and each is not outcome and each.start[:2] == (chains, stitch_)
        ]
        agreeing = sum(each == counts for each in alike)
        if (
            alike
            and agreeing < len(alike) - agreeing
            and any("starting chain" in name or f"ch {chains} before" in name for name in outcome.conventions)
        ):
            held[index] = replace(outcome, verdict=Verdict.FAULTY, conventions=(), faults=outcome.otherwise)
    return held


def _starts_in_first(row: ReadRow) -> bool:
    """Whether the first stitch of a row goes into its first place, which a chain that counts would make an increase."""
    tree = row.reading
    for item in flat_items(tree.items) if isinstance(tree, RowTree) else ():
        if isinstance(item, Work):
            return item.target is not None and item.target.reach is Reach.FIRST
        if isinstance(item, Skip):
            return True
    return False
