"""A pick-up rate along ordinary row-ends, from the gauges of the two fabrics."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.rate import Rate, whole_rate
from stitchproof.measures.values import rounded_text
from stitchproof.plans.no_plan import Nearest, NoPlan

MOST_ROWS = 12
"""The most rows a maker is asked to keep in mind for one group."""
BAND_TOLERANCE = Fraction(4, 100)
"""How far a band may be off before it waves or pulls up; common practice, no source."""


class RowEndRate(Struct, frozen=True):
    """`sts` per `per` rows, for an exact rate of `exact` stitches per row."""

    sts: int
    per: int
    exact: Fraction

    @property
    def off(self) -> Fraction:
        """How much too long (above 0) or too short the band becomes, as a share."""
        return Fraction(self.sts, self.per) / self.exact - 1

    def edge_rate(self, left_over: int | None = None) -> Rate:
        """The same as a rate to pick up at."""
        return whole_rate(self.sts, self.per, left_over)


def row_end_rate(
    stitches_per_cm: Fraction, rows_per_cm: Fraction, within: Fraction = BAND_TOLERANCE
) -> RowEndRate | NoPlan:
    """The rate with the fewest rows per group that comes within a share of the exact one; both gauges above 0.

    stitches_per_cm: of the new fabric. rows_per_cm: of the old one.
    """
    exact = stitches_per_cm / rows_per_cm
    rates = [
        RowEndRate(sts, per, exact)
        for per in range(1, MOST_ROWS + 1)
        if (sts := (exact * per + Fraction(1, 2)).__floor__())
    ]
    found = next((rate for rate in rates if abs(rate.off) <= within), None)
    if found:
        return found
    best = min(rates, key=lambda rate: abs(rate.off), default=None)
    if best is None:
        return NoPlan(f"not even 1 st per {MOST_ROWS} rows: the gauges ask for {rounded_text(exact)} per row")
    return NoPlan(
        f"no rate of up to {MOST_ROWS} rows comes within {rounded_text(within * 100)} %: "
        f"{best.sts} per {best.per} is {rounded_text(abs(best.off) * 100)} % off",
        (Nearest("within", abs(best.off)),),
    )
