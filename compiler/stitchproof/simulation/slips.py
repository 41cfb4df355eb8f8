"""What can go wrong when a row is worked, as facts. The words are the rules' business."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.row_tree import Stretch


class Fit(Struct, frozen=True):
    """How a repeat sits in its room: places one pass takes, the room in places, passes worked."""

    takes: int
    room: int
    passes: int


class Joined(Struct, frozen=True):
    """Of which piece a row takes stitches that meets several. of: the piece as named; whole: its live stitches.

    left_out: those of them in a span that is left out. total: what the row comes to as it is written; stated: what it states,
    if it does.
    """

    of: str
    whole: int
    left_out: int
    total: int
    stated: int | None


class LeftOver(Struct, frozen=True):
    """Places are left that the row does not work. repeat: the last repeat of the row, if one sets the sum."""

    available: int
    taken: int
    repeat: Fit | None
    at: Stretch
    joined: Joined | None = None


class PastEnd(Struct, frozen=True):
    """The row asks for more places than there are."""

    available: int
    needed: int
    repeat: Fit | None
    at: Stretch
    joined: Joined | None = None


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
    """No fault: a form that simulation does not work. words: what it is. follows: from a row that was not read."""

    words: str
    at: Stretch
    follows: bool = False


class CountWrong(Struct, frozen=True):
    """The row states another count than it makes. noun: what is counted, as written; change: −1 or 1 for "2 sts dec".

    parts: in a row that meets several pieces, how many it makes on each, in order.
    """

    stated: int
    worked: int
    noun: str
    change: int
    at: Stretch
    parts: tuple[tuple[str, int], ...] = ()


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
    """A round is turned against the way the piece is worked. course: the way."""

    course: str
    at: Stretch


class JoinedElsewhere(Struct, frozen=True):
    """A round is joined into a stitch that it does not begin with. wanted: as named; first: the stitch it begins with, on_chain
    where that is a starting chain that counts as one; held: whether the round has the named one at all.
    """

    wanted: str
    first: str
    on_chain: bool
    held: bool
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


class PartRoundJoined(Struct, frozen=True):
    """A round that stops part of the way is joined to its first stitch. words: its name."""

    words: str
    at: Stretch


class PartRoundEnds(Struct, frozen=True):
    """A part round ends in another stitch than the last one of a span. ends, due: by number, from its first stitch.

    marked: the number of the stitch with the span's marker; after: stitches of the span behind it.
    """

    words: str
    ends: int
    due: int
    span: str
    marker: str
    marked: int
    after: int
    at: Stretch


class StartsInSpan(Struct, frozen=True):
    """A row would start inside a span that it leaves out, after so many of its stitches."""

    span: str
    within: int
    number: int
    of: str
    at: Stretch


class MarkerCounted(Struct, frozen=True):
    """A marker is counted to another stitch than the one that its span needs. nth: as written; due: the right number.

    opposite: whether that is the stitch opposite the marker counted from. ring: stitches of the round. counted: whether the
    stitch counted from is itself counted. span_ends, part_ends: numbers of the last stitches.
    """

    name: str
    nth: int
    due: int
    counted_from: str
    counted: bool
    ring: int
    span: str
    span_ends: int
    part_ends: int
    words: str
    at: Stretch


class MarkerBeyond(Struct, frozen=True):
    """A marker is counted to a stitch that there is not. last: the number of the last one that there is."""

    name: str
    nth: int
    row: str
    last: int
    at: Stretch


class CountingUnsaid(Struct, frozen=True):
    """A stitch is counted from a marked one, and the text does not say whether that one is counted."""

    name: str
    nth: int
    counted_from: str
    at: Stretch


class SpansDiffer(Struct, frozen=True):
    """Two spans that meet stitch to stitch have different numbers of stitches.

    one: the later one; live: stitches of its piece.
    """

    one: str
    number: int
    of: str
    other: str
    other_number: int
    other_of: str
    live: int
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
    | JoinedElsewhere
    | NoSuchRow
    | SameEdge
    | EdgesDiffer
    | SidesDiffer
    | YarnIsCut
    | PartRoundJoined
    | PartRoundEnds
    | StartsInSpan
    | MarkerCounted
    | MarkerBeyond
    | CountingUnsaid
    | SpansDiffer
)


class Stopped(Exception):
    """Raised inside a row's walk where it cannot go on."""

    def __init__(self, slip: Slip) -> None:
        super().__init__(type(slip).__name__)
        self.slip = slip
