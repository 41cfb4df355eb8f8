"""One exact value per size, or the reason why there is none."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction


class Absent(Enum):
    """Why a size has no value. Both spread through a formula, size by size."""

    NOT_WORKED = "not worked"
    """The designer says that this size does not work it; prints as a dash."""
    UNKNOWN = "unknown"
    """It could not be determined and the reason is already reported; stays silent downstream."""


MOST_PLACES = 4
"""Digits after the point that still count as short."""
Value = Fraction | bool | Absent
PerSize = tuple[Value, ...]
"""One value per size, in the pattern's order of sizes; lengths in cm, weights in g."""


def exact_text(number: Fraction) -> str:
    """A number as short exact text: "62", "62.5", "40/3"."""
    if (number * 10**MOST_PLACES).denominator == 1:
        return rounded_text(number, MOST_PLACES)
    return f"{number.numerator}/{number.denominator}".replace("-", "−")


def rounded_text(number: Fraction, digits: int = 2) -> str:
    """A number for reading: exact where it is short, else rounded to `digits` places (a half away from 0), minus as −."""
    scaled = number * 10**digits
    whole = (2 * abs(scaled).numerator + abs(scaled).denominator) // (2 * abs(scaled).denominator)
    sign = "−" if number < 0 and whole else ""
    units, places = divmod(whole, 10**digits)
    tail = f".{places:0{digits}d}".rstrip("0") if places else ""
    return f"{sign}{units}{tail}"
