"""Stitches picked up along an edge at a rate, in whole groups, with what is done beyond them."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_groups import Order, Run, in_order, runs, two_groups

LARGEST_GROUP = 100
"""The most rows or ribs in one group; it bounds the work of a plan."""


class EdgeRate(Struct, frozen=True):
    """`sts` for every `per` units of the edge; `left_over` for each unit beyond whole groups, none allowed if not given.

    A unit is a row (1 row-end) or a rib (2 row-ends). noun: "rows", "ribs".
    """

    sts: int
    per: int
    left_over: int | None = None
    row_ends: int = 1
    noun: str = "rows"

    def counted(self, edge: int) -> str:
        """A length of edge in words: "25 ribs"."""
        return counted(edge, self.noun.removesuffix("s"), self.noun)


class PickUp(Struct, frozen=True):
    """Stitches picked up along `edge` units: `groups` whole groups, and `left` units beyond them.

    group, rest: stitches worked into each row-end in order (size: stitches in one row-end, times: row-ends so); 0 passes
    a row-end over. rest: all of what lies beyond whole groups.
    """

    edge: int
    rate: EdgeRate
    groups: int
    left: int
    group: tuple[Run, ...]
    rest: tuple[Run, ...]

    @property
    def picked_up(self) -> int:
        return self.groups * self.rate.sts + self.left * (self.rate.left_over or 0)

    @property
    def row_ends(self) -> int:
        return self.edge * self.rate.row_ends


def pick_up(edge: int, rate: EdgeRate) -> PickUp | NoPlan:
    """What is picked up along `edge`: floor(edge / per)·sts, and left_over for each of the rest."""

    def attempt(edge: int = edge) -> PickUp | NoPlan:
        groups, left = divmod(edge, rate.per)
        if left and rate.left_over is None:
            whole = f"{counted(groups, 'group', 'groups')} of {rate.per} and {left} over"
            return NoPlan(f"{rate.counted(edge)} are {whole}, and the rate does not say what is picked up there")
        group = into_row_ends(rate.sts, rate.per * rate.row_ends)
        rest = into_row_ends(rate.left_over or 0, rate.row_ends)
        return PickUp(edge, rate, groups, left, group, runs(_each(rest) * left))

    return planned(attempt, Input("edge", edge), *_of_rate(rate))


def edge_for(stitches: int, rate: EdgeRate) -> PickUp | NoPlan:
    """The shortest edge along which exactly `stitches` are picked up."""

    def attempt(stitches: int = stitches) -> PickUp | NoPlan:
        edges = [
            groups * rate.per + left
            for left in _rests(rate)
            for groups, over in [divmod(stitches - left * (rate.left_over or 0), rate.sts)]
            if groups >= 0 and not over
        ]
        if not edges:
            per = f"{counted(rate.sts, 'st', 'sts')} per {rate.counted(rate.per)}"
            beyond = "" if rate.left_over is None else f" and {rate.left_over} for each beyond"
            return NoPlan(f"no edge gives {stitches} sts at {per}{beyond}")
        return pick_up(min(edges), rate)

    return planned(attempt, Input("stitches", stitches), *_of_rate(rate))


def longest_edge(stitches: int, rate: EdgeRate) -> PickUp | NoPlan:
    """The longest edge along which no more than `stitches` are picked up."""

    def attempt(stitches: int = stitches) -> PickUp | NoPlan:
        reach = ((left, (stitches - left * (rate.left_over or 0)) // rate.sts) for left in _rests(rate))
        return pick_up(max(groups * rate.per + left for left, groups in reach if groups >= 0), rate)

    return planned(attempt, Input("stitches", stitches), *_of_rate(rate))


def into_row_ends(stitches: int, row_ends: int) -> tuple[Run, ...]:
    """`stitches` into so many row-ends as evenly as can be, each larger one after its plain ones; skips come last."""
    fewest, larger = divmod(stitches, row_ends)
    if not fewest:
        if not stitches:
            return (Run(0, row_ends),)
        between = in_order(two_groups(stitches, row_ends - stitches), Order.LARGER_FIRST)
        sizes = [size for gap in between for size in (*(1,) * gap, 0)] or [1] * row_ends
        return runs(sizes)
    between = in_order(two_groups(row_ends - larger, larger), Order.LARGER_FIRST)
    return runs([size for gap in between for size in (*(fewest,) * gap, fewest + 1)] or [fewest] * row_ends)


def _rests(rate: EdgeRate) -> range:
    """How many units may lie beyond whole groups."""
    return range(rate.per if rate.left_over is not None else 1)


def _of_rate(rate: EdgeRate) -> tuple[Input, ...]:
    return (
        Input("sts", rate.sts, least=1, offered=False),
        Input("per", rate.per, least=1, most=LARGEST_GROUP, offered=False),
        Input("left_over", rate.left_over or 0, offered=False),
        Input("row_ends", rate.row_ends, least=1, most=LARGEST_GROUP, offered=False),
    )


def _each(made: tuple[Run, ...]) -> tuple[int, ...]:
    return tuple(run.size for run in made for _ in range(run.times))
