"""Why there is no plan, in numbers, and which inputs near by would work: each has been tried."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import TypeVar

from msgspec import Struct

MOST = 10_000
"""The largest number a plan takes: more stitches, rows or times than any piece holds. It bounds the work of a plan."""
REACH = 200
"""How far from an input a value that works is looked for."""


class Nearest(Struct, frozen=True):
    """An input, named as the plan's function names it, and a value which alone, the others kept, makes the plan work."""

    name: str
    value: int | Fraction


class NoPlan(Struct, frozen=True):
    """The reason as a maker would say it, with its numbers; per input the nearest value below and above that works."""

    reason: str
    nearest: tuple[Nearest, ...] = ()


class Input(Struct, frozen=True):
    """A whole number that a plan is asked for, from `least` to `most`.

    One that is not `offered` is the designer's to keep; a 0 is offered only where it says something (`offers_0`).
    """

    name: str
    value: int
    least: int = 0
    most: int = MOST
    offered: bool = True
    offers_0: bool = False

    @property
    def is_outside(self) -> bool:
        return not self.least <= self.value <= self.most

    def in_words(self) -> str:
        """What is wrong with a value outside the bounds."""
        name = self.name.replace("_", " ")
        if self.value < self.least:
            return f"{name} is {signed(self.value)}; it cannot be below {self.least}"
        return f"{name} is {self.value}; a plan goes up to {self.most}"


P = TypeVar("P")


def planned(attempt: Callable[..., P | NoPlan], *inputs: Input) -> P | NoPlan:
    """What `attempt()` makes; where that is nothing, its reason with the nearest inputs, found by `attempt(name=value)`.

    An input outside its bounds is a reason by itself, and nothing is attempted.
    """
    outside = [each for each in inputs if each.is_outside]
    made = NoPlan("; ".join(each.in_words() for each in outside)) if outside else attempt()
    if not isinstance(made, NoPlan):
        return made
    if len(outside) > 1:
        return made
    tried = (each for each in outside or inputs if each.offered)
    return NoPlan(made.reason, tuple(near for each in tried for near in _nearest(attempt, each)))


def _nearest(attempt: Callable[..., P | NoPlan], given: Input) -> Iterator[Nearest]:
    below, above = min(given.value - 1, given.most), max(given.value + 1, given.least)
    for values in (
        range(below, max(below - REACH, (given.least if given.offers_0 else max(given.least, 1)) - 1), -1),
        range(above, min(above + REACH, given.most + 1)),
    ):
        found = next((value for value in values if not isinstance(attempt(**{given.name: value}), NoPlan)), None)
        if found is not None:
            yield Nearest(given.name, found)


def counted(number: int, one: str, many: str) -> str:
    """A number and its noun: "1 row", "3 rows"."""
    return f"{signed(number)} {one if number == 1 else many}"


def signed(number: int) -> str:
    """A whole number with a true minus."""
    return str(number).replace("-", "−")
