"""Buttonholes along a band, the gaps between them alike within one stitch."""

from __future__ import annotations

from itertools import accumulate

from msgspec import Struct

from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_groups import Order, Run, TwoGroups, in_order, runs, two_groups


class Buttonholes(Struct, frozen=True):
    """Holes over a stretch of `stitches`: `below` the first, gaps between, `above` the last. From the lower edge up.

    starts: the first stitch of each hole, counted from 1.
    """

    stitches: int
    holes: int
    width: int
    below: int
    above: int
    gaps: TwoGroups
    runs: tuple[Run, ...]
    starts: tuple[int, ...]

    @property
    def free(self) -> int:
        """Stitches that stand between the holes."""
        return self.gaps.total


def buttonholes(
    stitches: int, holes: int, width: int, *, below: int, above: int, larger: Order = Order.LARGER_FIRST
) -> Buttonholes | NoPlan:
    """`holes` of `width` stitches with at least one stitch between two. Larger gaps lowest, unless `larger` says otherwise.

    A single hole has no gap: what is left goes above it.
    """

    def attempt(
        stitches: int = stitches, holes: int = holes, width: int = width, below: int = below, above: int = above
    ) -> Buttonholes | NoPlan:
        free = stitches - below - above - holes * width
        if free < holes - 1:
            return NoPlan(_too_narrow(stitches, holes, width, below, above))
        if holes == 1:
            above, free = above + free, 0
        gaps = two_groups(free, holes - 1)
        sizes = in_order(gaps, larger, centred=True)
        starts = tuple(accumulate((gap + width for gap in sizes), initial=below + 1))
        return Buttonholes(stitches, holes, width, below, above, gaps, runs(sizes), starts)

    return planned(
        attempt,
        Input("stitches", stitches),
        Input("holes", holes, least=1),
        Input("width", width, least=1),
        Input("below", below, offers_0=True),
        Input("above", above, offers_0=True),
    )


def _too_narrow(stitches: int, holes: int, width: int, below: int, above: int) -> str:
    needed = below + above + holes * width + holes - 1
    sum_ = f"{below} + {holes} × {width} + {counted(holes - 1, 'gap', 'gaps')} of at least 1 + {above} = {needed}"
    return f"{sum_} sts, and there are {stitches}"
