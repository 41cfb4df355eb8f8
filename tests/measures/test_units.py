"""Units against a reference library, exactly: every length and weight a designer may write, to the base unit."""

from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension
from stitchproof.measures.units import PLAIN_NOUNS, SINGULAR, UNITS

REFERENCE: Any = pint.UnitRegistry(non_int_type=Fraction)
AS_THE_REFERENCE_SAYS = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "metre": "meter",
    "metres": "meter",
    "meter": "meter",
    "meters": "meter",
    "in": "inch",
    "inch": "inch",
    "inches": "inch",
    "yd": "yard",
    "yds": "yard",
    "yard": "yard",
    "yards": "yard",
    "g": "gram",
    "gram": "gram",
    "grams": "gram",
    "kg": "kilogram",
    "oz": "ounce",
    "ounce": "ounce",
    "ounces": "ounce",
}
MEASURED = sorted(word for word, unit in UNITS.items() if unit.dimension in (LENGTH, WEIGHT))


@pytest.mark.parametrize("word", MEASURED)
@settings(max_examples=20)
@given(amount=st.fractions(min_value=0, max_value=1000, max_denominator=1000))
def test_a_length_or_weight_is_what_the_reference_library_says(word: str, amount: Fraction) -> None:
    """Exact fractions on both sides: no tolerance."""
    unit = UNITS[word]
    base = "centimeter" if unit.dimension == LENGTH else "gram"
    reference = REFERENCE.Quantity(amount, AS_THE_REFERENCE_SAYS[word]).to(base).magnitude
    assert amount * unit.size == Fraction(reference)


def test_every_measured_unit_is_held_against_the_reference() -> None:
    assert set(MEASURED) == set(AS_THE_REFERENCE_SAYS)


@pytest.mark.parametrize(
    ("word", "size"),
    [("in", "2.54"), ("yd", "91.44"), ("oz", "28.349523125")],
)
def test_the_yard_and_the_pound_are_exact(word: str, size: str) -> None:
    """1 yd is 0.9144 m and 1 lb is 0.45359237 kg, both exactly. International yard and pound agreement, 1959."""
    assert UNITS[word].size == Fraction(size)


@pytest.mark.parametrize(
    ("words", "dimension"),
    [
        (("sts", "st", "stitch", "stitches"), STITCHES),
        (("rows", "row", "rnds", "rnd", "round", "rounds"), ROWS),
        (PLAIN_NOUNS, PLAIN),
    ],
)
def test_counts_are_counted_one_by_one(words: tuple[str, ...], dimension: Dimension) -> None:
    """Rounds count as rows; ribs, repeats and times are plain numbers. Common practice, no source."""
    for word in words:
        assert (UNITS[word].dimension, UNITS[word].size) == (dimension, Fraction(1))


@pytest.mark.parametrize("noun", [*PLAIN_NOUNS, "sts", "rows", "rnds"])
def test_one_and_many_are_the_same_unit(noun: str) -> None:
    assert UNITS[noun].noun == UNITS[SINGULAR[noun]].noun == noun
