"""Stitches picked up along an edge at a rate, in whole groups, with what is done beyond them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.rate import Rate
from stitchproof.measures.values import exact_text
from stitchproof.plans.no_plan import Input, NoPlan, counted, planned
from stitchproof.plans.two_groups import Order, Run, in_order, runs, two_groups

LARGEST_GROUP = 100
"""The most rows or ribs in one group; it bounds the work of a plan."""


class PickUp(Struct, frozen=True):
    """Stitches picked up along `edge` units: `groups` whole groups, and `left` units beyond them.

    group, rest: stitches worked into each row-end in order (size: stitches in one row-end, times: row-ends so); 0 passes
    a row-end over. rest: all of what lies beyond whole groups.
    """

    edge: int
    rate: Rate
    groups: int
    left: int
    group: tuple[Run, ...]
    rest: tuple[Run, ...]

    @property
    def picked_up(self) -> int:
        return int(self.rate.picked_up(Fraction(self.edge)))

    @property
    def row_ends(self) -> int:
        return self.edge * self.rate.row_ends


def pick_up(edge: int, rate: Rate) -> PickUp | NoPlan:
    """What is picked up along `edge`: floor(edge / per)·sts, and left_over for each of the rest; a rate in whole stitches."""

    def attempt(edge: int = edge) -> PickUp | NoPlan:
        groups, left = divmod(edge, int(rate.per))
        if left and rate.left_over is None:
            whole = f"{counted(groups, 'group', 'groups')} of {rate.per} and {left} over"
            return NoPlan(f"{_edge(edge, rate)} are {whole}, and the rate does not say what is picked up there")
        group = into_row_ends(int(rate.sts), int(rate.per) * rate.row_ends)
        rest = into_row_ends(int(rate.left_over or 0), rate.row_ends)
        return PickUp(edge, rate, groups, left, group, runs(_each(rest) * left))

    return _planned(rate, attempt, Input("edge", edge))


def edge_for(stitches: int, rate: Rate) -> PickUp | NoPlan:
    """The shortest edge along which exactly `stitches` are picked up."""

    def attempt(stitches: int = stitches) -> PickUp | NoPlan:
        beyond = int(rate.left_over or 0)
        edges = [
            groups * int(rate.per) + left
            for left in _rests(rate)
            for groups, over in [divmod(stitches - left * beyond, int(rate.sts))]
            if groups >= 0 and not over
        ]
        if not edges:
            per = f"{counted(int(rate.sts), 'st', 'sts')} per {_edge(int(rate.per), rate)}"
            more = "" if rate.left_over is None else f" and {beyond} for each beyond"
            return NoPlan(f"no edge gives {stitches} sts at {per}{more}")
        return pick_up(min(edges), rate)

    return _planned(rate, attempt, Input("stitches", stitches))


def longest_edge(stitches: int, rate: Rate) -> PickUp | NoPlan:
    """The longest edge along which no more than `stitches` are picked up, in whole groups where the rate has nothing beyond."""

    def attempt(stitches: int = stitches) -> PickUp | NoPlan:
        edge = rate.edge_for(Fraction(stitches))
        return pick_up(int(edge if rate.left_over is not None else edge // rate.per * rate.per), rate)

    return _planned(rate, attempt, Input("stitches", stitches))


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


def _planned(rate: Rate, attempt: Callable[..., PickUp | NoPlan], asked: Input) -> PickUp | NoPlan:
    part = _part_of_a_stitch(rate)
    return planned(attempt, asked, *_of_rate(rate)) if part is None else part


def _edge(edge: int, rate: Rate) -> str:
    """A length of edge in words: "25 ribs"."""
    return counted(edge, rate.noun.removesuffix("s"), rate.noun)


def _part_of_a_stitch(rate: Rate) -> NoPlan | None:
    """Why no row can be written at a rate: it picks up part of a stitch."""
    parts = [each for each in (rate.sts, rate.per, rate.left_over) if each is not None and each.denominator != 1]
    return NoPlan(f"{exact_text(parts[0])} in the rate is no whole number") if parts else None


def _rests(rate: Rate) -> range:
    """How many units may lie beyond whole groups."""
    return range(int(rate.per) if rate.left_over is not None else 1)


def _of_rate(rate: Rate) -> tuple[Input, ...]:
    return (
        Input("sts", int(rate.sts), least=1, offered=False),
        Input("per", int(rate.per), least=1, most=LARGEST_GROUP, offered=False),
        Input("left_over", int(rate.left_over or 0), offered=False),
        Input("row_ends", rate.row_ends, least=1, most=LARGEST_GROUP, offered=False),
    )


def _each(made: tuple[Run, ...]) -> tuple[int, ...]:
    return tuple(run.size for run in made for _ in range(run.times))
