"""Increases or decreases spread evenly over the stitches of a round, or of a row whose edges stay plain.

Division with the remainder spread, as it is widely published. In a fabric of pairs (a stitch and a chain space) count
stitches, takes and makes in pairs.
"""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_groups import Order, Run, TwoGroups, in_order, runs, two_groups


class Shaping(Struct, frozen=True):
    """What one increase or decrease takes from the row below and makes in its own: 2 sts in one take 1 and make 2."""

    takes: int
    makes: int

    def __post_init__(self) -> None:
        if self.takes < 1 or self.makes < 1 or self.takes == self.makes:
            raise ValueError(f"a shaping takes and makes at least 1, and not the same: {self}")

    @property
    def change(self) -> int:
        """Stitches gained by one of them; below 0 where they are lost."""
        return self.makes - self.takes

    def in_words(self, number: int) -> str:
        """ "1 increase", "3 decreases"."""
        return counted(number, *(("increase", "increases") if self.change > 0 else ("decrease", "decreases")))


INCREASE = Shaping(1, 2)
DECREASE = Shaping(2, 1)


class Ends(Enum):
    """What stands at the two ends of a row."""

    HALF_GAPS = "half gaps"
    """Gaps of one size where the ends can take up the rest without growing longer than a gap; else gaps of two sizes
    and half a gap at each end. Half gaps meet a seam as one gap."""
    EQUAL_HALF_GAPS = "equal half gaps"
    """The same with both ends alike: an odd stitch goes into the middle gap."""
    WHOLE_GAPS = "whole gaps"
    """One gap more than there are shapings, all alike within one stitch, the ends among them."""


class _Even(Struct, frozen=True):
    """So many shapings over so many stitches: how many stay plain, and how many there are afterwards."""

    stitches: int
    times: int
    shaping: Shaping

    @property
    def plain(self) -> int:
        return self.stitches - self.times * self.shaping.takes

    @property
    def after(self) -> int:
        return self.stitches + self.times * self.shaping.change


class EvenRound(_Even, frozen=True):
    """n shapings over a round: plain stitches, then a shaping, in groups of two sizes. Counts in stitches.

    groups: the plain stitches before each shaping. runs: the same in the order worked.
    """

    groups: TwoGroups
    runs: tuple[Run, ...]


class EvenRow(_Even, frozen=True):
    """n shapings over a row: an edge, the shapings with gaps between them, an edge. Counts in stitches.

    gaps: the plain stitches between two shapings. runs: the same in the order worked. Without shapings the whole row is
    the first edge.
    """

    first_edge: int
    last_edge: int
    gaps: TwoGroups
    runs: tuple[Run, ...]


def evenly_in_rounds(
    stitches: int, times: int, shaping: Shaping = INCREASE, order: Order = Order.LARGER_FIRST
) -> EvenRound | NoPlan:
    """`times` shapings over a round of `stitches`. There is no plan where the shapings take more than there is."""

    def attempt(stitches: int = stitches, times: int = times) -> EvenRound | NoPlan:
        plain = stitches - times * shaping.takes
        if plain < 0:
            return NoPlan(_too_many(stitches, times, shaping))
        groups = two_groups(plain, times)
        return EvenRound(stitches, times, shaping, groups, runs(in_order(groups, order)))

    return planned(attempt, Input("stitches", stitches), Input("times", times))


def evenly_in_rows(
    stitches: int,
    times: int,
    shaping: Shaping = INCREASE,
    ends: Ends = Ends.HALF_GAPS,
    order: Order = Order.LARGER_FIRST,
) -> EvenRow | NoPlan:
    """`times` shapings over a row of `stitches`, with at least one plain stitch at each edge."""

    def attempt(stitches: int = stitches, times: int = times) -> EvenRow | NoPlan:
        plain = stitches - times * shaping.takes
        if not times:
            return EvenRow(stitches, 0, shaping, stitches, 0, two_groups(0, 0), ())
        if plain < 0:
            return NoPlan(_too_many(stitches, times, shaping))
        if plain < 2:
            left = "no stitch is" if not plain else "only 1 stitch is"
            return NoPlan(f"{_taken(times, shaping)} of {stitches}; {left} left for the two edges")
        if ends is Ends.WHOLE_GAPS:
            first, gaps, last = _whole_gaps(plain, times, order)
        elif times == 1 and plain % 2 and ends is Ends.EQUAL_HALF_GAPS:
            return NoPlan(f"{plain} plain sts cannot stand in two equal ends beside a single {_one(shaping)}")
        else:
            first, gaps, last = _half_gaps(plain, times, order, ends is Ends.EQUAL_HALF_GAPS)
        groups = two_groups(sum(gaps), times - 1)
        return EvenRow(stitches, times, shaping, first, last, groups, runs(gaps))

    return planned(attempt, Input("stitches", stitches), Input("times", times))


def _whole_gaps(plain: int, times: int, order: Order) -> tuple[int, tuple[int, ...], int]:
    if plain < times + 1:
        return 1, in_order(two_groups(plain - 2, times - 1), order, centred=True), 1
    first, *between, last = in_order(two_groups(plain, times + 1), order, centred=True)
    return first, tuple(between), last


def _half_gaps(plain: int, times: int, order: Order, equal: bool) -> tuple[int, tuple[int, ...], int]:
    """The ends take up the rest (odd: the last end has one more), unless an end would be longer than a gap."""
    gap, rest = divmod(plain, times)
    both = plain if times == 1 else gap + rest - (gap + rest) % 2 * equal
    one_gap = both >= 2 and (rest <= gap or times == 1)
    if not one_gap:
        step = 2 if equal else 1
        both = max(2, -((times * step - 2 * plain) // (2 * times * step)) * step)
    gaps = two_groups(plain - both, times - 1)
    return both // 2, in_order(gaps, Order.SPREAD if one_gap else order, centred=True), both - both // 2


def _one(shaping: Shaping) -> str:
    return shaping.in_words(1).removeprefix("1 ")


def _taken(times: int, shaping: Shaping) -> str:
    verb = "takes" if times == 1 else "take"
    return f"{shaping.in_words(times)} {verb} {counted(times * shaping.takes, 'st', 'sts')}"


def _too_many(stitches: int, times: int, shaping: Shaping) -> str:
    return f"{_taken(times, shaping)} and there {'is' if stitches == 1 else 'are'} {stitches}"
