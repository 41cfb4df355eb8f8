"""What simulation hands on: a pattern whose rows are worked, how far each is proved, and what went wrong."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from stitchproof.expansion.document import Step
from stitchproof.measures.values import PerSize
from stitchproof.rows.row_tree import Stretch
from stitchproof.rows.written_pattern import ChainNote, WrittenPattern
from stitchproof.simulation.slips import Slip


class Proof(Enum):
    """How far a row is proved in a size."""

    PROVED = "proved"
    FROM_STATED = "from stated"
    """Worked, but on a count that a row before it states, after one that could not be read."""
    TRUSTED = "on trust"
    NOT_READ = "not read"
    TOLD = "told"
    """Nothing to prove: it makes no stitch."""


ORDER = (Proof.PROVED, Proof.TOLD, Proof.FROM_STATED, Proof.TRUSTED, Proof.NOT_READ)
"""From what is proved most to what is proved least."""


class Mend(Struct, frozen=True):
    """A number that makes the line come out. part, at: where it stands; values: as written; fits: what it would have to be."""

    part: int
    at: Stretch
    values: PerSize
    fits: int


IN_LABEL = -1
"""The part of a finding that lies in the label of its step."""


class RowFinding(Struct, frozen=True):
    """A slip in a part of a step, or in its label, in a size.

    mends: numbers of the step of which one, changed, takes it away; None where they were not looked for.

    chain: the starting chain with which it would come out, where the row is the first on one.

    called_by: of a row that is defined by name, the step that has it worked; as_row: as which row it went wrong there.
    """

    slip: Slip
    step: Step
    part: int
    size: int
    mends: tuple[Mend, ...] | None = ()
    chain: int | None = None
    called_by: Step | None = None
    as_row: str = ""

    @property
    def worked_at(self) -> Step:
        """The step at which the row is worked."""
        return self.called_by or self.step


class WorkedStep(Struct, frozen=True):
    """A step and how far it is proved: the worst of its sizes. counts: stated counts held against what is worked.

    rows: of a step that tells a length, the rows of its piece up to there, by gauge and main stitch, in each size; None where
    their number is not sure, or where not all of them lie one above the other.
    not_counted: the sizes in which its stitches are not known: it is on trust there, or could not be worked.
    """

    step: Step
    proof: Proof
    counts: int
    rows: tuple[dict[tuple[str, str], int] | None, ...] = ()
    not_counted: tuple[int, ...] = ()


class WorkedPiece(Struct, frozen=True):
    """A piece: its steps, and its stitches by gauge and name in each size (None where the piece is not worked).

    times: how many of it are made. left_live: the stitches of its last row in each size, where the yarn is still on them when
    the piece is done (else None). begins_anew: with chains or a ring of its own, or with yarn that is joined. ends: the stitches
    that it ends in, in each size: of its last row, and of the last row of the first side of a neck; () where a row of it is not
    known or has a fault.
    """

    name: str
    steps: tuple[WorkedStep, ...]
    census: tuple[dict[tuple[str, str], int] | None, ...]
    times: int = 1
    left_live: tuple[int | None, ...] = ()
    begins_anew: bool = False
    ends: tuple[tuple[int, ...], ...] = ()


class NoteDenied(Struct, frozen=True, eq=False):
    """A note on the chain at the start of a row that a row denies. at: the chain, in a part of the step.

    findings: what goes wrong with the row where it is worked as the note says, in each size; () where its own words say the
    opposite, in the sizes that it serves.
    """

    note: ChainNote
    step: Step
    part: int
    at: Stretch
    findings: tuple[RowFinding, ...] = ()


class WorkedPattern(Struct, frozen=True, eq=False):
    """A pattern whose rows are worked in every size. denied: its notes that cannot be true of its rows."""

    written: WrittenPattern
    pieces: tuple[WorkedPiece, ...]
    findings: tuple[RowFinding, ...]
    denied: tuple[NoteDenied, ...] = ()
