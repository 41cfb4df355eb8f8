"""The grid that printed lengths stand on: centimetres to a half, inches to a quarter, each from the unrounded value.

Source: common practice, no source (0.5 cm and ¼ in for garments; finer below 5 cm only where it matters).
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.measures.values import exact_text

CM_GRID = Multiple(Fraction(1, 2))
INCH_GRID = Multiple(Fraction(1, 4))
QUARTERS = {Fraction(0): "", Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


def on_cm_grid(cm: Fraction) -> Fraction:
    """Centimetres to the nearest half, an exact half of a step up."""
    return round_to(cm, Direction.NEAREST, CM_GRID)


def on_inch_grid(cm: Fraction) -> Fraction:
    """Inches to the nearest quarter, from the unrounded centimetres."""
    return round_to(cm / CM_PER_INCH, Direction.NEAREST, INCH_GRID)


def cm_text(cm: Fraction) -> str:
    """A length as printed in centimetres, without the unit: "40", "10.5"."""
    return exact_text(on_cm_grid(cm))


def inch_text(cm: Fraction) -> str:
    """A length as printed in inches, without the unit: "15¾", "½", "0"."""
    inches = on_inch_grid(cm)
    whole, rest = divmod(abs(inches), 1)
    quarter = QUARTERS[rest]
    sign = "−" if inches < 0 else ""
    return f"{sign}{whole or ''}{quarter}" if quarter else f"{sign}{whole}"


def change_text(cm: Fraction) -> str:
    """What a change does to the width or length: "+1.3 cm / +0.5 in", from the exact centimetres."""
    return f"{_signed(cm)} cm / {_signed(cm / CM_PER_INCH)} in"


def _signed(number: Fraction) -> str:
    tenths = int(round_to(abs(number) * 10, Direction.NEAREST, Multiple()))
    sign = "−" if number < 0 and tenths else "+" if tenths else "±"
    return f"{sign}{tenths // 10}.{tenths % 10}"
