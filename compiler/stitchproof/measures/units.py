"""The units a designer may write after a number, each exact."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension

CM_PER_INCH = Fraction(254, 100)
"""1 inch is exactly 2.54 cm (international yard and pound agreement of 1959)."""
GRAMS_PER_OUNCE = Fraction(45359237, 1600000)
"""1 avoirdupois pound is exactly 453.59237 g (same agreement); an ounce is a sixteenth of it."""


class Unit(Struct, frozen=True):
    """A unit word: what it measures, how much of the base unit (cm, g, 1 stitch, 1 row, 1) it is, and its noun."""

    word: str
    dimension: Dimension
    size: Fraction
    noun: str


def _table() -> dict[str, Unit]:
    rows: list[tuple[str, Dimension, Fraction, str]] = [
        ("mm", LENGTH, Fraction(1, 10), "mm"),
        ("cm", LENGTH, Fraction(1), "cm"),
        ("m metre metres meter meters", LENGTH, Fraction(100), "m"),
        ("in inch inches", LENGTH, CM_PER_INCH, "in"),
        ("yd yds yard yards", LENGTH, 36 * CM_PER_INCH, "yd"),
        ("g gram grams", WEIGHT, Fraction(1), "g"),
        ("kg", WEIGHT, Fraction(1000), "kg"),
        ("oz ounce ounces", WEIGHT, GRAMS_PER_OUNCE, "oz"),
        ("sts st stitch stitches", STITCHES, Fraction(1), "sts"),
        ("rows row", ROWS, Fraction(1), "rows"),
        ("rnds rnd round rounds", ROWS, Fraction(1), "rnds"),
    ]
    rows += [(f"{noun} {noun[:-1]}", PLAIN, Fraction(1), noun) for noun in PLAIN_NOUNS]
    return {word: Unit(word, dim, size, noun) for words, dim, size, noun in rows for word in words.split()}


PLAIN_NOUNS = (
    "ribs",
    "repeats",
    "groups",
    "pairs",
    "times",
    "sections",
    "spaces",
    "points",
    "markers",
    "buttons",
    "balls",
    "skeins",
    "pieces",
)
SINGULAR = {"sts": "st", "rows": "row", "rnds": "rnd", **{noun: noun[:-1] for noun in PLAIN_NOUNS}}
"""The noun beside a single one: "1 rib"."""
UNITS = _table()
