"""What can go wrong when a row is worked, as facts. The words are the rules' business."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.row_tree import Stretch


class Fit(Struct, frozen=True):
    """How a repeat sits in its room: places one pass takes, the room in places, passes worked."""

    takes: int
    room: int
    passes: int


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


Slip = LeftOver | PastEnd | DoesNotDivide | Absent | PassesOver | NoMarker | CannotWork


class Stopped(Exception):
    """Raised inside a row's walk where it cannot go on."""

    def __init__(self, slip: Slip) -> None:
        super().__init__(type(slip).__name__)
        self.slip = slip
