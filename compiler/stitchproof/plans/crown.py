"""A crown in sections, drawn in by one stitch per section on each decrease round."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.plans.evenly import DECREASE, EvenRound
from stitchproof.plans.no_plan import Input, NoPlan, planned
from stitchproof.plans.two_groups import Order, in_order, runs, two_groups


class CrownRound(Struct, frozen=True):
    """Decrease round k (from 1): the round of the crown it is worked on, and how."""

    k: int
    round: int
    even: EvenRound

    @property
    def before(self) -> int:
        """Plain stitches before each decrease."""
        return self.even.groups.fewer

    @property
    def after(self) -> int:
        """Stitches of the whole round after it."""
        return self.even.after


class Crown(Struct, frozen=True):
    """Decrease rounds from `stitches` down to `end`; `rounds` counts the plain rounds between them too."""

    stitches: int
    sections: int
    end: int
    rounds: int
    shaped: tuple[CrownRound, ...]

    @property
    def dec_rounds(self) -> int:
        return len(self.shaped)


def crown(stitches: int, sections: int, *, end: int | None = None, plain: tuple[int, ...] = ()) -> Crown | NoPlan:
    """A crown of `sections` from `stitches`: decrease round k has stitches / sections − 1 − k plain before each decrease.

    end: the count to stop at, one stitch per section if not given. plain: how many plain rounds follow the 1st, 2nd, …
    decrease round, none where not given.
    """

    def attempt(stitches: int = stitches, sections: int = sections, end: int | None = end) -> Crown | NoPlan:
        last = sections if end is None else end
        for count in (stitches, last):
            if count % sections or not count:
                return NoPlan(
                    f"{count} sts are not whole sections: {count} = {sections} × {count // sections} + {count % sections}"
                )
        if last > stitches:
            return NoPlan(f"a crown from {stitches} sts cannot end at {last}")
        return _crown(stitches, sections, last, plain)

    inputs = (Input("stitches", stitches), Input("sections", sections, least=1))
    return planned(attempt, *inputs, *(() if end is None else (Input("end", end),)))


def _crown(stitches: int, sections: int, end: int, plain: tuple[int, ...]) -> Crown:
    shaped: list[CrownRound] = []
    number = 0
    for k in range(1, (stitches - end) // sections + 1):
        number += 1
        before = stitches - sections * (k - 1)
        groups = two_groups(before - 2 * sections, sections)
        even = EvenRound(before, sections, DECREASE, groups, runs(in_order(groups, Order.LARGER_FIRST)))
        shaped.append(CrownRound(k, number, even))
        number += plain[k - 1] if k <= len(plain) else 0
    return Crown(stitches, sections, end, number, tuple(shaped))
