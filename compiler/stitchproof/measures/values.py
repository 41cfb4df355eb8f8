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


Value = Fraction | bool | Absent
PerSize = tuple[Value, ...]
"""One value per size, in the pattern's order of sizes; lengths in cm, weights in g."""


def exact_text(number: Fraction) -> str:
    """A number as short exact text: "62", "62.5", "40/3"."""
    if number.denominator == 1:
        return str(number.numerator).replace("-", "−")
    rest = number.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest == 1:
        digits = 1
        while (number * 10**digits).denominator != 1:
            digits += 1
        if digits <= 4:
            return f"{float(number):.{digits}f}".replace("-", "−")
    return f"{number.numerator}/{number.denominator}".replace("-", "−")


def rounded_text(number: Fraction, digits: int = 2) -> str:
    """A number for reading: exact where it is short, else rounded to `digits` places (half up), minus as −."""
    scaled = number * 10**digits
    whole = (2 * abs(scaled).numerator + abs(scaled).denominator) // (2 * abs(scaled).denominator)
    sign = "−" if number < 0 and whole else ""
    units, places = divmod(whole, 10**digits)
    tail = f".{places:0{digits}d}".rstrip("0").rstrip(".") if digits else ""
    return f"{sign}{units}{tail}"
