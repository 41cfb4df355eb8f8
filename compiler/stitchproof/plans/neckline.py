"""Necklines worked in rows: a V at two rates, and a round neck in steps."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import exact_text
from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_rates import Layout, Place, Side, TwoRates, Worked, laid_out


class VNeck(Struct, frozen=True):
    """One side of a V: a stitch lost at the neck edge on each row of `rates`; V row 1 is RS."""

    neck: int
    rates: TwoRates

    @property
    def decs(self) -> int:
        return self.rates.times


class RoundNeck(Struct, frozen=True):
    """One side of a round neck: `steps` stitches lost at the neck edge, one step a row, after the dividing row."""

    neck: int
    centre: int
    steps: tuple[int, ...]
    rows: int

    @property
    def per_side(self) -> int:
        return sum(self.steps)

    @property
    def rows_used(self) -> int:
        """The dividing row and one row for each step."""
        return 1 + len(self.steps)

    @property
    def even_after(self) -> int:
        return self.rows - self.rows_used


def v_neck(neck: int, half_band: Fraction, rows: int, *, before: int = 0, even_after: int = 3) -> VNeck | NoPlan:
    """One side of a V over `rows`: decreases = neck / 2 − half_band (in stitches), rounded, a half up.

    On the first RS row, then every 2nd and every 4th RS row, or slower; at least `even_after` rows stay even.
    """

    def attempt(
        neck: int = neck, rows: int = rows, before: int = before, even_after: int = even_after
    ) -> VNeck | NoPlan:
        decs = (Fraction(neck, 2) - half_band + Fraction(1, 2)).__floor__()
        if decs < 0:
            return NoPlan(f"half of {neck} sts is less than the {exact_text(half_band)} sts of the half band")
        layout = Layout(2, Place.BETWEEN, before, even_after, Side.RS, slow_first=False, worked=Worked.IN_ROWS)
        rates = laid_out(decs, rows, layout)
        return rates if isinstance(rates, NoPlan) else VNeck(neck, rates)

    return planned(
        attempt,
        Input("neck", neck),
        Input("rows", rows),
        Input("before", before, offers_0=True),
        Input("even_after", even_after, offers_0=True),
    )


def round_neck(neck: int, centre: int, steps: tuple[int, ...], rows: int) -> RoundNeck | NoPlan:
    """A round neck: `centre` left unworked, then `steps` at each side, each at least 1 and none above the one before it.

    centre + 2 × the steps = neck. At the start of a row a step is slip-stitched over, at its end left unworked, so steps
    fall on rows that follow one another.
    """

    def attempt(neck: int = neck, centre: int = centre, rows: int = rows) -> RoundNeck | NoPlan:
        made = RoundNeck(neck, centre, steps, rows)
        if any(later > earlier or later < 1 for earlier, later in zip((*steps[:1], *steps), steps, strict=False)):
            return NoPlan(f"the steps {', '.join(map(str, steps))} grow towards the shoulder; they must not")
        if centre + 2 * made.per_side != neck:
            return NoPlan(f"{centre} + 2 × {made.per_side} = {centre + 2 * made.per_side} sts, and the neck has {neck}")
        if made.even_after < 0:
            return NoPlan(
                f"the dividing row and {counted(len(steps), 'step', 'steps')} need {made.rows_used} rows of {rows}"
            )
        return made

    return planned(attempt, Input("neck", neck), Input("centre", centre), Input("rows", rows))
