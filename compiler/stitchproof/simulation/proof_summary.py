"""How far a pattern is proved, piece by piece, and how many of each stitch it has."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import exact_text
from stitchproof.measures.yarn_sum import YarnSum
from stitchproof.simulation.slips import CannotWork
from stitchproof.simulation.worked_pattern import Proof, WorkedPattern, WorkedPiece
from stitchproof.sizing.sized_yarns import YarnUse

NONE = "–"


class PieceProof(Struct, frozen=True):
    """Written rows of a piece by how far they are proved, and stated counts held against what is worked.

    at_fault: rows with a slip in some size; neither they nor their counts are among the proved.
    """

    name: str
    proved: int
    at_fault: int
    from_stated: int
    trusted: int
    not_read: int
    counts: int

    @property
    def words(self) -> str:
        """Such as "13 rows proved, 1 with a fault, 2 not proved"."""
        parts = (
            (self.proved, "proved"),
            (self.from_stated, "proved from a stated count"),
            (self.at_fault, "with a fault"),
            (self.trusted, "on trust"),
            (self.not_read, "not proved"),
        )
        said = [f"{number} {word}" for number, word in parts if number]
        if not said:
            return "no rows"
        first, *others = said
        return ", ".join([first.replace(" ", " row " if first.startswith("1 ") else " rows ", 1), *others])


class StitchCensus(Struct, frozen=True):
    """How many of a stitch a pattern has at a gauge: one value per size, None where a size has none."""

    gauge: str
    stitch: str
    numbers: tuple[int | None, ...]


class YarnAmount(Struct, frozen=True):
    """What a yarn comes to: grams as they are printed, one value per size, None where they are not known or none is used."""

    name: str
    grams: tuple[Fraction | None, ...]


class ProofSummary(Struct, frozen=True):
    """The proof of a pattern. sizes: the names of its sizes."""

    pattern: str
    sizes: tuple[str, ...]
    pieces: tuple[PieceProof, ...]
    census: tuple[StitchCensus, ...]
    yarns: tuple[YarnAmount, ...] = ()

    @property
    def whole(self) -> PieceProof:
        """All pieces together."""
        return PieceProof(
            self.pattern,
            sum(piece.proved for piece in self.pieces),
            sum(piece.at_fault for piece in self.pieces),
            sum(piece.from_stated for piece in self.pieces),
            sum(piece.trusted for piece in self.pieces),
            sum(piece.not_read for piece in self.pieces),
            sum(piece.counts for piece in self.pieces),
        )


def proof_summary(pattern: str, worked: WorkedPattern, uses: tuple[YarnUse, ...] = ()) -> ProofSummary:
    """What was proved, and how many rows have a fault. The faults themselves are reports. uses: what the yarns come to."""
    sizes = worked.written.document.sizes.names
    # What cannot be worked is no fault of the pattern: such a row is not proved.
    faulty = {id(finding.worked_at) for finding in worked.findings if not isinstance(finding.slip, CannotWork)}
    pieces = tuple(_piece(piece, faulty) for piece in worked.pieces)
    return ProofSummary(pattern, sizes, pieces, tuple(_census(worked)), tuple(_amount(use) for use in uses))


def _amount(use: YarnUse) -> YarnAmount:
    return YarnAmount(use.yarn.name, tuple(each.grams if isinstance(each, YarnSum) else None for each in use.sums))


def _piece(piece: WorkedPiece, faulty: set[int]) -> PieceProof:
    at_fault = [step for step in piece.steps if id(step.step) in faulty]
    sound = [step for step in piece.steps if id(step.step) not in faulty]
    by_proof = {proof: [step for step in sound if step.proof is proof] for proof in Proof}
    held = sum(step.counts for proof in (Proof.PROVED, Proof.FROM_STATED) for step in by_proof[proof])
    return PieceProof(
        piece.name,
        len(by_proof[Proof.PROVED]),
        len(at_fault),
        len(by_proof[Proof.FROM_STATED]),
        len(by_proof[Proof.TRUSTED]),
        len(by_proof[Proof.NOT_READ]),
        held,
    )


def _census(worked: WorkedPattern) -> list[StitchCensus]:
    sizes = range(len(worked.written.document.sizes.names))
    kinds = dict.fromkeys(kind for piece in worked.pieces for each in piece.census if each for kind in each)
    found = []
    for gauge, stitch in sorted(kinds):
        numbers = [
            sum((piece.census[size] or {}).get((gauge, stitch), 0) * piece.times for piece in worked.pieces)
            for size in sizes
        ]
        found.append(StitchCensus(gauge, stitch, tuple(number or None for number in numbers)))
    return found


def summary_text(summary: ProofSummary) -> str:
    """For the terminal: a line per piece, then the stitches."""
    width = max((len(piece.name) for piece in summary.pieces), default=0)
    whole = summary.whole
    lines = [f"{summary.pattern}: {whole.words}, {whole.counts} stated counts held in all sizes"]
    lines += [f"  {piece.name:<{width}}  {piece.words}" for piece in summary.pieces]
    if summary.census:
        names = [f"{each.stitch} at {each.gauge}" if each.gauge else each.stitch for each in summary.census]
        wide = max(len(name) for name in names)
        rows = [[NONE if number is None else str(number) for number in each.numbers] for each in summary.census]
        columns = [max(len(row[size]) for row in rows) for size in range(len(summary.sizes))]
        lines.append(f"stitches in all, for {summary.sizes[0]} to {summary.sizes[-1]}:")
        for name, row in zip(names, rows, strict=True):
            lines.append(f"  {name:<{wide}}  " + "  ".join(f"{n:>{w}}" for n, w in zip(row, columns, strict=True)))
    for yarn in summary.yarns:
        grams = [NONE if each is None else exact_text(each) for each in yarn.grams]
        lines.append(f"{yarn.name} in grams, for {summary.sizes[0]} to {summary.sizes[-1]}: {'  '.join(grams)}")
    return "\n".join(lines)


def summary_facts(summary: ProofSummary) -> dict[str, object]:
    """The same for a program."""
    return {
        "pattern": summary.pattern,
        "pieces": [
            {
                "name": piece.name,
                "proved": piece.proved,
                "at_fault": piece.at_fault,
                "from_stated": piece.from_stated,
                "on_trust": piece.trusted,
                "not_proved": piece.not_read,
                "counts_held": piece.counts,
            }
            for piece in summary.pieces
        ],
        "stitches": [
            {
                "gauge": each.gauge,
                "stitch": each.stitch,
                "numbers": dict(zip(summary.sizes, each.numbers, strict=True)),
            }
            for each in summary.census
        ],
        "yarn": [
            {
                "name": each.name,
                "grams": dict(
                    zip(
                        summary.sizes,
                        (None if grams is None else exact_text(grams) for grams in each.grams),
                        strict=True,
                    )
                ),
            }
            for each in summary.yarns
        ],
    }
