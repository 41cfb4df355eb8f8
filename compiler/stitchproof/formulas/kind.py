"""What a part of a formula is: a test, or a number of some dimension and noun."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension
from stitchproof.measures.units import SINGULAR, UNITS
from stitchproof.measures.values import Absent, Value, exact_text, rounded_text


class Kind(Struct, frozen=True):
    """truth: a test. noun: the unit word to print ("rnds" for rows of a round, "ribs" for a plain number, "m" for a length).

    zero: a written 0, which fits every dimension.
    """

    dimension: Dimension = PLAIN
    noun: str = ""
    truth: bool = False
    zero: bool = False

    @property
    def is_ratio(self) -> bool:
        """A named ratio: it scales what it is multiplied with, and stands beside no count."""
        return self.dimension.is_plain and self.noun == RATIO

    @property
    def is_bare(self) -> bool:
        """A plain number without a noun: beside a count it takes the count's unit, beside a length it is a fault."""
        return self.dimension.is_plain and not self.noun and not self.truth

    def in_words(self) -> str:
        """The kind as a maker would say it."""
        if self.truth:
            return "a test"
        if self.noun == "rnds" and self.dimension in (ROWS, ROWS.per(LENGTH)):
            return self.dimension.in_words().replace("rows", "rounds")
        if self.is_ratio:
            return "a ratio"
        return self.noun if self.dimension.is_plain and self.noun else self.dimension.in_words()

    def as_result(self) -> Kind:
        """The kind of a computed value: no longer a written zero."""
        return replace(self, zero=False)


TRUTH = Kind(truth=True)
NUMBER = Kind()
RATIO = "ratio"
"""The noun of a value named under `ratios`: a plain number that scales others and counts nothing."""
USUAL_NOUNS = {STITCHES: "sts", ROWS: "rows", LENGTH: "cm", WEIGHT: "g"}


def amount_text(value: Value, kind: Kind) -> str:
    """A value with its unit as a maker reads it: "40 cm", "16 sts per 10 cm", "25 ribs", "not worked".

    The number is exact where that is short, else it is rounded to two places.
    """
    if isinstance(value, Absent):
        return value.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    dimension = kind.dimension
    if dimension in (LENGTH, WEIGHT) and kind.noun in UNITS:
        return f"{_short(value / UNITS[kind.noun].size)} {kind.noun}"
    if dimension.is_plain or dimension in USUAL_NOUNS:
        noun = (
            kind.noun
            if dimension in (PLAIN, ROWS) and kind.noun and not kind.is_ratio
            else USUAL_NOUNS.get(dimension, "")
        )
        return f"{_short(value)} {SINGULAR.get(noun, noun) if abs(value) == 1 else noun}".rstrip()
    if dimension.length == -1 and dimension.times(LENGTH) in USUAL_NOUNS:
        noun = kind.noun or USUAL_NOUNS[dimension.times(LENGTH)]
        return f"{_short(value * 10)} {noun} per 10 cm"
    return f"{_short(value)} {_unit_words(dimension)}"


def _short(number: Fraction) -> str:
    text = exact_text(number)
    return text if len(text) <= 7 and "/" not in text else rounded_text(number)


def _unit_words(dimension: Dimension) -> str:
    """The units of a number of some dimension: "g per st"."""
    powers = (("sts", dimension.stitches), ("rows", dimension.rows), ("cm", dimension.length), ("g", dimension.weight))
    above = " × ".join(word for word, power in powers for _ in range(power))
    below = "".join(f" per {SINGULAR.get(word, word)}" for word, power in powers for _ in range(-power))
    return (above + below).strip()


def whole(value: Value) -> bool:
    """Whether a value is a whole number (or has none)."""
    return not isinstance(value, Fraction) or value.denominator == 1
