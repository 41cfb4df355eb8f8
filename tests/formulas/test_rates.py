"""Pick-up rates and searches, against counting one by one."""

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.rate import Rate
from tests.formulas.small_scope import values


def rate(sts: Fraction, per: int, left_over: Fraction | None) -> Rate:
    return Rate(sts, Fraction(per), left_over, "ribs")


usual_rates = st.builds(
    rate, st.integers(1, 12).map(Fraction), st.integers(1, 6), st.none() | st.integers(0, 3).map(Fraction)
)
odd_rates = st.builds(
    rate,
    st.fractions(min_value=Fraction(1, 4), max_value=20, max_denominator=4),
    st.integers(1, 9),
    st.none() | st.fractions(min_value=0, max_value=25, max_denominator=4),
)


@given(usual_rates, st.integers(0, 120))
def test_picked_up_is_counted_rib_by_rib(held: Rate, ribs: int) -> None:
    """Along whole groups the rate, along each rib beyond them what `left_over` says; without it the exact share."""
    counted = Fraction(0)
    group = Fraction(0)
    for rib in range(1, ribs + 1):
        group += held.left_over if held.left_over is not None else held.sts / held.per
        if rib % held.per == 0:
            counted, group = counted + held.sts, Fraction(0)
    assert held.picked_up(Fraction(ribs)) == counted + group


@given(usual_rates | odd_rates, st.fractions(min_value=0, max_value=150, max_denominator=6))
def test_edge_for_is_the_longest_that_does_not_pick_up_more(held: Rate, stitches: Fraction) -> None:
    """Against trying every length up to where whole groups alone pick up too much."""
    furthest = int((stitches // held.sts + 2) * held.per)
    fitting = [edge for edge in range(furthest + 1) if held.picked_up(Fraction(edge)) <= stitches]
    assert held.edge_for(stitches) == max(fitting)


@given(usual_rates, st.integers(0, 150))
def test_edge_for_undoes_picked_up(held: Rate, ribs: int) -> None:
    """The edge for what an edge picks up is that edge, or a longer one that picks up no more."""
    edge = Fraction(ribs)
    again = held.edge_for(held.picked_up(edge))
    assert again >= edge
    assert held.picked_up(again) <= held.picked_up(edge)
    if held.left_over is None:
        assert again == edge


def test_an_edge_is_found_at_once_however_long_its_group_is() -> None:
    """A group of a thousand million ribs: nothing is counted through."""
    assert rate(Fraction(5), 10**9, Fraction(0)).edge_for(Fraction(6)) == 2 * 10**9 - 1
    assert rate(Fraction(5), 10**9, Fraction(1)).edge_for(Fraction(6)) == 10**9 + 1


@pytest.mark.parametrize(
    ("ribs", "sts"),
    [(42, 94), (40, 90), (41, 92), (43, 96), (44, 99)],
)
def test_one_in_each_row_end_and_two_before_every_fourth_rib(ribs: int, sts: int) -> None:
    """9 per 4 ribs of two rows: 2 · ribs + ⌊ribs / 4⌋, so 42 ribs give 84 + 10 = 94. Common practice, no source."""
    assert rate(Fraction(9), 4, Fraction(2)).picked_up(Fraction(ribs)) == sts == 2 * ribs + ribs // 4


def test_three_for_two_rows() -> None:
    """46 rows at 3 stitches per 2 rows give 69. Common practice, no source."""
    assert rate(Fraction(3), 2, None).picked_up(Fraction(46)) == 69


TESTS: dict[str, Callable[[int, int, int], bool]] = {
    "n * n <= {a}": lambda n, a, _: n * n <= a,
    "3 * n + {b} < {a}": lambda n, a, b: 3 * n + b < a,
    "abs(n - {a}) <= {b}": lambda n, a, b: abs(n - a) <= b,
    "nearest(n, 4) = n and n > {b}": lambda n, _, b: n % 4 == 0 and n > b,
    "not n > {a} or n = {b}": lambda n, a, b: n <= a or n == b,
}


@given(st.sampled_from(sorted(TESTS)), st.integers(0, 60), st.integers(0, 60), st.integers(-9, 40), st.integers(0, 60))
def test_largest_against_trying_each(test: str, a: int, b: int, low: int, width: int) -> None:
    """The largest whole number in the bounds for which the test holds."""
    holding = [n for n in range(low, low + width + 1) if TESTS[test](n, a, b)]
    found = values(f"largest(n, {low}, {low + width}, {test.format(a=a, b=b)})")
    assert found == ([Fraction(max(holding))] * 3 if holding else [])


@given(st.integers(20, 200))
def test_largest_and_edge_for_agree(stitches: int) -> None:
    """Two ways of asking how many ribs a round of stitches can take."""
    searched = values(f"largest(n, 0 ribs, 200 ribs, picked_up(brim_edge, n) <= {stitches} sts)")
    assert searched == values(f"edge_for(brim_edge, {stitches} sts)")
