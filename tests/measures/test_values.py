"""Numbers as short text: exact where it is short, never a wrong digit."""

from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.values import MOST_PLACES, exact_text, rounded_text

numbers = st.fractions(max_denominator=10**6)


@given(numbers)
def test_the_exact_text_reads_back_as_the_number(number: Fraction) -> None:
    """However long: no number passes through a float."""
    text = exact_text(number)
    assert "-" not in text
    assert Fraction(text.replace("−", "-")) == number


@given(st.integers(), st.integers(0, MOST_PLACES))
def test_a_short_decimal_is_written_as_one(digits: int, places: int) -> None:
    assert "/" not in exact_text(Fraction(digits, 10**places))


@given(st.integers(-(10**9), 10**9), st.integers(0, 6), st.integers(0, 6))
def test_rounded_text_is_what_decimal_arithmetic_gives(digits: int, places: int, shown: int) -> None:
    """Against the decimal module of Python (General Decimal Arithmetic, ROUND_HALF_UP: a half away from 0)."""
    with localcontext(prec=60):
        decimal = Decimal(digits).scaleb(-places).quantize(Decimal(1).scaleb(-shown), ROUND_HALF_UP)
        assert Fraction(rounded_text(Fraction(digits, 10**places), shown).replace("−", "-")) == Fraction(decimal)


@pytest.mark.parametrize(
    ("number", "exact", "rounded"),
    [
        (Fraction(62), "62", "62"),
        (Fraction(125, 2), "62.5", "62.5"),
        (Fraction(40, 3), "40/3", "13.33"),
        (Fraction(-40, 3), "−40/3", "−13.33"),
        (Fraction(-1, 400), "−0.0025", "0"),
        (Fraction(1, 32), "1/32", "0.03"),
        (Fraction(1999, 1000), "1.999", "2"),
        (Fraction(2**70 + 1, 2), "590295810358705651712.5", "590295810358705651712.5"),
    ],
)
def test_numbers_as_text(number: Fraction, exact: str, rounded: str) -> None:
    """No trailing zeros, a true minus sign, and no minus before a 0."""
    assert (exact_text(number), rounded_text(number)) == (exact, rounded)
