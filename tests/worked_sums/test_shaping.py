"""Increases and decreases over rounds and rows: the sums a designer writes as formulas, held against the plans."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.plans.evenly import DECREASE, INCREASE, EvenRound, EvenRow, evenly_in_rounds, evenly_in_rows
from stitchproof.plans.no_plan import NoPlan
from stitchproof.plans.two_rates import Place, TwoRates, at_one_rate, at_two_rates
from tests.sizing.written_pattern import Sized, faultless
from tests.worked_sums.worksheet import checked, number, numbers, per_size, sizes

EVENLY = """
        counts:
          sts_: {sts}
          times_: {times}
          plain: sts_ - {takes} sts * times_
          fewer: {{is: plain / times_, round: down}}
          more: fewer + 1
          more_times: {{is: (plain - fewer * times_) / 1 st, unit: times}}
          fewer_times: times_ - more_times
          after: sts_ + {change} sts * times_
          first_edge: {{is: (plain - fewer * (times_ - 1)) / 2, round: down}}
          last_edge: plain - fewer * (times_ - 1) - first_edge
"""


def evenly(cases: list[tuple[int, int]], takes: int, change: int) -> Sized:
    """Stitches and shapings per size, worked out by formulas."""
    sts, times = per_size((s for s, _ in cases), "sts"), per_size((t for _, t in cases), "times")
    return faultless(f"        {sizes(len(cases))}" + EVENLY.format(sts=sts, times=times, takes=takes, change=change))


def values(found: Sized, *names: str) -> list[Fraction]:
    return [number(found, name) for name in names]


def test_nine_increases_in_a_round_of_91() -> None:
    """82 plain: one group of 10, eight of 9; 11 + 80 = 91 taken, 100 made.

    Source of the division with its remainder spread: woolpackyarn.com/calculating-where-to-place-the-increases.
    """
    found = evenly([(91, 9)], 1, 1)
    assert values(found, "plain", "more", "more_times", "fewer", "fewer_times", "after") == [82, 10, 1, 9, 8, 100]
    assert 1 * (10 + 1) + 8 * (9 + 1) == 91


def test_six_increases_in_a_row_of_74() -> None:
    """68 plain, inner gaps of 11, ends of 6 and 7; 80 made. Source: woolpackyarn.com (half gaps at the ends)."""
    found = evenly([(74, 6)], 1, 1)
    assert values(found, "plain", "fewer", "first_edge", "last_edge", "after") == [68, 11, 6, 7, 80]
    assert 6 + 5 * (1 + 11) + 1 + 7 == 74


def test_sixteen_decreases_in_a_round_of_150() -> None:
    """118 plain: six groups of 8, ten of 7; 60 + 90 = 150 taken, 134 left. Common practice, no source; the sum derived."""
    found = evenly([(150, 16)], 2, -1)
    assert values(found, "plain", "more", "more_times", "fewer", "fewer_times", "after") == [118, 8, 6, 7, 10, 134]
    assert 6 * (8 + 2) + 10 * (7 + 2) == 150


def test_seven_decreases_in_a_row_of_88() -> None:
    """74 plain, gaps of 10, ends of 7; 81 left. Common practice, no source."""
    found = evenly([(88, 7)], 2, -1)
    assert values(found, "plain", "fewer", "first_edge", "last_edge", "after") == [74, 10, 7, 7, 81]
    assert 7 + 6 * (2 + 10) + 2 + 7 == 88


def test_decreases_that_take_more_than_there_is() -> None:
    """16 decreases take 32 of 30 sts; 15 are just possible. Derived, no source."""
    counts = "counts:\n  plain: {is: 30 sts - 2 sts * TIMES, at_least: 0 sts}\n"
    assert [name for name, _ in checked(counts.replace("TIMES", "16"))] == ["count-out-of-bounds"]
    assert checked(counts.replace("TIMES", "15")) == []
    assert isinstance(evenly_in_rounds(30, 16, DECREASE), NoPlan)
    assert isinstance(evenly_in_rounds(30, 15, DECREASE), EvenRound)


def test_decreases_of_an_offset_fabric_are_counted_in_pairs() -> None:
    """300 sts are 150 pairs; 16 pair decreases as above leave 134 pairs, 268 sts. Derived, no source."""
    found = faultless("""
        counts:
          around: 300 sts
          pairs_: {is: around / 2 sts, unit: pairs}
          pairs_after: pairs_ - 16
          sts_after: pairs_after * 2 sts
    """)
    assert values(found, "pairs_", "pairs_after", "sts_after") == [150, 134, 268]
    plan = evenly_in_rounds(150, 16, DECREASE)
    assert isinstance(plan, EvenRound)
    assert (plan.groups.more, plan.groups.more_times, plan.after) == (8, 6, 134)


cases = st.lists(
    st.tuples(st.integers(1, 40), st.integers(0, 300)).map(lambda each: (3 * each[0] + each[1], each[0])),
    min_size=10,
    max_size=10,
)


@settings(max_examples=20)
@given(cases, st.booleans())
def test_formulas_and_plans_place_shapings_alike(cases: list[tuple[int, int]], increases: bool) -> None:
    """Rounds in two groups, and rows whose ends take up the rest (two plain or more to each shaping). Derived."""
    shaping = INCREASE if increases else DECREASE
    found = evenly(cases, shaping.takes, shaping.change)
    for size, (stitches, times) in enumerate(cases):
        plan = evenly_in_rounds(stitches, times, shaping)
        assert isinstance(plan, EvenRound)
        groups = plan.groups
        names = ("plain", "fewer", "fewer_times", "more_times", "after")
        assert [number(found, name, size) for name in names] == [
            plan.plain, groups.fewer, groups.fewer_times, groups.more_times, plan.after
        ]  # fmt: skip
        row = evenly_in_rows(stitches, times, shaping)
        if isinstance(row, EvenRow) and plan.plain % times <= groups.fewer and plan.plain >= 2 * times > 2:
            assert [row.first_edge, row.last_edge] == [number(found, f"{end}_edge", size) for end in ("first", "last")]


TWO_RATES = """
        counts:
          rows_: {rows}
          times_: {times}
          fast: {{is: rows_ / times_, round: down, multiple: {step}}}
          slow: fast + {step}
          slow_times: {{is: (rows_ - fast * times_) / {step} rows, unit: times, round: down}}
          fast_times: times_ - slow_times
          rest: rows_ - fast * fast_times - slow * slow_times
"""


def two_rates(cases: list[tuple[int, int]], step: int) -> Sized:
    """Shapings and rows per size, worked out by formulas."""
    times, rows = per_size((t for t, _ in cases), "times"), per_size((r for _, r in cases), "rows")
    return faultless(f"        {sizes(len(cases))}" + TWO_RATES.format(rows=rows, times=times, step=step))


def test_eleven_shapings_in_forty_rows() -> None:
    """On RS rows only: every 2nd row 2 times, every 4th row 9 times, 4 + 36 = 40.

    Source: knittingunplugged.com, 23 May 2016; the formula is old and widely printed.
    """
    found = two_rates([(11, 40)], 2)
    assert values(found, "fast", "fast_times", "slow", "slow_times", "rest") == [2, 2, 4, 9, 0]


def test_shapings_that_do_not_fit_have_no_interval() -> None:
    """21 shapings two rows apart in 40 rows: the interval comes out as 0; every row will do. Derived, no source."""
    assert number(two_rates([(21, 40)], 2), "fast") == 0
    assert isinstance(at_two_rates(21, 40, step=2), NoPlan)
    assert number(two_rates([(21, 40)], 1), "fast") == 1
    interval = "counts:\n  fast: {is: 40 rows / TIMES times, round: down, multiple: 2, at_least: 2 rows}\n"
    assert [name for name, _ in checked(interval.replace("TIMES", "21"))] == ["count-out-of-bounds"]
    assert checked(interval.replace("TIMES", "20")) == []


@settings(max_examples=30)
@given(
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 200)), min_size=10, max_size=10), st.sampled_from([1, 2, 4])
)
def test_formulas_and_plans_agree_on_two_rates(cases: list[tuple[int, int]], step: int) -> None:
    """The same intervals; no plan exactly where the interval comes out as 0. b is always below n. Derived, no source."""
    found = two_rates(cases, step)
    for size, (times, rows) in enumerate(cases):
        plan = at_two_rates(times, rows, step=step, place=Place.CLOSES)
        fast, fast_times, slow_times = (number(found, name, size) for name in ("fast", "fast_times", "slow_times"))
        assert isinstance(plan, NoPlan) == (fast == 0)
        if isinstance(plan, TwoRates):
            assert slow_times < times
            assert [plan.every, plan.every_times, plan.then_times] == [fast, fast_times, slow_times]
            assert 0 <= number(found, "rest", size) == plan.even_after


def test_every_fourth_row_five_times_is_17_or_20_rows() -> None:
    """On next row, then every 4th row 4 more times: 1 + 4 × 4 = 17; after 3 plain rows first: 20. Common practice."""
    found = faultless("""
        counts:
          times_: 5 times
          every: 4 rows
          on_next: 1 row + every * (times_ - 1)
          after_plain: every * times_
    """)
    plan = at_two_rates(5, 20, step=4, place=Place.CLOSES)
    assert isinstance(plan, TwoRates)
    assert values(found, "on_next", "after_plain") == [plan.rows_if_on_next, plan.rows_if_after_plain] == [17, 20]
    next_row = at_one_rate(5, 20, first=1, every=4)
    assert isinstance(next_row, TwoRates)
    assert next_row.on == (1, 5, 9, 13, 17)


def test_odd_first_rows_and_even_intervals_keep_to_the_right_side() -> None:
    """Row 1 is RS. From an odd row on, even intervals stay on RS rows; one odd interval leaves them. Derived, no source."""
    for first in range(1, 8):
        for every in range(1, 7):
            plan = at_one_rate(4, 60, first=first, every=every)
            assert isinstance(plan, TwoRates)
            assert all(row % 2 for row in plan.on) == (first % 2 == 1 and every % 2 == 0)


def test_every_row_shapings_are_odd_in_all_sizes() -> None:
    """Kept odd, so that the section goes on with the same side in every size; 4 in one size is found.

    Source: bananamoonstudio.blogspot.com, March 2013 (row totals all even or all odd across sizes).
    """
    rows = "counts:\n  every_row: {by_hand: [VALUES], unit: times, multiple: 2 plus 1}\n"
    assert checked(rows.replace("VALUES", "3, 5")) == []
    assert checked(rows.replace("VALUES", "3, 4")) == [("count-off-its-multiple", ("M",))]


def test_a_sleeve_from_39_to_75() -> None:
    """36 / 4 = 9 increase rounds in 56 − 2 − 4 = 50: every 4 rnds twice, every 6 rnds 7 times, 8 + 42 = 50, 4 plain.

    Common practice, no source.
    """
    found = faultless("""
        counts:
          cuff: 39 sts
          top: 75 sts
          incs: {is: (top - cuff) / 4 sts, unit: times, multiple: 1}
          rnds_: 56 rnds - 2 - 4
          fast: {is: rnds_ / incs, round: down, multiple: 2}
          slow_times: {is: (rnds_ - fast * incs) / 2 rnds, unit: times, round: down}
          fast_times: incs - slow_times
          used: fast * fast_times + (fast + 2) * slow_times
          reached: cuff + 4 sts * (fast_times + slow_times)
    """)
    names = ("incs", "rnds_", "fast", "fast_times", "slow_times", "used", "reached")
    assert values(found, *names) == [9, 50, 4, 2, 7, 50, 75]


def test_a_difference_that_is_no_whole_number_of_rounds_is_found() -> None:
    """39 to 76 by fours is 9.25 rounds: move the top or the start. Common practice, no source."""
    sleeve = "counts:\n  incs: {is: (TOP sts - 39 sts) / 4 sts, unit: times}\n"
    text = "Rnd 1: Inc 4 sts. Work <incs> times."
    assert [name for name, _ in checked(sleeve.replace("TOP", "76"), text)][:1] == ["count-not-whole"]
    assert "count-not-whole" not in [name for name, _ in checked(sleeve.replace("TOP", "75"), text)]


def test_sizes_stand_side_by_side() -> None:
    """Ten sizes of one sum: every count whole and every round used up. Derived, no source."""
    found = two_rates([(times, 60) for times in range(5, 15)], 2)
    used = [
        fast * fast_times + (fast + 2) * slow_times + rest
        for fast, fast_times, slow_times, rest in zip(
            *(numbers(found, name) for name in ("fast", "fast_times", "slow_times", "rest")), strict=True
        )
    ]
    assert used == [60] * 10
