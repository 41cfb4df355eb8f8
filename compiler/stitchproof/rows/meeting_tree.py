"""What lines say of places that are found by counting, and of pieces that meet: items of a row's tree.

A span is so many stitches with a name, such as an underarm: "underarm a". Names are kept in small letters and the singular.
"""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.row_places import Amount, Stretch


class MarkedStitch(Struct, frozen=True):
    """A marker in a stitch that is found by counting: "Marker B in st 71 of the half rnd, counting the st with marker A as st 1".

    nth: which stitch. row: the row it is of, as written, "" where unsaid. counted_from: the marker from which it is counted, or
    "" for the beginning of the row. marked_is: the number that the stitch with that marker has, 1 where it is counted and 0
    where it is not; None where the line does not say.
    """

    name: str
    nth: Amount
    row: str
    counted_from: str
    marked_is: int | None
    at: Stretch


class NamedSpan(Struct, frozen=True):
    """Stitches found from a marked one: "Underarm A: the st with marker A, the 3 sts before it and the 3 sts after it".

    with_marked: whether the marked stitch belongs to it.
    """

    name: str
    marker: str
    before: Amount | None
    after: Amount | None
    with_marked: bool
    at: Stretch


class EndsWith(Struct, frozen=True):
    """Where a row ends, as the text says it: "The half rnd ends with the last st of underarm B"."""

    row: str
    span: str
    at: Stretch


class StartAfter(Struct, frozen=True):
    """Work on a piece starts in the first stitch after a span of it: "starting in the first st after its underarm"."""

    span: str
    at: Stretch


class JoinAs(Struct, frozen=True):
    """Closed as another piece was: "Join as hem"."""

    piece: str
    at: Stretch


class SeamSide(Struct, frozen=True):
    """One side of a seam. number: stitches, where the line says them. each: it is one on each piece ("of each sleeve")."""

    number: Amount | None
    spans: tuple[str, ...]
    piece: str
    each: bool
    at: Stretch


class Sewn(Struct, frozen=True):
    """Two sides sewn stitch to stitch: "Sew the 7 sts of underarm S of each sleeve to those of underarms A and B, st to st"."""

    one: SeamSide
    other: SeamSide
    at: Stretch


Meeting = MarkedStitch | NamedSpan | EndsWith | StartAfter | JoinAs | Sewn
