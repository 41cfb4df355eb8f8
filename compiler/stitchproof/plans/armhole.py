"""A set-in armhole worked in rows: stitches left unworked, decreases on every row, then on RS rows."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import rounded_text
from stitchproof.plans.no_plan import Input, NoPlan, planned

SHAPED_WITHIN = Fraction(7, 10)
"""The lower share of the armhole that holds its shaping; common practice, no source."""


class Armhole(Struct, frozen=True):
    """One side: `unworked` on armhole row 1 (RS), then a stitch lost on each row of `on`, the last of them RS rows.

    every_row: decreases on the rows after row 1. rs_times: decreases on RS rows, from the row after those on.
    """

    width: int
    cross_back: int
    rows: int
    unworked: int
    every_row: int
    on: tuple[int, ...]

    @property
    def loss(self) -> int:
        """Stitches lost at this side."""
        return (self.width - self.cross_back) // 2

    @property
    def rs_times(self) -> int:
        return self.loss - self.unworked - self.every_row

    @property
    def last(self) -> int:
        """The armhole row of the last decrease; row 1 where there is none."""
        return self.on[-1] if self.on else 1

    @property
    def even_after(self) -> int:
        return self.rows - self.last

    @property
    def unworked_share(self) -> Fraction:
        """The share of the loss that is left unworked; 40 to 50 % is usual (common practice, no source)."""
        return Fraction(self.unworked, self.loss) if self.loss else Fraction(0)


def armhole(
    width: int,
    cross_back: int,
    rows: int,
    unworked: int,
    every_row: int,
    *,
    within: Fraction = SHAPED_WITHIN,
) -> Armhole | NoPlan:
    """loss = (width − cross back) / 2 = unworked + every_row + the rest on RS rows, all within a share of the rows.

    Where decreases on RS rows follow, `every_row` is odd, so that the row after it is RS.
    """

    def attempt(
        width: int = width,
        cross_back: int = cross_back,
        rows: int = rows,
        unworked: int = unworked,
        every_row: int = every_row,
    ) -> Armhole | NoPlan:
        return _shaped(width, cross_back, rows, unworked, every_row, within)

    return planned(
        attempt,
        Input("width", width, least=1),
        Input("cross_back", cross_back, least=1),
        Input("rows", rows, least=1),
        Input("unworked", unworked, offers_0=True),
        Input("every_row", every_row, offers_0=True),
    )


def _shaped(
    width: int, cross_back: int, rows: int, unworked: int, every_row: int, within: Fraction
) -> Armhole | NoPlan:
    loss, odd = divmod(width - cross_back, 2)
    if odd or loss < 0:
        return NoPlan(f"{width} − {cross_back} sts is not twice a loss at each side")
    rs_times = loss - unworked - every_row
    if rs_times < 0:
        asked = f"{unworked} unworked + {every_row} on every row"
        return NoPlan(f"{asked} are more than the {loss} sts to lose at each side")
    if rs_times and every_row % 2 == 0:
        return NoPlan(f"after {every_row} on every row the next row is row {every_row + 2}, which is a WS row")
    on = (*range(2, every_row + 2), *(every_row + 2 + 2 * k for k in range(rs_times)))
    made = Armhole(width, cross_back, rows, unworked, every_row, on)
    if made.last > within * rows:
        by = f"row {rounded_text(within * rows)} of {rows} or before"
        return NoPlan(f"the last decrease falls on armhole row {made.last}; it should fall on {by}")
    return made
