"""What can go wrong when a row is worked, as facts. The words are the rules' business."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.measures.values import PerSize
from stitchproof.rows.row_tree import Stretch


class Fit(Struct, frozen=True):
    """How a repeat sits in its room: places one pass takes, the room in places, passes worked."""

    takes: int
    room: int
    passes: int


class Mend(Struct, frozen=True):
    """A number that makes a line come out. part, at: where it stands; values: as written; fits: what it would have to be."""

    part: int
    at: Stretch
    values: PerSize
    fits: int


class LeftOver(Struct, frozen=True):
    """Places are left that the row does not work. repeat: the last repeat of the row, if one sets the sum."""

    available: int
    taken: int
    repeat: Fit | None
    at: Stretch


class PastEnd(Struct, frozen=True):
    """The row asks for more places than there are."""

    available: int
    needed: int
    repeat: Fit | None
    at: Stretch


class DoesNotDivide(Struct, frozen=True):
    """A repeat does not go whole into its room."""

    fit: Fit
    at: Stretch


class Absent(Struct, frozen=True):
    """The row works into something that is not there. wanted, found: in words; found "" at the end of the row."""

    wanted: str
    found: str
    at: Stretch


class PassesOver(Struct, frozen=True):
    """Stitches are passed over, and the row does not say "sk"."""

    places: int
    at: Stretch


class NoMarker(Struct, frozen=True):
    """Work goes to a marker, and none is left."""

    at: Stretch


class CannotWork(Struct, frozen=True):
    """No fault: a form that simulation does not work. words: what it is."""

    words: str
    at: Stretch


class CountWrong(Struct, frozen=True):
    """The row states another count than it makes. noun: what is counted, as written; change: −1 or 1 for "2 sts dec"."""

    stated: int
    worked: int
    noun: str
    change: int
    at: Stretch


class HalfRibs(Struct, frozen=True):
    """An odd number of rows, where ribs are stated: a rib is two rows."""

    rows: int
    stated: int
    at: Stretch


class NumberWrong(Struct, frozen=True):
    """A row is called by another number than it has. due: the number that comes next."""

    word: str
    written: int
    due: int
    at: Stretch


class SideWrong(Struct, frozen=True):
    """The row is said to be worked on the other side than the rows before it leave it on. number: the rows complete with it."""

    written: str
    due: str
    at: Stretch
    number: int = 0


class RowsRunOut(Struct, frozen=True):
    """Shaping or a repeat needs more rows than there are up to where it is said to end. done: rows complete; wanted: the end.

    total_wrong: the shaping does not come to its stated total either.
    """

    done: int
    wanted: int
    noun: str
    at: Stretch
    total_wrong: bool = False


class WrongCourse(Struct, frozen=True):
    """A row is joined, turned or left open against the way the piece is worked. said: "joined", "turned"; course: the way."""

    said: str
    course: str
    at: Stretch


class NoSuchRow(Struct, frozen=True):
    """A row is called for that is not there."""

    name: str
    at: Stretch


class SameEdge(Struct, frozen=True):
    """Two shapings that belong to the two edges of a piece fall on the same one. first, second: as the lines call them."""

    first: str
    second: str
    at: Stretch


class EdgesDiffer(Struct, frozen=True):
    """Two edges that are joined stitch to stitch have different numbers of stitches."""

    one: int
    other: int
    at: Stretch


class SidesDiffer(Struct, frozen=True):
    """A marker in a span leaves more stitches on one side of it than on the other. what: the span; before, after: stitches."""

    what: str
    before: int
    after: int
    at: Stretch


class YarnIsCut(Struct, frozen=True):
    """Work goes on after the yarn was cut, and no yarn is joined."""

    at: Stretch


Slip = (
    LeftOver
    | PastEnd
    | DoesNotDivide
    | Absent
    | PassesOver
    | NoMarker
    | CannotWork
    | CountWrong
    | HalfRibs
    | NumberWrong
    | SideWrong
    | RowsRunOut
    | WrongCourse
    | NoSuchRow
    | SameEdge
    | EdgesDiffer
    | SidesDiffer
    | YarnIsCut
)


class Stopped(Exception):
    """Raised inside a row's walk where it cannot go on."""

    def __init__(self, slip: Slip) -> None:
        super().__init__(type(slip).__name__)
        self.slip = slip
