"""What simulation hands on: a pattern whose rows are worked, how far each is proved, and what went wrong."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from stitchproof.expansion.document import Step
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.simulation.slips import Mend, Slip


class Proof(Enum):
    """How far a row is proved in a size."""

    PROVED = "proved"
    FROM_STATED = "from stated"
    """Worked, but on a count that a row before it states, after one that could not be read."""
    TRUSTED = "on trust"
    NOT_READ = "not read"
    TOLD = "told"
    """Nothing to prove: it makes no stitch."""


class RowFinding(Struct, frozen=True):
    """A slip in a part of a step, in a size. mends: numbers of the step of which one, changed, takes it away.

    chain: the starting chain with which it would come out, where the row is the first on one.
    """

    slip: Slip
    step: Step
    part: int
    size: int
    mends: tuple[Mend, ...] = ()
    chain: int | None = None


class WorkedStep(Struct, frozen=True):
    """A step and how far it is proved: the worst of its sizes. counts: stated counts held against what is worked."""

    step: Step
    proof: Proof
    counts: int


class WorkedPiece(Struct, frozen=True):
    """A piece: its steps, and its stitches by name in each size (None where the piece is not worked)."""

    name: str
    steps: tuple[WorkedStep, ...]
    census: tuple[dict[str, int] | None, ...]


class WorkedPattern(Struct, frozen=True, eq=False):
    """A pattern whose rows are worked in every size."""

    written: WrittenPattern
    pieces: tuple[WorkedPiece, ...]
    findings: tuple[RowFinding, ...]
