"""A round yoke: the whole change shared out over a few rounds, and over the stitches of each of them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from stitchproof.plans.evenly import DECREASE, INCREASE, EvenRound, Shaping, evenly_in_rounds
from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_groups import Order, in_order, two_groups

GATHERS_ABOVE = Fraction(2, 5)
"""A round that loses more than about 40 % of its stitches gathers visibly; common practice, no source."""


class YokeRound(Struct, frozen=True):
    """Shaping round k (from 1): the round of the yoke it is worked on, and how."""

    k: int
    round: int
    even: EvenRound

    @property
    def lost(self) -> Fraction:
        """The share of its stitches that the round loses, seen from the wider side."""
        counts = (self.even.stitches, self.even.after)
        return Fraction(max(counts) - min(counts), max(counts))


class Yoke(Struct, frozen=True):
    """From `start` to `end` stitches over `rounds`: up from the join as decreases, down from the neck as increases."""

    start: int
    end: int
    rounds: int
    shaping: Shaping
    shaped: tuple[YokeRound, ...]

    @property
    def shapings(self) -> int:
        """Increases or decreases in all."""
        return sum(each.even.times for each in self.shaped)

    @property
    def even_after(self) -> int:
        """Plain rounds after the last shaping round."""
        return self.rounds - (self.shaped[-1].round if self.shaped else 0)

    @property
    def gathers(self) -> tuple[int, ...]:
        """The shaping rounds k that lose so much that the fabric gathers there: a warning, not a fault."""
        return tuple(each.k for each in self.shaped if each.lost > GATHERS_ABOVE)


def yoke(
    start: int,
    end: int,
    *,
    shaping_rounds: int,
    rounds: int,
    first: int,
    every: int,
    larger: Order = Order.LARGER_FIRST,
    shaping: Shaping | None = None,
    order: Order = Order.LARGER_FIRST,
) -> Yoke | NoPlan:
    """From `start` to `end` in `shaping_rounds`: on round `first`, then every `every` rounds, within `rounds`.

    larger: which shaping rounds take one more. order: of the groups in a round. shaping: 2 in one or 2 together if not given.
    """
    way = _Way(shaping or (INCREASE if end > start else DECREASE), larger, order)

    def attempt(
        start: int = start,
        end: int = end,
        shaping_rounds: int = shaping_rounds,
        rounds: int = rounds,
        first: int = first,
        every: int = every,
    ) -> Yoke | NoPlan:
        return _shared_out(start, end, range(first, first + every * shaping_rounds, every), rounds, way)

    return planned(
        attempt,
        Input("start", start, least=1),
        Input("end", end, least=1),
        Input("shaping_rounds", shaping_rounds),
        Input("rounds", rounds),
        Input("first", first, least=1),
        Input("every", every, least=1),
    )


class _Way(Struct, frozen=True):
    """What is worked, which rounds take one more, and the order of the groups in a round."""

    shaping: Shaping
    larger: Order
    order: Order


def _shared_out(start: int, end: int, on: range, rounds: int, way: _Way) -> Yoke | NoPlan:
    """on: the rounds to shape."""
    shaping = way.shaping
    in_all, odd = divmod(end - start, shaping.change)
    if odd or in_all < 0:
        verb = "make" if shaping.change > 0 else "lose"
        many = shaping.in_words(2).removeprefix("2 ")
        return NoPlan(f"from {start} to {end} sts: {many} that {verb} {abs(shaping.change)} each do not lead there")
    if in_all < len(on) or (in_all and not on):
        return NoPlan(f"{shaping.in_words(in_all)} cannot be shared out over {counted(len(on), 'rnd', 'rnds')}")
    if on and on[-1] > rounds:
        return NoPlan(f"the last shaping falls on rnd {on[-1]} of {rounds}")
    shares = in_order(two_groups(in_all, len(on)), way.larger)
    shaped = _shaped(start, tuple(zip(on, shares, strict=True)), shaping, way.order)
    return shaped if isinstance(shaped, NoPlan) else Yoke(start, end, rounds, shaping, shaped)


def yoke_by_shares(
    start: int, rounds: int, steps: Sequence[tuple[int, Fraction]], order: Order = Order.LARGER_FIRST
) -> Yoke | NoPlan:
    """A yoke that loses a share of its stitches at each step: (round, share lost), the counts rounded, a half up.

    The percentage rules: 25 %, 33 %, 40 %. They fail at the ends of a wide range of sizes.
    """

    def attempt(start: int = start, rounds: int = rounds) -> Yoke | NoPlan:
        if steps and steps[-1][0] > rounds:
            return NoPlan(f"the last shaping falls on rnd {steps[-1][0]} of {rounds}")
        count, plan = start, []
        for number, share in steps:
            left = (count * (1 - share) + Fraction(1, 2)).__floor__()
            plan.append((number, count - left))
            count = left
        shaped = _shaped(start, tuple(plan), DECREASE, order)
        return shaped if isinstance(shaped, NoPlan) else Yoke(start, count, rounds, DECREASE, shaped)

    return planned(attempt, Input("start", start, least=1), Input("rounds", rounds))


def _shaped(
    start: int, plan: tuple[tuple[int, int], ...], shaping: Shaping, order: Order
) -> tuple[YokeRound, ...] | NoPlan:
    """plan: for each shaping round its number and how many shapings it has."""
    made: list[YokeRound] = []
    count = start
    for k, (number, times) in enumerate(plan, start=1):
        if count < times * shaping.takes:
            taken = counted(times * shaping.takes, "st", "sts")
            return NoPlan(f"{shaping.in_words(times)} on rnd {number} take {taken} and there are {count}")
        even = evenly_in_rounds(count, times, shaping, order)
        if isinstance(even, NoPlan):
            return even
        made.append(YokeRound(k, number, even))
        count = even.after
    return tuple(made)
