"""The grid of printed lengths: halves of a centimetre, quarters of an inch, each from the exact length."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.print_grid import QUARTERS, change_text, cm_text, inch_text, on_cm_grid, on_inch_grid

lengths = st.fractions(min_value=0, max_value=200, max_denominator=5040)
either_way = st.fractions(min_value=-200, max_value=200, max_denominator=5040)


@given(lengths)
def test_a_printed_pair_stays_within_the_two_half_steps(cm: Fraction) -> None:
    """|cm − 2.54·in| ≤ 0.25 + 0.3175 for the grid of ½ cm and ¼ in. Derived: half of each step."""
    assert abs(on_cm_grid(cm) - Fraction("2.54") * on_inch_grid(cm)) <= Fraction("0.25") + Fraction("0.3175")


def test_the_pair_at_every_tenth_of_a_millimetre_up_to_two_metres() -> None:
    """The same bound, on every length that a pattern could state."""
    bound = Fraction("0.5675")
    for step in range(20_001):
        cm = Fraction(step, 100)
        assert abs(on_cm_grid(cm) - Fraction("2.54") * on_inch_grid(cm)) <= bound, cm


def test_each_unit_comes_from_the_unrounded_length() -> None:
    """33.33 cm prints 33.5 cm and 13 in; from the rounded 33.5 cm it would be 13¼. Common practice, no source."""
    cm = Fraction("33.33")
    assert (cm_text(cm), inch_text(cm)) == ("33.5", "13")
    assert inch_text(on_cm_grid(cm)) == "13¼"


@given(either_way)
def test_the_texts_say_the_numbers_of_the_grid(cm: Fraction) -> None:
    """Read back by hand: the minus, the whole, and what follows it."""
    assert _read(cm_text(cm).replace(".5", "½")) == on_cm_grid(cm)
    assert _read(inch_text(cm)) == on_inch_grid(cm)


def _read(text: str) -> Fraction:
    parts = {mark: part for part, mark in QUARTERS.items() if mark}
    bare = text.removeprefix("−")
    rest = parts.get(bare[-1], Fraction(0))
    whole = bare[:-1] if rest else bare
    return (int(whole or 0) + rest) * (-1 if text.startswith("−") else 1)


@pytest.mark.parametrize(
    ("cm", "cm_words", "inch_words"),
    [
        ("0", "0", "0"),
        ("0.6", "0.5", "¼"),
        ("1.27", "1.5", "½"),
        ("40", "40", "15¾"),
        ("10.25", "10.5", "4"),
        ("-10.6", "−10.5", "−4¼"),
        ("-0.6", "−0.5", "−¼"),
        ("-0.1", "0", "0"),
        ("200", "200", "78¾"),
    ],
)
def test_lengths_as_printed(cm: str, cm_words: str, inch_words: str) -> None:
    """An exact half of a step goes up; no 0 stands before a fraction of an inch; a minus is a minus sign."""
    assert (cm_text(Fraction(cm)), inch_text(Fraction(cm))) == (cm_words, inch_words)


@pytest.mark.parametrize(
    ("cm", "words"),
    [
        ("1.25", "+1.3 cm / +0.5 in"),
        ("-1.25", "−1.3 cm / −0.5 in"),
        ("0", "±0.0 cm / ±0.0 in"),
        ("0.06", "+0.1 cm / ±0.0 in"),
        ("-0.04", "±0.0 cm / ±0.0 in"),
    ],
)
def test_what_a_change_does(cm: str, words: str) -> None:
    """To a tenth, and no sign where a tenth shows nothing."""
    assert change_text(Fraction(cm)) == words
