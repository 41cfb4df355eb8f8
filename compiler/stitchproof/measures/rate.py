"""A pick-up rate: so many stitches for so much of an edge. The one sum that formulas and plans share."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.dimension import PLAIN, ROWS, Dimension
from stitchproof.measures.units import UNITS

ENDS_OF = {"ribs": 2}
"""Row-ends in one of a noun; a rib is two rows."""


class Rate(Struct, frozen=True):
    """`sts` stitches per `per` of the edge (ribs, rows). `left_over`: stitches for each one beyond whole groups.

    Without `left_over` the rate is exact, and a total that is not whole is a fault. row_ends: in one of the noun.
    cm_per_unit: the length of one along the edge, where the gauge says. Source: common practice, no source.
    """

    sts: Fraction
    per: Fraction
    left_over: Fraction | None = None
    noun: str = "rows"
    row_ends: int = 1
    cm_per_unit: Fraction | None = None

    @property
    def dimension(self) -> Dimension:
        """What the edge is counted in: rows, or a plain number of ribs or the like."""
        return ROWS if UNITS[self.noun].dimension == ROWS else PLAIN

    def picked_up(self, edge: Fraction) -> Fraction:
        """Stitches picked up along `edge`: whole groups, then the left-over rate; or the exact product."""
        if self.left_over is None:
            return edge * self.sts / self.per
        groups = edge // self.per
        return groups * self.sts + (edge - groups * self.per) * self.left_over

    def edge_for(self, stitches: Fraction) -> Fraction:
        """The longest whole edge along which no more than `stitches` are picked up. `per` is whole, left_over not negative."""
        if self.left_over is None:
            return Fraction(stitches * self.per // self.sts)
        groups, rest = divmod(stitches, self.sts)
        beyond = min(self.per - 1, Fraction(rest // self.left_over)) if self.left_over else self.per - 1
        return groups * self.per + beyond


def whole_rate(sts: int, per: int, left_over: int | None = None, row_ends: int = 1, noun: str = "rows") -> Rate:
    """A rate in whole stitches, as a row can be written at it."""
    beyond = None if left_over is None else Fraction(left_over)
    return Rate(Fraction(sts), Fraction(per), beyond, noun, row_ends)
