"""A total shared out evenly: groups of two sizes that differ by one, and the order they are worked in."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from itertools import groupby, pairwise

from msgspec import Struct


class Order(Enum):
    """Which groups are worked first."""

    LARGER_FIRST = "larger first"
    SMALLER_FIRST = "smaller first"
    SPREAD = "spread"
    """The larger groups as far apart as they will go: a smoother line, a longer row."""


class Run(Struct, frozen=True):
    """`times` groups of the same size, worked one after the other."""

    size: int
    times: int


class TwoGroups(Struct, frozen=True):
    """`more_times` groups of `more`, and `fewer_times` groups of `fewer`, which is one less."""

    fewer: int
    fewer_times: int
    more_times: int

    @property
    def more(self) -> int:
        return self.fewer + 1

    @property
    def times(self) -> int:
        return self.fewer_times + self.more_times

    @property
    def total(self) -> int:
        return self.fewer * self.times + self.more_times


NO_GROUPS = TwoGroups(0, 0, 0)


def two_groups(total: int, groups: int) -> TwoGroups:
    """`total` shared out over `groups`: divide, and give the remainder out one by one. No groups share nothing."""
    if not groups:
        return NO_GROUPS
    fewer, more_times = divmod(total, groups)
    return TwoGroups(fewer, groups - more_times, more_times)


def in_order(groups: TwoGroups, order: Order, centred: bool = False) -> tuple[int, ...]:
    """The size of each group, in the order worked.

    Spread, group i (from 0) of n is one of the a larger where floor((i + 1)·a/n) > floor(i·a/n); `centred` moves the
    pattern by half a step, so that both ends of a row look alike and a single larger group stands in the middle.
    """
    n, larger = groups.times, groups.more_times
    if order is Order.LARGER_FIRST:
        return (groups.more,) * larger + (groups.fewer,) * groups.fewer_times
    if order is Order.SMALLER_FIRST:
        return (groups.fewer,) * groups.fewer_times + (groups.more,) * larger
    steps = [(2 * i * larger + (n if centred else 0)) // (2 * n) for i in range(n + 1)] if n else []
    return tuple(groups.fewer + after - before for before, after in pairwise(steps))


def runs(sizes: Iterable[int]) -> tuple[Run, ...]:
    """Groups of the same size that follow one another, taken together."""
    return tuple(Run(size, len(tuple(same))) for size, same in groupby(sizes))
