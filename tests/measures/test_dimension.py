"""Dimensions multiply and divide like what they measure, and say so in trade words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension

small = st.integers(-3, 3)
dimensions = st.builds(Dimension, small, small, small, small)


@given(dimensions, dimensions)
def test_dividing_undoes_multiplying(one: Dimension, two: Dimension) -> None:
    assert one.times(two).per(two) == one
    assert one.times(two) == two.times(one)
    assert one.per(one) == PLAIN
    assert one.per(one).is_plain


@pytest.mark.parametrize("dimension", [PLAIN, STITCHES, ROWS])
def test_stitches_rows_and_plain_numbers_are_counts(dimension: Dimension) -> None:
    assert dimension.is_count


@pytest.mark.parametrize("dimension", [LENGTH, WEIGHT, STITCHES.per(LENGTH), STITCHES.times(ROWS)])
def test_lengths_weights_and_gauges_are_no_counts(dimension: Dimension) -> None:
    assert not dimension.is_count


@pytest.mark.parametrize(
    ("dimension", "words"),
    [
        (PLAIN, "a plain number"),
        (STITCHES, "stitches"),
        (STITCHES.per(LENGTH), "stitches per length"),
        (LENGTH.times(LENGTH), "length squared"),
        (LENGTH.per(WEIGHT), "length per weight"),
        (PLAIN.per(LENGTH.times(LENGTH).times(LENGTH)), "1 per length to the power 3"),
        (STITCHES.times(ROWS).per(LENGTH).per(WEIGHT), "stitches times rows per length and weight"),
    ],
)
def test_a_dimension_in_words(dimension: Dimension, words: str) -> None:
    assert dimension.in_words() == words
