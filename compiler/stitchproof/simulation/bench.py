"""The pieces of a pattern as they are worked one after the other, in every size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping

from msgspec.structs import replace

from stitchproof.expansion.document import Number, Piece, Role, Times
from stitchproof.reading.pattern_source import PieceEntry
from stitchproof.rows.row_tree import Chain, Item, JoinAs, Label, Reading, Repeat, Rework, RowTree, Sewn, Shaping
from stitchproof.rows.written_pattern import ReadStep, WrittenPattern
from stitchproof.simulation.counts import Basis
from stitchproof.simulation.edges import edge_for, told_edge
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.hook import foundation
from stitchproof.simulation.joining import meets_pieces
from stitchproof.simulation.piece_ends import begins_anew, left_live
from stitchproof.simulation.piece_work import PieceWork, worst
from stitchproof.simulation.row_work import RowWork, founds
from stitchproof.simulation.rows_walked import RowsWalked
from stitchproof.simulation.slips import CountWrong, DoesNotDivide, LeftOver, PastEnd, RowsRunOut, Slip
from stitchproof.simulation.spans import SpanKnown
from stitchproof.simulation.ways import Course, Ways
from stitchproof.simulation.worked_pattern import Proof, RowFinding, WorkedPiece, WorkedStep

Told = dict[int, frozenset[tuple[str, int]]]
"""By size, the rows of which something was told, as `RowWork.told` has them."""


class Bench:
    """The pieces as they are worked one after the other, in every size."""

    def __init__(
        self,
        written: WrittenPattern,
        walked: Callable[[str, tuple[object, ...]], RowsWalked] = lambda piece, goes_by: RowsWalked(),
        findings: list[RowFinding] | None = None,
        causes: bool = True,
    ) -> None:
        """causes: whether numbers that would mend a fault are looked for: the step is worked again with each."""
        self.written = written
        self.causes = causes
        self.walked = walked
        self.sizes = len(written.document.sizes.names)
        self.entries = {each.entry.name: each for each in written.expanded.sized.pieces}
        self.fabrics: dict[tuple[str, int], Fabric] = {}
        self.order: list[str] = []
        self.findings: list[RowFinding] = [] if findings is None else findings
        self.stitches = written.facts
        self.told: dict[int, set[tuple[str, int]]] = {}
        self.numbers: dict[int, dict[str, int]] = {}
        self.chain_counts = dict(_chains_for_good(written))
        self.passed_counts: dict[tuple[int, str], tuple[str, ...]] = {}
        self.sewn = tuple(_sewn(written))

    def piece(self, piece: Piece) -> WorkedPiece:
        """Work a piece in every size that it serves, on the pieces before it."""
        steps = self.written.steps_of(piece)
        called = frozenset(_called(steps))
        found: dict[int, list[tuple[Proof, int]]] = {}
        census: list[dict[tuple[str, str], int] | None] = [None] * self.sizes
        rows: dict[int, list[dict[tuple[str, str], int] | None]] = {
            number: [None] * self.sizes for number, step in enumerate(steps) if _tells_length(step)
        }
        live: list[int | None] = [None] * self.sizes
        ends: list[tuple[int, ...]] = [()] * self.sizes
        ways = self.ways_of(piece.name)
        walked = self.walked(piece.name, (ways.course, ways.stitches, ways.chain_counts, self._basis(piece.name)))
        for size in piece.served:
            work, done = self._begun(piece.name, size, called, walked), Counter[tuple[str, str]]()
            fabric = work.fabric
            fabric.times = _made(piece)
            for number, step in enumerate(steps):
                if size in step.step.served:
                    before = len(fabric.rows)
                    found.setdefault(number, []).append((self._step(step, work, size), size))
                    done.update([(fabric.gauge, row.stitch) for row in fabric.rows[before:]])
                    if number in rows and fabric.is_one_above_the_other:
                        rows[number][size] = dict(done)
            census[size], live[size], ends[size] = fabric.census, left_live(fabric), fabric.ends
            self.numbers.setdefault(size, {}).update(work.numbers)
        self.order.append(piece.name)
        worked = [
            WorkedStep(
                step.step,
                worst(proof for proof, _ in found[number]),
                _counts(step),
                tuple(rows.get(number, ())),
                _unknown(found[number]),
            )
            for number, step in enumerate(steps)
            if number in found
        ]
        anew = begins_anew(steps, self.ways_of(piece.name))
        return WorkedPiece(piece.name, tuple(worked), tuple(census), _made(piece), tuple(live), anew, tuple(ends))

    def goes_by(self, piece: Piece) -> tuple[object, ...]:
        """What working a piece hangs on besides the pieces before it."""
        ways, entry = self.ways_of(piece.name), self.entries.get(piece.name)
        own: tuple[object, ...] = (entry.edge, entry.entry.gauge and entry.entry.gauge.text) if entry else ()
        own += tuple(words.text for words in entry.entry.starts_from) if entry else ()
        steps = self.written.steps_of(piece)
        return steps, ways.course, ways.stitches, ways.chain_counts, self._basis(piece.name), self.sewn, own

    def goes_by_rows_of_others(self, piece: Piece) -> bool:
        """Whether a piece has rows of another one worked again, as they are written there."""
        return any(
            isinstance(item, JoinAs) or (isinstance(item, Rework) and item.named)
            for step in self.written.steps_of(piece)
            for part in step.parts
            for item in (part.reading.items if isinstance(part.reading, RowTree) else ())
        )

    def take(
        self,
        name: str,
        fabrics: Mapping[tuple[str, int], Fabric],
        numbers: Mapping[int, dict[str, int]],
        told: Told,
    ) -> None:
        """Put a piece in place that was worked before. numbers: those of all pieces up to it. told: what was told of its rows."""
        self.order.append(name)
        self.fabrics.update(fabrics)
        self.numbers.update({size: dict(held) for size, held in numbers.items()})
        for size, rows in told.items():
            self.told.setdefault(size, set()).update(rows)

    def told_now(self) -> Told:
        """The rows of which something was told, by size."""
        return {size: frozenset(rows) for size, rows in self.told.items()}

    def fabrics_of(self, name: str) -> dict[tuple[str, int], Fabric]:
        """A piece as it is now, by its name and size."""
        return {key: fabric for key, fabric in self.fabrics.items() if key[0] == name}

    def numbers_now(self) -> dict[int, dict[str, int]]:
        """The last number of each word of labels, by size."""
        return {size: dict(held) for size, held in self.numbers.items()}

    def lend(self, name: str, size: int) -> None:
        """Let the pieces of every other size find this one in its size."""
        for other in range(self.sizes):
            self.fabrics[name, other] = self.fabrics[name, size]
            self.numbers.setdefault(other, {}).update(self.numbers.get(size, {}))

    def _begun(self, name: str, size: int, called: frozenset[str], walked: RowsWalked) -> PieceWork:
        ways = self.ways_of(name)
        fabric = self.fabrics[name, size] = Fabric(name, ways)
        return PieceWork(
            RowWork(fabric, size, _nowhere, self._basis(name), walked=walked, told=self.told.setdefault(size, set())),
            called,
            lambda words: self._other(words, size),
            lambda name: self._span(name, size),
            self.sewn,
            numbers_before=dict(self.numbers.get(size, {})),
        )

    def _basis(self, name: str) -> Basis:
        entry = self.entries.get(name)
        return Basis.AND_SPACES if entry and entry.offset_fabric else Basis.STITCHES

    def _other(self, words: str, size: int) -> Fabric | None:
        """A piece by what a line calls it: its name, in the plural or the singular, "first" and "left" left out."""
        for name in piece_names(words):
            if (name, size) in self.fabrics:
                return self.fabrics[name, size]
        return None

    def _span(self, name: str, size: int) -> tuple[Fabric, SpanKnown] | None:
        """A span by its name, and the piece that it is on."""
        for (_, of), fabric in self.fabrics.items():
            if of == size and name in fabric.places.spans:
                return fabric, fabric.places.spans[name]
        return None

    def ways_of(self, name: str) -> Ways:
        """How a piece is worked: in rows or rounds, and what its chains count as."""
        sized = self.entries.get(name)
        course = _course(sized.entry if sized else None)
        return Ways(course, self.stitches, self.chain_counts, passed_counts=self.passed_counts)

    def _step(self, read: ReadStep, work: PieceWork, size: int) -> Proof:
        parts = [(number, part) for number, part in enumerate(read.parts) if size in part.served]
        numbers = [number for number, _ in parts]

        def report(slip: Slip, part: int, as_row: str = "") -> None:
            where = numbers[part] if 0 <= part < len(numbers) else min(part, 0)
            self.findings.append(RowFinding(slip, read.step, where, size, as_row=as_row))

        work.work.report = report
        work.fabric.gauge = self._gauge(read, work.fabric.piece)
        readings = tuple(part.reading for _, part in parts)
        self._start(read.label, readings, work, size)
        before, found = work.copied(), len(self.findings)
        proof = work.step(read.label, readings)
        # A schedule is told when it ends, at the line it was written in: its numbers are not of this line.
        self.findings[found:] = [self._explained(each, read, before) for each in self.findings[found:]]
        return proof

    def _explained(self, finding: RowFinding, read: ReadStep, before: PieceWork) -> RowFinding:
        """A finding of a step with its likely causes: in its own line, or in the row that it has worked."""
        if finding.as_row:
            row = next(each for each in self.written.readings if each.step is finding.step)
            return replace(self._with_causes(finding, row, before, read), called_by=read.step)
        return self._with_causes(finding, read, before, read) if finding.step is read.step else finding

    def _with_causes(self, finding: RowFinding, read: ReadStep, before: PieceWork, worked: ReadStep) -> RowFinding:
        if not isinstance(finding.slip, LeftOver | PastEnd | CountWrong | DoesNotDivide | RowsRunOut):
            return finding
        return _with_causes(finding, read, before, worked) if self.causes else replace(finding, mends=None)

    def _gauge(self, read: ReadStep, piece: str) -> str:
        sized = self.entries.get(piece)
        own = sized.entry.gauge.text.strip() if sized and sized.entry.gauge else ""
        return read.step.gauge or own

    def _start(self, label: Label | None, readings: tuple[Reading, ...], work: PieceWork, size: int) -> None:
        """Give a piece that has no foundation of its own what it starts from."""
        trees = tuple(each for each in readings if isinstance(each, RowTree))
        fabric = work.fabric
        ready = fabric.row is None and not fabric.rows and label is not None and trees
        if not ready or founds(trees, fabric.ways):
            return
        if meets_pieces(trees, fabric, work.others):
            return
        sources = [self.fabrics[name, size] for name in self._sources(fabric.piece) if (name, size) in self.fabrics]
        before = [self.fabrics[name, size] for name in self.order if (name, size) in self.fabrics]
        sized = self.entries.get(fabric.piece)
        fabric.row = told_edge(sized.edge, size) if sized and sized.edge else edge_for(trees, sources, before)
        if fabric.row is not None and not fabric.rows:
            fabric.foundation = fabric.row
            if sources and fabric.row is sources[-1].row:
                fabric.old_chain, fabric.next_chain = sources[-1].old_chain, sources[-1].next_chain
            fabric.shaken = any(source.has_fault for source in (*sources, *before))

    def _sources(self, name: str) -> list[str]:
        """The pieces that a piece starts from: those it names, else the one before it."""
        sized = self.entries.get(name)
        named = [words.text.strip() for words in getattr(sized.entry, "starts_from", ())] if sized else []
        return named or self.order[-1:]


def _tells_length(read: ReadStep) -> bool:
    return any(
        isinstance(token, Number) and token.role is Role.LENGTH for part in read.step.parts for token in part.tokens
    )


def _unknown(found: list[tuple[Proof, int]]) -> tuple[int, ...]:
    """The sizes in which nobody knows what a step makes."""
    return tuple(size for proof, size in found if proof in (Proof.TRUSTED, Proof.NOT_READ))


def _made(piece: Piece) -> int:
    """How many of a piece are made: "make 2" around its rows."""
    return max((block.times for block in piece.blocks if isinstance(block, Times)), default=1)


class _Slipped(Exception):
    """What a trial is for is known: something goes wrong, and this first."""

    def __init__(self, slip: Slip) -> None:
        self.slip = slip


def _stop_at_slip(slip: Slip, part: int, as_row: str = "") -> None:
    raise _Slipped(slip)


def _with_causes(finding: RowFinding, read: ReadStep, before: PieceWork, worked: ReadStep) -> RowFinding:
    """A finding with the numbers that would mend it: the step is worked again from where it began.

    read: the step whose numbers are changed; worked: the step that is worked, another one where that has a named row worked.
    """
    slip, size = finding.slip, finding.size
    numbers = [number for number, part in enumerate(read.parts) if size in part.served]
    readings = tuple(read.parts[number].reading for number in numbers)

    def trial(changed: tuple[Reading, ...], chain: int = 0) -> Slip | None:
        work = before.copied()
        work.work.report = _stop_at_slip
        if chain:
            work.fabric.row = foundation(chain)
        try:
            if worked is not read:
                work.step(read.label, changed)
                changed = tuple(part.reading for part in worked.parts if size in part.served)
            work.step(worked.label, changed)
            for tell in work.fabric.schedule_slips:
                tell()
        except _Slipped as stopped:
            return stopped.slip
        return None

    from stitchproof.simulation.mending import mends  # what comes out needs none

    found = tuple(replace(mend, part=numbers[mend.part]) for mend in mends(readings, slip, size, trial))
    return replace(
        finding, mends=found, chain=_chain_that_fits(slip, before.fabric, lambda chain: trial(readings, chain))
    )


def _chain_that_fits(slip: Slip, fabric: Fabric, trial: Callable[[int], Slip | None]) -> int | None:
    """The starting chain with which the first row on it comes out."""
    begun = fabric.row is not None and not fabric.rows and fabric.own_foundation
    if not begun or fabric.row is None or not isinstance(slip, CountWrong | LeftOver | PastEnd):
        return None
    from stitchproof.simulation.mending import off_by  # as above

    off = off_by(slip) or 0
    chain = len(fabric.row) - off
    return chain if chain > 0 and trial(chain) is None else None


def _nowhere(slip: Slip, part: int, as_row: str = "") -> None:
    raise AssertionError("a step reports, a piece does not")


WHICH = frozenset({"the", "first", "second", "third", "fourth", "left", "right", "other", "each", "same"})


def piece_names(words: str) -> Iterator[str]:
    """The names that a piece may have which a line calls so."""
    all_words = words.lower().split()
    for number in range(len(all_words)):
        name = "_".join(all_words[number:])
        yield from (name, f"{name}s", name.removesuffix("s"))
        if all_words[number] not in WHICH:
            return


def _sewn(written: WrittenPattern) -> Iterator[tuple[str, ...]]:
    """Groups of spans that are sewn to each other."""
    for step in written.readings:
        for part in step.parts:
            for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                if isinstance(item, Sewn):
                    yield (*item.one.spans, *item.other.spans)


def _course(entry: PieceEntry | None) -> Course:
    words = entry.worked.text.lower() if entry and entry.worked else ""
    if "spiral" in words:
        return Course.SPIRAL
    if "turned" in words:
        return Course.TURNED
    return Course.JOINED if "round" in words or "rnd" in words else Course.ROWS


def _called(steps: tuple[ReadStep, ...]) -> Iterator[str]:
    """Names of rows that a line calls for: they are defined where they are written, and worked where they are called."""
    for step in steps:
        for part in step.parts:
            for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                if isinstance(item, Shaping) and item.row:
                    yield item.row.lower()
                elif isinstance(item, Rework) and item.named:
                    yield item.named.lower()


def _chains_for_good(written: WrittenPattern) -> Iterator[tuple[tuple[int, str], tuple[str, ...]]]:
    """What starting chains count as "here and throughout"."""
    for piece in written.document.pieces:
        for step in written.steps_of(piece):
            for part in step.parts:
                for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                    yield from _chain_said(item)


def _chain_said(item: Item) -> Iterator[tuple[tuple[int, str], tuple[str, ...]]]:
    if isinstance(item, Chain) and item.for_good and item.counts is not None:
        for number in item.number.values:
            if not isinstance(number, int | float) and hasattr(number, "numerator"):
                yield (int(number.numerator), ""), item.counts
    elif isinstance(item, Repeat):
        for inner in item.items:
            yield from _chain_said(inner)


def _counts(step: ReadStep) -> int:
    return sum(len(part.reading.stated) for part in step.parts if isinstance(part.reading, RowTree))
