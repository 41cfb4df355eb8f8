"""Shapings over the rows or rounds of a section, at one rate or at two rates next to each other.

With n intervals in R rows, each a multiple of d: short = d·floor(R / (n·d)), long = short + d, as many long ones as fit
the rest. The formula is old and widely printed.
"""

from __future__ import annotations

from enum import Enum
from itertools import accumulate, pairwise
from math import lcm

from msgspec import Struct

from stitchproof.plans.no_plan import Input, NoPlan, counted, planned


class Worked(Enum):
    """How the section is worked; it decides the words and nothing else."""

    IN_ROWS = "rows"
    IN_ROUNDS = "rnds"


class Place(Enum):
    """Where a shaping row stands in its interval."""

    OPENS = "opens"
    """First the shaping row, then its plain rows: n intervals."""
    CLOSES = "closes"
    """First the plain rows, then the shaping row: n intervals."""
    BETWEEN = "between"
    """From the first shaping row to the last: n − 1 intervals, nothing owed before or after."""


class Side(Enum):
    """Row 1 of a section is RS: RS rows are odd, WS rows even."""

    RS = 1
    WS = 0


class TwoRates(Struct, frozen=True):
    """The rows (or rounds) of a section that are shaped, counted from 1.

    every, every_times: the rate worked first and how many intervals it has; then_every, then_times: the second, 0 times
    if one rate will do. more_times, then_more_times: shaping rows at each rate after the first shaping row, as in
    "on row 1, then every 2nd row 4 more times, then every 4th row 5 more times".
    """

    rows: int
    on: tuple[int, ...]
    every: int
    every_times: int
    then_every: int
    then_times: int
    more_times: int
    then_more_times: int
    place: Place
    worked: Worked

    @property
    def times(self) -> int:
        return len(self.on)

    @property
    def even_after(self) -> int:
        """Plain rows after the last shaping row."""
        return self.rows - (self.on[-1] if self.on else 0)

    @property
    def rows_if_on_next(self) -> int:
        """Rows used if the first shaping is on the next row, up to the last shaping row."""
        return self.on[-1] - self.on[0] + 1 if self.on else 0

    @property
    def rows_if_after_plain(self) -> int:
        """Rows used if the plain rows of the first rate come first and each shaping row closes its interval."""
        whole = self.every * self.every_times + self.then_every * self.then_times
        return whole + (max(self.every, 1) if self.place is Place.BETWEEN and self.on else 0)


class Layout(Struct, frozen=True):
    """How shaping rows may stand, as `at_two_rates` is told it; with `only` the step is even."""

    step: int
    place: Place
    before: int
    after: int
    only: Side | None
    slow_first: bool
    worked: Worked


def at_two_rates(
    times: int,
    rows: int,
    *,
    step: int = 1,
    place: Place = Place.OPENS,
    before: int = 0,
    after: int = 0,
    only: Side | None = None,
    slow_first: bool = False,
    worked: Worked = Worked.IN_ROWS,
) -> TwoRates | NoPlan:
    """`times` shaping rows in a section of `rows`, intervals multiples of `step`, as slow as the rows allow.

    The first `before` rows and at least the last `after` rows stay plain. `only`: every shaping row on that side, which
    makes all intervals even. Fast first unless `slow_first`.
    """

    def attempt(
        times: int = times, rows: int = rows, step: int = step, before: int = before, after: int = after
    ) -> TwoRates | NoPlan:
        layout = Layout(step if only is None else lcm(step, 2), place, before, after, only, slow_first, worked)
        return laid_out(times, rows, layout)

    return planned(
        attempt,
        Input("times", times),
        Input("rows", rows),
        Input("step", step, least=1),
        Input("before", before, offers_0=True),
        Input("after", after, offers_0=True),
    )


def laid_out(times: int, rows: int, layout: Layout) -> TwoRates | NoPlan:
    """The same for inputs within their bounds, without looking for the nearest ones that work."""
    place, before, only, noun = layout.place, layout.before, layout.only, layout.worked.value[:-1]
    own_row = 1 if place is Place.BETWEEN and times else 0
    intervals, room = times - own_row, rows - before - layout.after - own_row
    if room < intervals * layout.step:
        return NoPlan(_no_room(times, room + own_row, layout))
    if only is not None and times and (before + (place is not Place.CLOSES)) % 2 != only.value:
        return NoPlan(
            f"after {counted(before, f'plain {noun}', f'plain {noun}s')} the shaping {noun}s fall on {_other(only)}"
        )
    lengths = _intervals(intervals, room, layout.step, layout.slow_first)
    on = _rows_shaped(lengths, before, place) if times else ()
    return _rates(rows, on, lengths, place, layout.worked)


def at_one_rate(times: int, rows: int, *, first: int, every: int, worked: Worked = Worked.IN_ROWS) -> TwoRates | NoPlan:
    """`times` shaping rows: on row `first`, then every `every` rows. There is no plan where they outrun the rows."""

    def attempt(times: int = times, rows: int = rows, first: int = first, every: int = every) -> TwoRates | NoPlan:
        last = first + every * (times - 1)
        if times and last > rows:
            return NoPlan(f"the last shaping falls on {worked.value[:-1]} {last} of {rows}")
        on = tuple(range(first, last + 1, every))
        return _rates(rows, on, (every,) * (times - 1), Place.BETWEEN, worked)

    return planned(
        attempt,
        Input("times", times),
        Input("rows", rows),
        Input("first", first, least=1),
        Input("every", every, least=1),
    )


def _intervals(number: int, room: int, step: int, slow_first: bool) -> tuple[int, ...]:
    if not number:
        return ()
    short = room // (number * step) * step
    slow = (room - short * number) // step
    fast_part, slow_part = (short,) * (number - slow), (short + step,) * slow
    return slow_part + fast_part if slow_first else fast_part + slow_part


def _rows_shaped(lengths: tuple[int, ...], before: int, place: Place) -> tuple[int, ...]:
    if place is Place.CLOSES:
        return tuple(accumulate(lengths, initial=before))[1:]
    starts = tuple(accumulate(lengths, initial=before + 1))
    return starts if place is Place.BETWEEN else starts[:-1]


def _rates(rows: int, on: tuple[int, ...], lengths: tuple[int, ...], place: Place, worked: Worked) -> TwoRates:
    every = lengths[0] if lengths else 0
    then_every = lengths[-1] if lengths and lengths[-1] != every else 0
    gaps = tuple(later - earlier for earlier, later in pairwise(on))
    return TwoRates(
        rows,
        on,
        every,
        lengths.count(every),
        then_every,
        lengths.count(then_every),
        gaps.count(every),
        gaps.count(then_every),
        place,
        worked,
    )


def _no_room(times: int, left: int, layout: Layout) -> str:
    noun, step, left = layout.worked.value, layout.step, max(0, left)
    needed = (times - 1) * step + 1 if layout.place is Place.BETWEEN and times else times * step
    kept = f", as {layout.before} before and {layout.after} after stay plain" if layout.before or layout.after else ""
    pace = f"one on each {noun[:-1]}" if step == 1 else f"{step} {noun} apart"
    asked = f"{counted(times, 'shaping', 'shapings')}, {pace}, {'needs' if times == 1 else 'need'}"
    return f"{asked} {counted(needed, noun[:-1], noun)}; there {'is' if left == 1 else 'are'} {left}{kept}"


def _other(side: Side) -> str:
    return "WS" if side is Side.RS else "RS"
