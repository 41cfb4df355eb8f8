"""A raglan yoke from the join to the neck: decreases at four lines, body and sleeves each at their own rate."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.plans.no_plan import Input, NoPlan, planned
from stitchproof.plans.two_groups import Order, in_order, two_groups
from stitchproof.plans.two_rates import Layout, Place, TwoRates, Worked, laid_out


class Raglan(Struct, frozen=True):
    """Rounds, counted from 1, on which the body and the sleeves lose a stitch at each side of each section.

    On the first `body_doubles` of its rounds the body loses 2 at each side. front, back, sleeve: stitches at the join.
    """

    front: int
    back: int
    sleeve: int
    neck: int
    rounds: int
    body_on: tuple[int, ...]
    sleeve_on: tuple[int, ...]
    body_doubles: int

    @property
    def joined(self) -> int:
        """Stitches of the whole round at the join."""
        return self.front + self.back + 2 * self.sleeve

    @property
    def full(self) -> int:
        """Rounds that are decreased on body and sleeves."""
        return len(set(self.body_on) & set(self.sleeve_on))

    @property
    def body_only(self) -> int:
        return len(self.body_on) - self.full

    @property
    def sleeve_only(self) -> int:
        return len(self.sleeve_on) - self.full

    @property
    def plain(self) -> int:
        """Rounds without a decrease."""
        return self.rounds - self.full - self.body_only - self.sleeve_only

    @property
    def body_lost(self) -> int:
        """Stitches lost by the front, and by the back."""
        return 2 * (len(self.body_on) + self.body_doubles)

    @property
    def sleeve_lost(self) -> int:
        """Stitches lost by each sleeve."""
        return 2 * len(self.sleeve_on)


def raglan(
    front: int,
    back: int,
    sleeve: int,
    neck: int,
    rounds: int,
    *,
    least_sleeve: int,
    least_body: int = 1,
    before: int = 0,
    more_skip: int = 0,
    body_doubles: int = 0,
    full: Order = Order.LARGER_FIRST,
) -> Raglan | NoPlan:
    """From the join to `neck` in `rounds`, the first `before` of them plain; body and sleeves as alike as they can be.

    least_sleeve, least_body: what must be left of a section. full: where rounds that decrease both stand among those that
    decrease one, first, last or spread. The levers where it does not fit: `neck` wider, more
    `rounds`, `more_skip` stitches left out of each piece at each underarm, `body_doubles` rounds with 2 lost at each side.
    """

    join = _Join(front, back, sleeve, least_sleeve, least_body, before, full)

    def attempt(
        neck: int = neck, rounds: int = rounds, more_skip: int = more_skip, body_doubles: int = body_doubles
    ) -> Raglan | NoPlan:
        return _decreased(join.with_more_skipped(more_skip), neck, rounds, body_doubles)

    return planned(
        attempt,
        Input("neck", neck, least=1),
        Input("rounds", rounds),
        Input("more_skip", more_skip, offers_0=True),
        Input("body_doubles", body_doubles, offers_0=True),
        Input("front", front, least=1, offered=False),
        Input("back", back, least=1, offered=False),
        Input("sleeve", sleeve, least=1, offered=False),
        Input("before", before, offers_0=True, offered=False),
        Input("least_sleeve", least_sleeve, offered=False),
        Input("least_body", least_body, offered=False),
    )


class _Join(Struct, frozen=True):
    """The stitches of each section at the join, and what the designer keeps."""

    front: int
    back: int
    sleeve: int
    least_sleeve: int
    least_body: int
    before: int
    full: Order

    @property
    def stitches(self) -> int:
        return self.front + self.back + 2 * self.sleeve

    def with_more_skipped(self, skip: int) -> _Join:
        return replace(self, front=self.front - skip, back=self.back - skip, sleeve=self.sleeve - skip)


def _decreased(join: _Join, neck: int, rounds: int, doubles: int) -> Raglan | NoPlan:
    lost, room = join.stitches - neck, rounds - join.before
    if min(join.front, join.back, join.sleeve) < 1:
        return NoPlan("more is left out at the underarms than a section has")
    if lost < 0:
        return NoPlan(f"the join has {join.stitches} sts, fewer than the {neck} of the neck")
    if lost % 4:
        return NoPlan(f"{join.stitches} − {neck} = {lost} sts, and each rnd loses 4 on the body or 4 on the sleeves")
    if room < 0:
        return NoPlan(f"{join.before} plain rnds come first, and there are {rounds}")
    in_all = lost // 4 - doubles
    body_most = min(room, (min(join.front, join.back) - join.least_body) // 2 - doubles)
    sleeve_most = min(room, (join.sleeve - join.least_sleeve) // 2)
    if body_most < doubles or sleeve_most < 0 or not doubles <= in_all <= body_most + sleeve_most:
        return NoPlan(_too_much(lost, body_most, sleeve_most, doubles))
    sleeves = max(in_all - body_most, min(sleeve_most, in_all // 2, in_all - doubles))
    body_on, sleeve_on = _placed(in_all - sleeves, sleeves, rounds, join)
    return Raglan(join.front, join.back, join.sleeve, neck, rounds, body_on, sleeve_on, doubles)


def _placed(body: int, sleeves: int, rounds: int, join: _Join) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The rounds of the one with more decreases at two rates; the other on some of the same rounds."""
    most, fewest = max(body, sleeves), min(body, sleeves)
    layout = Layout(1, Place.CLOSES, join.before, 0, only=None, slow_first=False, worked=Worked.IN_ROUNDS)
    rates = laid_out(most, rounds, layout)
    if not isinstance(rates, TwoRates):
        raise AssertionError(f"{most} rounds were found to fit {rounds}: {rates.reason}")
    chosen = in_order(two_groups(fewest, most), join.full, centred=True)
    some = tuple(number for number, taken in zip(rates.on, chosen, strict=True) if taken)
    return (rates.on, some) if body >= sleeves else (some, rates.on)


def _too_much(lost: int, body_most: int, sleeve_most: int, doubles: int) -> str:
    body, sleeves = max(0, body_most), max(0, sleeve_most)
    twice = f" ({doubles} of them double)" if doubles else ""
    return (
        f"{lost} sts to lose are {lost // 4} decrease rnds of 4, body and sleeves counted apart; the body can have "
        f"{body}{twice}, the sleeves {sleeves}, which makes {body + doubles + sleeves}"
    )
