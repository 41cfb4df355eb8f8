"""Stitches picked up along ribs and row-ends, against walking along the edge and against every rate there is."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.rate import Rate, whole_rate
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.pick_up import PickUp, edge_for, longest_edge, pick_up
from stitchproof.plans.row_end_rate import MOST_ROWS, RowEndRate, row_end_rate
from stitchproof.plans.row_text import StitchWords, as_row
from tests.plans.row_reader import makes, read_row, takes

SC = StitchWords("sc", st="row-end", sts="row-ends")
NINE_PER_FOUR = whole_rate(9, 4, 2, row_ends=2, noun="ribs")
FIVE_PER_TWO = whole_rate(5, 2, 2, row_ends=2, noun="ribs")
THREE_PER_TWO = whole_rate(3, 2)


def picked(edge: int, rate: Rate) -> PickUp:
    plan = pick_up(edge, rate)
    assert isinstance(plan, PickUp)
    return plan


def test_a_brim_of_42_ribs() -> None:
    """Head 56 less 12 % at 17 rows to 10 cm: 84 rows, 42 ribs; 84 + 10 = 94 picked up. Worked by hand."""
    rows = round_to(Fraction("49.28") * Fraction("1.7"), Direction.NEAREST, Multiple(Fraction(2)))
    assert rows == 84
    plan = picked(int(rows / 2), NINE_PER_FOUR)
    assert (plan.groups, plan.left, plan.picked_up, plan.row_ends) == (10, 2, 94, 84)
    assert as_row(plan, SC) == (
        "[sc in each of next 7 row-ends, 2 sc in next row-end] 10 times, sc in each of next 4 row-ends"
    )
    assert picked(42, whole_rate(4, 1, row_ends=2, noun="ribs")).picked_up == 168
    assert as_row(picked(42, whole_rate(4, 1, row_ends=2)), SC) == "2 sc in each of next 84 row-ends"
    assert picked(42, whole_rate(2, 1, row_ends=2, noun="ribs")).picked_up == 84


HAT = [(64, 25, 12, 1, 62), (72, 29, 14, 1, 72), (80, 32, 16, 0, 80), (88, 35, 17, 1, 87), (96, 38, 19, 0, 95)]


@pytest.mark.parametrize(("around", "ribs", "groups", "left", "stitches"), HAT)
def test_brims_of_a_hat_in_five_sizes(around: int, ribs: int, groups: int, left: int, stitches: int) -> None:
    """The most ribs along which 5 per 2 ribs give no more than the hat has around. Worked by hand."""
    plan = longest_edge(around, FIVE_PER_TWO)
    assert isinstance(plan, PickUp)
    assert (plan.edge, plan.groups, plan.left, plan.picked_up) == (ribs, groups, left, stitches)
    events = read_row(as_row(plan, SC))
    assert (takes(events), makes(events)) == (2 * ribs, stitches)


STRAIGHT = [(22, 33), (24, 36), (26, 39), (28, 42), (30, 45), (32, 48), (34, 51), (36, 54)]


@pytest.mark.parametrize(("rows", "stitches"), [*STRAIGHT, (46, 69)])
def test_three_stitches_per_two_rows(rows: int, stitches: int) -> None:
    """A band along hdc rows of a waistcoat, and 46 rows. Worked by hand."""
    plan = picked(rows, THREE_PER_TWO)
    assert plan.picked_up == stitches
    assert as_row(plan, SC) == f"[sc in next row-end, 2 sc in next row-end] {rows // 2} times"


def test_seven_per_three_ribs() -> None:
    """Six row-ends, one in each of 5 and two in the sixth: 140 along 60 ribs. Worked by hand."""
    plan = picked(60, whole_rate(7, 3, row_ends=2, noun="ribs"))
    assert plan.picked_up == 140
    assert as_row(plan, SC) == "[sc in each of next 5 row-ends, 2 sc in next row-end] 20 times"


def test_fewer_stitches_than_row_ends() -> None:
    """3 per 4 rows, the fourth passed over; what is left is worked one in each. Worked by hand."""
    plan = picked(9, whole_rate(3, 4, left_over=1))
    assert as_row(plan, SC) == "[sc in each of next 3 row-ends, sk next row-end] 2 times, sc in next row-end"
    assert plan.picked_up == 7


def test_a_rest_the_rate_says_nothing_of() -> None:
    """47 rows are 23 groups of 2 and 1 over. Worked by hand."""
    assert pick_up(47, THREE_PER_TWO) == NoPlan(
        "47 rows are 23 groups of 2 and 1 over, and the rate does not say what is picked up there",
        (Nearest("edge", 46), Nearest("edge", 48)),
    )
    assert edge_for(63, FIVE_PER_TWO) == NoPlan(
        "no edge gives 63 sts at 5 sts per 2 ribs and 2 for each beyond",
        (Nearest("stitches", 62), Nearest("stitches", 65)),
    )


@settings(max_examples=700)
@given(
    st.integers(0, 60),
    st.integers(1, 30),
    st.integers(1, 12),
    st.none() | st.integers(0, 6),
    st.sampled_from([1, 2]),
)
def test_walking_along_the_edge(edge: int, sts: int, per: int, left_over: int | None, row_ends: int) -> None:
    rate = whole_rate(sts, per, left_over, row_ends)
    plan = pick_up(edge, rate)
    total = walked(edge, rate)
    assert isinstance(plan, NoPlan) == (total is None)
    if isinstance(plan, PickUp):
        events = read_row(as_row(plan, SC))
        assert plan.picked_up == total == makes(events)
        assert takes(events) == edge * row_ends
        group = events[: per * row_ends] if plan.groups else []
        assert max((made for _, made in group), default=0) - min((made for _, made in group), default=0) <= 1
    check_inverse(edge, total, rate)


def walked(edge: int, rate: Rate) -> int | None:
    """Unit by unit: the stitches of a group are there once its last unit is passed, until then each has its left-over."""
    total, pending = 0, 0
    for _ in range(edge):
        pending += 1
        if pending == rate.per:
            total, pending = total + int(rate.sts), 0
    if pending and rate.left_over is None:
        return None
    return total + pending * int(rate.left_over or 0)


def check_inverse(edge: int, total: int | None, rate: Rate) -> None:
    if total is None:
        return
    exact, longest = edge_for(total, rate), longest_edge(total, rate)
    assert isinstance(exact, PickUp)
    assert isinstance(longest, PickUp)
    assert exact.picked_up == total
    assert exact.edge == next(shorter for shorter in range(edge + 1) if walked(shorter, rate) == total)
    reach = range(int((total // rate.sts + 2) * rate.per))
    assert longest.edge == max(each for each in reach if (made := walked(each, rate)) is not None and made <= total)


@given(st.integers(0, 80), st.integers(1, 12), st.integers(1, 6), st.none() | st.integers(0, 4))
def test_an_edge_for_a_count(stitches: int, sts: int, per: int, left_over: int | None) -> None:
    rate = whole_rate(sts, per, left_over)
    plan = edge_for(stitches, rate)
    edges = [edge for edge in range((stitches + 1) * per + per) if walked(edge, rate) == stitches]
    assert isinstance(plan, NoPlan) == (not edges)
    if isinstance(plan, PickUp):
        assert plan.edge == min(edges)
    else:
        assert isinstance(plan, NoPlan)
        for near in plan.nearest:
            assert isinstance(near.value, int)
            assert isinstance(edge_for(near.value, rate), PickUp)


def test_sc_along_hdc_rows() -> None:
    """16 sts on 11 rows is 1.4545: 3/2 is 3.1 % over, 4/3 8.3 % short, 10/7 1.8 % short. Worked by hand."""
    plan = row_end_rate(Fraction(16), Fraction(11))
    assert isinstance(plan, RowEndRate)
    assert (plan.sts, plan.per) == (3, 2)
    assert f"{float(plan.off):.4f}" == "0.0312"
    assert as_row(plan, SC) == "3 sts per 2 rows"
    closer = row_end_rate(Fraction(16), Fraction(11), Fraction(2, 100))
    assert isinstance(closer, RowEndRate)
    assert (closer.sts, closer.per) == (10, 7)
    assert pick_up(46, plan.edge_rate()) == picked(46, THREE_PER_TWO)


@given(st.integers(1, 60), st.integers(1, 60), st.integers(0, 20))
def test_rates_against_every_rate_there_is(sts: int, rows: int, percent: int) -> None:
    within = Fraction(percent, 100)
    plan = row_end_rate(Fraction(sts), Fraction(rows), within)
    off = {
        (per, made): abs(Fraction(made * rows, per * sts) - 1)
        for per in range(1, MOST_ROWS + 1)
        for made in range(1, sts * per // rows + 3)
    }
    fitting = sorted((per, share) for (per, _), share in off.items() if share <= within)
    assert isinstance(plan, NoPlan) == (not fitting)
    if isinstance(plan, RowEndRate):
        assert (plan.per, abs(plan.off)) == fitting[0]
    elif plan.nearest:
        (near,) = plan.nearest
        assert isinstance(near.value, Fraction)
        assert isinstance(row_end_rate(Fraction(sts), Fraction(rows), near.value), RowEndRate)
        assert near.value == min(off.values())


def test_a_rate_too_fine_for_a_band() -> None:
    """37 sts on 60 rows within 0.1 %: 8 per 13 would be too many rows, 5 per 8 is 1.35 % off. Worked by hand."""
    plan = row_end_rate(Fraction(37), Fraction(60), Fraction(1, 1000))
    assert isinstance(plan, NoPlan)
    assert plan.reason == "no rate of up to 12 rows comes within 0.1 %: 5 per 8 is 1.35 % off"
    few = row_end_rate(Fraction(1), Fraction(100))
    assert few == NoPlan("not even 1 st per 12 rows: the gauges ask for 0.01 per row")
