"""Works the steps of a piece in one size: rows by their labels, stretches told in one line, and what stands between them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.rows.row_tree import (
    Even,
    FastenOff,
    JoinAs,
    JoinYarn,
    Label,
    NotRead,
    OnTrust,
    Reading,
    Remark,
    Rework,
    RowNumbers,
    RowTree,
    Sewn,
    Shaping,
    Stretch,
    Until,
    Work,
)
from stitchproof.simulation.at_the_same_time import take_schedule, work_scheduled
from stitchproof.simulation.between_rows import BETWEEN_ROWS, is_starting_chain, work_between
from stitchproof.simulation.counted_places import (
    LINES,
    SpanFinder,
    cut_at_places,
    no_span,
    outermost,
    tells_places,
    work_places,
)
from stitchproof.simulation.counts import Tally
from stitchproof.simulation.fabric import Fabric, Parts
from stitchproof.simulation.joining import join_pieces, meets_pieces
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.row_work import RowWork, founds, stated_of
from stitchproof.simulation.seams import is_seam, join_as, sew, work_seam
from stitchproof.simulation.side import Side
from stitchproof.simulation.slips import CountWrong, NumberWrong, SideWrong, Slip, YarnIsCut
from stitchproof.simulation.stated import count_slips, plain_total, report_counts
from stitchproof.simulation.stretches import MOST_ROWS, as_piece, even, key_of, rework, shaping
from stitchproof.simulation.targets import value
from stitchproof.simulation.worked_pattern import IN_LABEL, ORDER, Proof

STRETCHES = (Rework, Even, Shaping)
"""Items that tell of rows which are written elsewhere."""


class PieceWork(Struct):
    """A piece being worked in one size. called: the names of rows that other lines call for.

    others: pieces worked before in this size, by name. spans: those found so far in this size, by name; sewn: groups of spans
    that are sewn to each other somewhere in the pattern.
    numbers: the last number of each word of labels; numbers_before: the same at the end of the pieces before. due: the
    number that the row should have had, if it has another.
    """

    work: RowWork
    called: frozenset[str]
    others: Callable[[str], Fabric | None]
    spans: SpanFinder = no_span
    sewn: tuple[tuple[str, ...], ...] = ()
    numbers: dict[str, int] = field(default_factory=dict)
    numbers_before: dict[str, int] = field(default_factory=dict)
    due: int | None = None

    def copied(self) -> PieceWork:
        """The same as it stands now, to be worked on apart."""
        work = replace(self.work)
        work.fabric, work.candidates = self.fabric.copied(), list(self.work.candidates)
        work.told, work.homes = set(self.work.told), dict(self.work.homes)
        return PieceWork(work, self.called, self.others, self.spans, self.sewn, dict(self.numbers), self.numbers_before)

    @property
    def fabric(self) -> Fabric:
        return self.work.fabric

    @property
    def size(self) -> int:
        return self.work.size

    def step(self, label: Label | None, readings: tuple[Reading, ...]) -> Proof:
        """Work a step. How far it is proved."""
        trees, fabric = tuple(each for each in readings if isinstance(each, RowTree)), self.work.fabric
        if len(trees) < len(readings):
            trusted = any(isinstance(each, OnTrust) for each in readings)
            if label is not None or trusted or any(isinstance(each, NotRead) for each in readings):
                self._unknown(label, trees)
                return Proof.TRUSTED if trusted else Proof.NOT_READ
        if label and label.name and label.name.lower() in self.called:
            fabric.named[label.name.lower()] = trees
            self.work.homes[id(trees[0].items)] = self.work.report
            return Proof.TOLD
        items = [item for tree in trees for item in tree.items]
        kinds = {
            type(item) for item in items
        }  # a step is worked in every size: what it holds none of is not looked for
        if not kinds.isdisjoint(LINES):
            cut = cut_at_places(trees[0]) if len(trees) == 1 else []
            if len(cut) > 1:
                return worst([self.step(label if number == 0 else None, (tree,)) for number, tree in enumerate(cut)])
            if label is None and tells_places(trees):
                return self._proof(self._places(trees))
        if label is None and all(isinstance(item, BETWEEN_ROWS) for item in items) and not _stated(trees):
            work_between(items, self.work)
            return Proof.TOLD
        if label is None and is_starting_chain(items, fabric):
            work_between(items, self.work)
            return self._starting_chain(trees)
        if label is None and fabric.rows and all(isinstance(item, Remark) for item in items):
            self._hold_counts(trees, fabric.row or LiveRow())
            return self._proof(True)
        if Work in kinds and is_seam(trees):
            return self._proof(work_seam(trees, self.work))
        if Shaping in kinds and take_schedule(trees, self.work):
            return Proof.PROVED
        if fabric.schedule:
            worked = work_scheduled(trees, self.work)
            if not worked:
                self._unknown(label, trees)
            return self._proof(worked)
        stretches = [] if kinds.isdisjoint(STRETCHES) else _stretches(trees)
        if stretches:
            return self._stretches(stretches, trees, label)
        return self._row(label, trees)

    def _starting_chain(self, trees: Parts) -> Proof:
        """Hold what a line states of the chain that it makes or closes."""
        chain = Tally(self.fabric.row or LiveRow(), LiveRow())
        for part, tree in enumerate(trees):
            report_counts(tree, chain, self.work.ways, self.size, self.work.basis, self.work.tell, part)
        return Proof.TOLD

    def _row(self, label: Label | None, trees: Parts) -> Proof:
        fabric = self.fabric
        if self._too_many(label):
            self._unknown(label, trees)
            return Proof.NOT_READ
        word, first, last = self._numbered(label)
        if fabric.cut_off and not founds(trees, fabric.ways) and not _joins_yarn(trees):
            self.work.report(YarnIsCut(trees[0].items[0].at), 0)
        fabric.cut_off = False
        proved = True
        meets = meets_pieces(trees, fabric, self.others)
        stops = stops_part_way(label) if self.work.ways.course.in_rounds else ""
        for number in range(first, last + 1):
            self._side(label if number == first else None)
            if meets:
                proved = join_pieces(trees, word, number, self.work, self.others) and proved
            else:
                proved = self.work.row(trees, word, number, stops) and proved
        for slip, part in self._complete(trees) if proved else ():
            self.work.tell(slip, part)
        if label and label.rows:
            for number in range(first, last + 1):
                fabric.by_label[key_of(word), number] = trees
            if self.due is not None:
                fabric.by_label.setdefault((key_of(word), self.due), trees)
        self.due = None
        if label and label.name:
            fabric.named[label.name.lower()] = trees
        return self._proof(proved)

    def _places(self, trees: Parts) -> bool:
        """Lines about counted places, and pieces closed or sewn."""
        done = True
        for number, item in outermost(trees):
            if isinstance(item, JoinAs):
                done = join_as(item, trees, self.others(item.piece), self.work) and done
            elif isinstance(item, Sewn):
                sew(item, number, self.work, self.spans)
            elif isinstance(item, FastenOff):
                self.fabric.cut_off = True
            elif isinstance(item, LINES):
                done = work_places(trees, self.work, self.spans, self.sewn) and done
        return done

    def _proof(self, proved: bool) -> Proof:
        """A row that was worked on a count which another row states is proved from there."""
        if not proved:
            return Proof.NOT_READ
        return Proof.FROM_STATED if self.fabric.restarted else Proof.PROVED

    def _too_many(self, label: Label | None) -> bool:
        """Whether a label tells more rows than a piece can have."""
        told = 1
        if label and label.rows and label.rows.last:
            told = (value(label.rows.last, self.size) or 0) - (value(label.rows.first, self.size) or 0)
        elif label and label.next_rows:
            told = value(label.next_rows, self.size) or 1
        return told > 1 and told + len(self.fabric.rows) > MOST_ROWS

    def _numbered(self, label: Label | None) -> tuple[str, int, int]:
        """Word, first and last number of a row; held against the rows before it."""
        fabric = self.fabric
        if label is None or (label.rows is None and label.next_rows is None):
            return "", 1, 1
        if label.rows is None:
            return "", 1, min(value(label.next_rows, self.size) or 1, MOST_ROWS)
        rows = label.rows
        first = value(rows.first, self.size)
        last = value(rows.last, self.size) if rows.last else first
        if first is None or last is None or last < first or self._too_many(label):
            return rows.word, 1, 1
        key = key_of(rows.word)
        before = self.numbers.get(key)
        due = self._first_number(key) if before is None else before + 1
        counted = fabric.done(rows.word) + 1
        if due is not None and first not in (1, due, *(counted + shift for shift in fabric.shifts)):
            self._number_wrong(NumberWrong(rows.word, first, due, rows.at), first - counted)
            self.due = due
        if first == 1:
            fabric.count_from(rows.word)
        self.numbers[key] = last
        if label.on:
            self._on_number(label.on)
        return rows.word, first, last

    def _first_number(self, key: str) -> int | None:
        """The number of the first row of a word: 1, or the next one where numbers go on from piece to piece."""
        return None if self.fabric.rows else self.numbers_before.get(key, 0) + 1

    def _on_number(self, rows: RowNumbers) -> None:
        """Hold "on yoke rnd 8" against the rounds that are complete."""
        written, due = value(rows.first, self.size) if rows.first else None, self.fabric.done(rows.word) + 1
        if written is None:
            return
        if written - due in self.fabric.shifts:
            self.fabric.shifts = (written - due,)
        else:
            self._number_wrong(NumberWrong(rows.word, written, due, rows.at), written - due)

    def _number_wrong(self, slip: NumberWrong, shift: int) -> None:
        """A row is missing or called wrongly: later numbers may go on from either, and so may the stitches."""
        if len(self.fabric.shifts) == 1 and not self.fabric.shaken:
            self.work.report(slip, IN_LABEL)
            self.fabric.shaken = slip.written > slip.due or self.fabric.shaken
        self.fabric.shifts = (*self.fabric.shifts, shift)
        self.fabric.has_fault = self.fabric.side_doubted = True

    def _side(self, label: Label | None) -> None:
        if label is None or not label.side:
            return
        said = Side(label.side)
        if self.fabric.side is not None:
            self._hold_side(said, self.fabric.side, label.at, len(self.fabric.rows) + 1, IN_LABEL)
        self.fabric.side = said

    def _hold_side(self, said: Side, due: Side, at: Stretch, number: int, where: int = 0) -> None:
        """Report a side that is not due; after one the next may come from either reading."""
        if said is not due and not self.fabric.side_doubted:
            self.work.report(SideWrong(said.value, due.value, at, number), where)
            self.fabric.has_fault = True
        self.fabric.side_doubted = said is not due and not self.fabric.side_doubted

    def _stretches(self, items: list[Rework | Even | Shaping], trees: Parts, label: Label | None) -> Proof:
        fabric = self.fabric
        proved = True
        before = fabric.row
        word, first, last = self._numbered(label)
        rows = last - first + 1 if label and len(items) == 1 else None
        begun = len(fabric.worked)
        for item in items:
            self.work.instead = item.at, self._counted_in(item)
            match item:
                case Rework() if item.named and (other := self.others(item.named)):
                    proved = as_piece(item, other, self.work) and proved
                case Rework():
                    proved = rework(item, self.work, 0, rows) and proved
                case Even():
                    proved = even(item, self.work, 0, rows) and proved
                case Shaping():
                    proved = shaping(item, self.work, 0) and proved
            self.work.instead = None
            self._ends_on(item)
        if not proved:
            self._unknown(None, trees)
            return Proof.NOT_READ
        numbers = range(first, last + 1) if label and label.rows else ()
        for number, parts in zip(numbers, fabric.worked[begun:], strict=False):
            fabric.by_label.setdefault((key_of(word), number), parts)
        self._hold_counts(trees, before or fabric.last_made)
        fabric.cut_off = fabric.cut_off or any(isinstance(item, FastenOff) for tree in trees for item in tree.items)
        return self._proof(True)

    def _counted_in(self, item: Rework | Even | Shaping) -> str:
        """What a stretch counts its rows in: "body rnd"."""
        told = next((on.word for on in item.when if on.word), "") if isinstance(item, Shaping) else ""
        told = told or (item.until.noun if item.until else "")
        plain = "rnd" if self.fabric.ways.course.in_rounds else "row"
        return key_of(told) if told.split()[-1:] and key_of(told).split()[-1] in ("row", "rnd") else plain

    def _hold_counts(self, trees: Parts, before: LiveRow) -> None:
        """Hold the counts of a line that works no row of its own against the row worked last; go on from them."""
        slips = [*self._closest(trees, before), *self._complete(trees)]
        for slip, part in slips[:1]:
            self.work.tell(slip, part)
        if slips:
            self.work.go_on_from(stated_of(trees))
        elif plain_total(stated_of(trees), self.size):
            self.fabric.shaken, self.work.candidates = False, []

    def _closest(self, trees: Parts, before: LiveRow) -> list[tuple[Slip, int]]:
        """Slips of the counts stated at the end of a stretch, on whichever reading of it has none."""
        fabric, first = self.fabric, list[tuple[Slip, int]]()
        for row in (fabric.last_made, *self.work.candidates):
            tally = Tally(row, before, rows=len(fabric.rows))
            slips = [
                (slip, part)
                for part, tree in enumerate(trees)
                for stated in tree.stated
                for slip in count_slips(stated, tally, self.work.ways, self.size, self.work.basis)
            ]
            if not slips:
                if row is not fabric.last_made:
                    fabric.row = fabric.last_made = row
                return []
            first = slips if row is fabric.last_made else first
        return first

    def _ends_on(self, item: Rework | Even | Shaping) -> None:
        until = item.until
        done = self.fabric.rows[-1].side if self.fabric.rows else None
        if until and self.fabric.has_fault and self.fabric.counts_stitches(until.noun):
            self.fabric.side_doubted = (
                True  # rows of a stitch were counted, and not all of them are what they should be
            )
        if until and until.side and done:
            number = value(until.amount, self.size)
            self._hold_side(Side(until.side), done, until.at, len(self.fabric.rows) if number is None else number)
            self.fabric.side = Side(until.side).other if self.fabric.ways.course.turns else Side(until.side)

    def _complete(self, trees: Parts) -> Iterator[tuple[Slip, int]]:
        """Rows that a line says are complete, in passing: "38 yoke rnds are complete"."""
        for part, tree in enumerate(trees):
            for item in tree.items:
                said = value(item.amount, self.size) if isinstance(item, Until) and item.what == "rows" else None
                if said is None or not isinstance(item, Until):
                    continue
                done = self.fabric.done(item.noun)
                if all(said != done + shift for shift in self.fabric.shifts) and self.fabric.rows_known:
                    yield CountWrong(said, done, item.noun, 0, item.at), part

    def _unknown(self, label: Label | None, trees: Parts) -> None:
        """Nothing is known after a step that could not be worked, until a plain stated count comes."""
        if self.fabric.schedule:
            self.fabric.schedule, self.fabric.schedule_slips = [], []
            self.fabric.shaken = True
        word, first, last = self._numbered(label)
        for number in range(first, last + 1):
            if label and label.rows:
                self.fabric.by_label[key_of(word), number] = ()
            self.work.restart(trees, word, number)
        if label is None:
            self.fabric.side = None  # it may tell any number of rows


def stops_part_way(label: Label | None) -> str:
    """The name of a round that stops part of the way ("Half rnd"), so that the next one goes on from there; "" of others."""
    name = label.name if label else ""
    return name if name.lower().split()[:1] in (["half"], ["part"], ["partial"], ["quarter"]) else ""


def worst(proofs: Iterable[Proof]) -> Proof:
    """The one that is proved least."""
    return max(proofs, key=ORDER.index)


def _stretches(trees: Parts) -> list[Rework | Even | Shaping]:
    """The lines of rows that a step tells, a schedule that goes on in another part put together."""
    found: list[Rework | Even | Shaping] = []
    for tree in trees:
        for item in tree.items:
            last = found[-1] if found else None
            if isinstance(item, Shaping) and not item.row and not item.items and isinstance(last, Shaping):
                then = (*last.when[-1].then, *(each for on in item.when for each in on.then))
                when = (*last.when[:-1], replace(last.when[-1], then=then))
                found[-1] = replace(last, when=when, until=item.until or last.until)
            elif isinstance(item, Rework | Even | Shaping):
                found.append(item)
    return found


def _stated(trees: Parts) -> bool:
    return any(tree.stated for tree in trees)


def _joins_yarn(trees: Parts) -> bool:
    return any(isinstance(item, JoinYarn) for tree in trees for item in tree.items)
