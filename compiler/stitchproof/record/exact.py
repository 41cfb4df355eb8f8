"""Values as the record holds them, and back: exact, in cm, g or what they count."""

from __future__ import annotations

import re
from fractions import Fraction

from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.values import Absent, Value

YES, NO = "yes", "no"
LONGEST = 4_000
_EXACT = re.compile(r"-?\d+(?:/\d+|\.\d+)?", re.ASCII)
"""As exact values are written; one with an exponent would be a day's work."""


def as_text(value: Value) -> str:
    """A value as exact text: "143/2", "-3", "yes", "not worked"."""
    if isinstance(value, Absent):
        return value.value
    if isinstance(value, bool):
        return YES if value else NO
    return str(value)


def as_number(text: str) -> Fraction | None:
    """The number that a text of the record holds, None where the value is no number."""
    if len(text) > LONGEST or not _EXACT.fullmatch(text):
        return None
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        return None


def unit_of(kind: Kind) -> str:
    """What the exact values of a kind are counted in: "cm" for every length, "g" for every weight, "sts", "rnds per cm"."""
    dimension = kind.dimension
    if dimension == LENGTH:
        return "cm"
    if dimension == WEIGHT:
        return "g"
    if dimension.length == -1 and kind.noun:
        return f"{kind.noun} per cm"
    return kind.noun if kind.noun and (dimension.is_plain or dimension.is_count) else kind.in_words()
