"""Rounding is always named: what each name promises, for every number and every multiple."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.rounding import Direction, Multiple, round_to

numbers = st.fractions(min_value=-10_000, max_value=10_000, max_denominator=360)
multiples = st.builds(
    Multiple,
    st.fractions(min_value=Fraction(1, 8), max_value=60, max_denominator=8),
    st.fractions(min_value=-30, max_value=30, max_denominator=8),
)
directions = st.sampled_from(Direction)


@given(numbers, directions, multiples)
def test_the_result_is_one_of_the_multiples(number: Fraction, direction: Direction, multiple: Multiple) -> None:
    assert multiple.fits(round_to(number, direction, multiple))


@given(numbers, multiples)
def test_up_is_never_below_and_down_never_above(number: Fraction, multiple: Multiple) -> None:
    up, down = round_to(number, Direction.UP, multiple), round_to(number, Direction.DOWN, multiple)
    assert number <= up < number + multiple.of
    assert number - multiple.of < down <= number


@given(numbers, st.sampled_from([Direction.NEAREST, Direction.NEAREST_DOWN]), multiples)
def test_nearest_is_never_farther_than_half_a_step(number: Fraction, direction: Direction, multiple: Multiple) -> None:
    assert abs(round_to(number, direction, multiple) - number) <= multiple.of / 2


@given(st.integers(-500, 500), multiples)
def test_an_exact_half_goes_the_way_its_name_says(steps: int, multiple: Multiple) -> None:
    """nearest: up, for negative numbers too; nearest, half down: down."""
    low = steps * multiple.of + multiple.plus
    half = low + multiple.of / 2
    assert round_to(half, Direction.NEAREST, multiple) == low + multiple.of
    assert round_to(half, Direction.NEAREST_DOWN, multiple) == low


@given(numbers, directions, multiples)
def test_what_fits_already_stays(number: Fraction, direction: Direction, multiple: Multiple) -> None:
    fitting = round_to(number, direction, multiple)
    for again in Direction:
        assert round_to(fitting, again, multiple) == fitting


@given(numbers, numbers, directions, multiples)
def test_rounding_keeps_the_order(one: Fraction, two: Fraction, direction: Direction, multiple: Multiple) -> None:
    """A larger size never gets the smaller count."""
    low, high = sorted((one, two))
    assert round_to(low, direction, multiple) <= round_to(high, direction, multiple)


@given(numbers, multiples)
def test_below_and_above_are_neighbours(number: Fraction, multiple: Multiple) -> None:
    below, above = multiple.below(number), multiple.above(number)
    assert multiple.fits(below)
    assert multiple.fits(above)
    assert below <= number <= above
    assert above - below == (0 if multiple.fits(number) else multiple.of)


@pytest.mark.parametrize(
    ("number", "nearest", "half_down", "up", "down"),
    [
        ("156.4", 156, 156, 157, 156),
        ("20.5", 21, 20, 21, 20),
        ("-20.5", -20, -21, -20, -21),
        ("-0.5", 0, -1, 0, -1),
        ("7", 7, 7, 7, 7),
        ("-7", -7, -7, -7, -7),
    ],
)
def test_to_a_whole_number(number: str, nearest: int, half_down: int, up: int, down: int) -> None:
    """Half-way cases by hand: "up" and "down" follow the number line, not the distance from 0."""
    found = [round_to(Fraction(number), direction, Multiple()) for direction in Direction]
    assert found == [nearest, half_down, up, down]


@pytest.mark.parametrize(
    ("of", "plus", "words"),
    [
        ("2", "0", "even"),
        ("2", "1", "odd"),
        ("8", "0", "multiple of 8"),
        ("4", "2", "multiple of 4 plus 2"),
        ("2.5", "0.5", "multiple of 2.5 plus 0.5"),
        ("4", "-1", "multiple of 4 plus −1"),
    ],
)
def test_a_multiple_in_words(of: str, plus: str, words: str) -> None:
    assert Multiple(Fraction(of), Fraction(plus)).in_words() == words
