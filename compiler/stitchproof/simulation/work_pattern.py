"""Stage 5: every piece worked row by row in every size it serves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Piece
from stitchproof.kept import Kept, made_once
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.simulation.bench import Bench, Told
from stitchproof.simulation.chain_notes import denied_notes
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.rows_walked import RowsWalked
from stitchproof.simulation.worked_pattern import RowFinding, WorkedPattern, WorkedPiece


def work_pattern(
    written: WrittenPattern, report: Report, kept: Kept | None = None, causes: bool = True
) -> WorkedPattern:
    """Work all rows. Nothing is reported here: what went wrong is in the findings, and the rules judge it.

    kept: what was worked before of the same pattern; a piece is worked again if it is not what it was, or if those before it
    leave something else to it. causes: whether likely causes are looked for; those that were found before are told in any case.
    """
    if kept is not None:
        worked = _with_pieces_kept(written, report, kept, causes)
        if worked is not None:
            return worked
    bench = Bench(written, causes=causes)
    pieces = tuple(bench.piece(piece) for piece in written.document.pieces)
    return WorkedPattern(written, pieces, tuple(bench.findings), denied_notes(bench))


class _PieceDone(Struct, frozen=True, eq=False):
    """A piece that was worked, and what the pieces after it may go back to.

    state: stands for all that this piece and those before it leave to the pieces after it; the same object is the same state.
    findings: what came up while it was worked; told: the rows of which something was told then, by size.
    """

    worked: WorkedPiece
    fabrics: dict[tuple[str, int], Fabric]
    numbers: dict[int, dict[str, int]]
    state: object
    findings: tuple[RowFinding, ...] = ()
    told: Told = msgspec.field(default_factory=dict)

    @property
    def speaks_of(self) -> set[str]:
        """The pieces whose lines its findings are about."""
        return {finding.step.piece for finding in self.findings}

    @property
    def lacks_causes(self) -> bool:
        """Whether the likely causes of what it tells were not looked for."""
        return any(finding.mends is None for finding in self.findings)

    def leaves_the_same(self, other: _PieceDone) -> bool:
        """Whether it leaves to the pieces after it what another working of it left."""
        return (
            self.numbers == other.numbers
            and self.fabrics.keys() == other.fabrics.keys()
            and all(fabric.leaves_the_same(other.fabrics[key]) for key, fabric in self.fabrics.items())
        )


def _with_pieces_kept(written: WrittenPattern, report: Report, kept: Kept, causes: bool) -> WorkedPattern | None:
    """The pattern worked on pieces that were worked before; None where one of these is spoken of in a finding of a later one.

    What a piece has to tell is told by its own lines, also when a later piece finds it out. So all runs share one list. A piece
    is kept as it is without a fault up to its end, and as it is after one: what is broken is mended soon, and broken again.
    """

    def walked(piece: str, goes_by: tuple[object, ...]) -> RowsWalked:
        return made_once(kept, ("walked", piece), goes_by, report, lambda _: RowsWalked())

    findings: list[RowFinding] = made_once(kept, "findings of rows", (), report, lambda _: [])
    findings.clear()
    bench = Bench(written, walked, findings, causes)
    taken: set[str] = set()
    pieces: list[_PieceDone] = []
    anew = []
    state: object = None
    for number, piece in enumerate(written.document.pieces):
        rows_of_others = tuple(pieces) if bench.goes_by_rows_of_others(piece) else ()
        inputs = (state, rows_of_others, piece, *bench.goes_by(piece))
        done = _held(kept, number, inputs, report)
        if done is not None and not (causes and done.lacks_causes):
            bench.take(done.worked.name, done.fabrics, done.numbers, done.told)
            findings += done.findings
            taken.add(piece.name)
        else:
            done = _worked(bench, piece)
            earlier = kept.last(("worked", number, bool(findings)))
            if earlier and earlier.inputs[0] is state and done.leaves_the_same(cast(_PieceDone, earlier.made)):
                done = replace(done, state=cast(_PieceDone, earlier.made).state)
            anew.append((("worked", number, bool(findings)), inputs, done))
        pieces.append(done)
        state = done.state
    if any(done.speaks_of & taken for _, _, done in anew):
        return None
    for what, inputs, done in anew:
        if done.speaks_of - {done.worked.name}:
            break
        kept.hold(what, inputs, done, ())
    return WorkedPattern(written, tuple(done.worked for done in pieces), tuple(findings), denied_notes(bench))


def _held(kept: Kept, number: int, inputs: tuple[object, ...], report: Report) -> _PieceDone | None:
    """A piece that was worked before of the same. One with findings has to be the same object, as these speak of its lines."""
    for after_fault in (False, True):
        held = kept.held(("worked", number, after_fault), inputs, report)
        done = cast(_PieceDone, held.made) if held else None
        if held and done and (not done.findings or held.inputs[2] is inputs[2]):
            return done
    return None


def _worked(bench: Bench, piece: Piece) -> _PieceDone:
    begun, told = len(bench.findings), bench.told_now()
    worked = bench.piece(piece)
    fabrics, numbers, findings = bench.fabrics_of(piece.name), bench.numbers_now(), tuple(bench.findings[begun:])
    new = {size: rows - told.get(size, frozenset()) for size, rows in bench.told_now().items()} if findings else {}
    return _PieceDone(worked, fabrics, numbers, object(), findings, new)


def work_in_sizes(
    written: WrittenPattern, size_of: Mapping[str, int], walked: dict[str, RowsWalked]
) -> tuple[RowFinding, ...]:
    """Work each piece in a size of its own, on the others as they are then, and hand on what goes wrong.

    size_of: the size of each piece by its name; a piece without one, or that is not worked in its size, is left out.
    walked: by piece, the rows that were walked before in this pattern; those that are walked now are added.
    """
    bench = Bench(written, lambda piece, _: walked.setdefault(piece, RowsWalked()))
    for piece in written.document.pieces:
        size = size_of.get(piece.name)
        if size in piece.served:
            bench.piece(replace(piece, served=(size,)))
            bench.lend(piece.name, size)
    return tuple(bench.findings)
