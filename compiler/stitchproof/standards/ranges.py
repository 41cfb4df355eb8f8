"""A published figure: a range, open at an end where the table leaves it open, or a single figure."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from msgspec import Struct


class Range(Struct, frozen=True):
    """From `low` to `high`, both included; None is open. A single published figure has both ends alike."""

    low: Fraction | None
    high: Fraction | None

    def contains(self, value: Fraction) -> bool:
        """Whether a value lies in the range, its ends included."""
        return (self.low is None or self.low <= value) and (self.high is None or value <= self.high)

    @property
    def single(self) -> Fraction | None:
        """The figure, where the table gives exactly one; None for a range: nothing is chosen from it."""
        return self.low if self.low == self.high else None


def exact(figure: float | str) -> Fraction:
    """A figure of a data file as the decimal that was written: 91.5 is 183/2."""
    return Fraction(str(figure))


def read_range(cell: Any) -> Range | None:
    """A cell of a data file: [low, high], one figure, or None where the figure is not known."""
    if cell is None:
        return None
    low, high = cell if isinstance(cell, list) else (cell, cell)
    return Range(None if low is None else exact(low), None if high is None else exact(high))
