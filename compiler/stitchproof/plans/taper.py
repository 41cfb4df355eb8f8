"""A sleeve or a side that grows or shrinks by the same number of stitches on each shaping row."""

from __future__ import annotations

from math import lcm

from msgspec import Struct

from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_rates import Layout, Place, Side, TwoRates, Worked, laid_out


class Taper(Struct, frozen=True):
    """From `start` to `end` stitches, `change` at a time (below 0 where stitches are lost), on the rows of `rates`."""

    start: int
    end: int
    change: int
    rates: TwoRates

    @property
    def counts(self) -> tuple[int, ...]:
        """Stitches after each shaping row."""
        return tuple(self.start + self.change * (k + 1) for k in range(self.rates.times))


def taper(
    start: int,
    end: int,
    change: int,
    rows: int,
    *,
    step: int = 1,
    place: Place = Place.CLOSES,
    before: int = 0,
    after: int = 0,
    only: Side | None = None,
    slow_first: bool = False,
    worked: Worked = Worked.IN_ROUNDS,
) -> Taper | NoPlan:
    """From `start` to `end` stitches over `rows`, `change` stitches gained or lost on each shaping row.

    The difference has to be whole shaping rows: move the start or the end, not the last row. The rest as `at_two_rates`.
    """

    def attempt(
        start: int = start,
        end: int = end,
        change: int = change,
        rows: int = rows,
        step: int = step,
        before: int = before,
        after: int = after,
    ) -> Taper | NoPlan:
        unit = step if only is None else lcm(step, 2)
        return _tapered(start, end, change, rows, Layout(unit, place, before, after, only, slow_first, worked))

    return planned(
        attempt,
        Input("start", start, least=1),
        Input("end", end, least=1),
        Input("change", change, least=1),
        Input("rows", rows),
        Input("step", step, least=1),
        Input("before", before, offers_0=True),
        Input("after", after, offers_0=True),
    )


def _tapered(start: int, end: int, change: int, rows: int, layout: Layout) -> Taper | NoPlan:
    difference, noun = abs(end - start), layout.worked.value
    times, odd = divmod(difference, change)
    if odd:
        whole = f"{counted(times, noun[:-1], noun)} of {change} and {odd} over"
        return NoPlan(f"from {start} to {end} is {counted(difference, 'st', 'sts')}: {whole}")
    rates = laid_out(times, rows, layout)
    return rates if isinstance(rates, NoPlan) else Taper(start, end, change if end > start else -change, rates)
