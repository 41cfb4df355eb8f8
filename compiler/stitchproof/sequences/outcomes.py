"""What came of the rows of a published sequence."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from stitchproof.reading.written_sequence import WrittenSequence
from stitchproof.sequences.read_rows import ReadRow
from stitchproof.simulation.slips import Slip


class Verdict(Enum):
    """How far a row is proved."""

    PROVED = "proved"
    INFERRED = "inferred"
    """Right under a convention that the file does not tell: the one that closes."""
    FAULTY = "faulty"
    FOLLOWS = "follows a fault"
    """It does not close, but what it is worked on is in doubt already."""
    FROM_STATED = "from stated"
    """What is below it is not known; the rows after it are worked on its stated count."""
    SILENT = "nothing known below"
    NOT_WORKED = "not worked"
    """Read, and of a form that is not worked."""
    NOT_READ = "not read"


class WrongCount(Struct, frozen=True):
    """A published count that the row does not come to, under any usual convention. noun: "" for stitches."""

    stated: int
    worked: int
    noun: str


class WrongLabel(Struct, frozen=True):
    """A row number that has been given already. due: the number that comes next."""

    written: int
    due: int


Fault = Slip | WrongCount | WrongLabel


class RowOutcome(Struct, frozen=True, eq=False):
    """A row worked. conventions: those inferred for it, in words. faults: by index of the size.

    right: whether the worked count is the published one; None where the file gives none, or the row is not read.
    otherwise: what is wrong with an inferred row under the usual reading. start: the chain it starts with, the stitch behind it,
    and whether its count was taken to include that chain.
    """

    row: ReadRow
    verdict: Verdict
    conventions: tuple[str, ...] = ()
    faults: tuple[tuple[int, Fault], ...] = ()
    right: bool | None = None
    words: str = ""
    otherwise: tuple[tuple[int, Fault], ...] = ()
    start: tuple[int, str, bool] | None = None

    @property
    def is_called_faulty(self) -> bool:
        return self.verdict in (Verdict.FAULTY, Verdict.FOLLOWS)


class SequenceOutcome(Struct, frozen=True, eq=False):
    """A sequence worked, row by row."""

    sequence: WrittenSequence
    rows: tuple[RowOutcome, ...]

    def number_of(self, *verdicts: Verdict) -> int:
        """How many rows have one of the verdicts."""
        return sum(row.verdict in verdicts for row in self.rows)

    @property
    def conventions(self) -> tuple[str, ...]:
        """The conventions inferred, each once, in order."""
        return tuple(dict.fromkeys(name for row in self.rows for name in row.conventions))
