"""Rounding, always named: to a whole number or to a multiple, with what it did kept beside the result."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import exact_text


class Direction(Enum):
    """The rule that decides between the two neighbours."""

    NEAREST = "nearest"
    """The nearer one; an exact half goes up."""
    NEAREST_DOWN = "nearest, half down"
    UP = "up"
    DOWN = "down"


class Multiple(Struct, frozen=True):
    """The numbers a count may take: `of` times a whole number, `plus` the rest (a multiple of 4 plus 2)."""

    of: Fraction = Fraction(1)
    plus: Fraction = Fraction(0)

    def fits(self, number: Fraction) -> bool:
        return self._steps(number).denominator == 1

    def below(self, number: Fraction) -> Fraction:
        """The largest fitting number that is not above `number`."""
        return self._at(self._steps(number).__floor__())

    def above(self, number: Fraction) -> Fraction:
        """The smallest fitting number that is not below `number`."""
        return self._at(self._steps(number).__ceil__())

    def _steps(self, number: Fraction) -> Fraction:
        """How many times `of` a number is, `plus` left out. Most multiples are those of 1, where nothing is worked out."""
        rest = number if self.plus == 0 else number - self.plus
        return rest if self.of == 1 else rest / self.of

    def _at(self, steps: int) -> Fraction:
        number = Fraction(steps) if self.of == 1 else steps * self.of
        return number if self.plus == 0 else number + self.plus

    def in_words(self) -> str:
        """The multiple as a maker would say it: "multiple of 4 plus 2", "even", "odd"."""
        if self.of == 2 and self.plus in (0, 1):
            return "odd" if self.plus else "even"
        return f"multiple of {exact_text(self.of)}" + (f" plus {exact_text(self.plus)}" if self.plus else "")


def round_to(number: Fraction, direction: Direction, multiple: Multiple) -> Fraction:
    """The neighbour of `number` among the multiples that `direction` names. Exact; ties as the direction states."""
    if multiple.fits(number):
        return number
    low, high = multiple.below(number), multiple.above(number)
    if direction is Direction.UP:
        return high
    if direction is Direction.DOWN:
        return low
    to_low, to_high = number - low, high - number
    if to_low == to_high:
        return low if direction is Direction.NEAREST_DOWN else high
    return low if to_low < to_high else high
