"""Shaping rows at one rate or two, tapers among them, against every choice of rows there is."""

from itertools import combinations, combinations_with_replacement, pairwise, product
from math import lcm

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.row_text import StitchWords, as_row
from stitchproof.plans.taper import Taper, taper
from stitchproof.plans.two_rates import Layout, Place, Side, TwoRates, Worked, at_one_rate, at_two_rates, laid_out
from tests.plans.row_reader import read_schedule
from tests.plans.size_table import by_size

WORDS = StitchWords()


def rates(times: int, rows: int, **more: object) -> TwoRates:
    plan = at_two_rates(times, rows, **more)  # type: ignore[arg-type]
    assert isinstance(plan, TwoRates)
    return plan


def test_eleven_shapings_in_forty_rows() -> None:
    """x 2, y 4, b 9, a 2: "every 2nd row 2 times, then every 4th row 9 times", 4 + 36 = 40. Worked by hand."""
    plan = rates(11, 40, step=2)
    assert (plan.every, plan.every_times, plan.then_every, plan.then_times) == (2, 2, 4, 9)
    assert plan.rows_if_after_plain == 40
    assert plan.on == (1, 3, 5, 9, 13, 17, 21, 25, 29, 33, 37)
    assert as_row(plan, WORDS) == "on next row, then every 2nd row 2 more times, then every 4th row 8 more times"
    assert rates(11, 40, step=2, slow_first=True).on == (1, 5, 9, 13, 17, 21, 25, 29, 33, 37, 39)


def test_every_fourth_row_five_times_read_both_ways() -> None:
    """On next row, then every 4th row 4 more times is 17 rows; after 3 plain rows it is 20. Worked by hand."""
    plan = at_one_rate(5, 20, first=1, every=4)
    assert isinstance(plan, TwoRates)
    assert as_row(plan, WORDS) == "on next row, then every 4th row 4 more times"
    assert (plan.rows_if_on_next, plan.rows_if_after_plain, plan.even_after) == (17, 20, 3)
    opens, closes = rates(5, 20), rates(5, 20, place=Place.CLOSES)
    assert (opens.on, closes.on) == ((1, 5, 9, 13, 17), (4, 8, 12, 16, 20))
    for each in (opens, closes):
        assert (each.rows_if_on_next, each.rows_if_after_plain) == (17, 20)


def test_a_sleeve_from_39_to_75() -> None:
    """9 inc rounds of 4 in 56, 2 set up, 4 plain at the top: every 4 rnds twice, every 6 rnds 7 times. Worked by hand."""
    plan = taper(39, 75, 4, 56, step=2, before=2, after=4)
    assert isinstance(plan, Taper)
    used = plan.rates
    assert (used.times, used.every, used.every_times, used.then_every, used.then_times) == (9, 4, 2, 6, 7)
    assert (used.rows_if_after_plain, used.on[-1], used.even_after) == (50, 52, 4)
    assert plan.counts == (43, 47, 51, 55, 59, 63, 67, 71, 75)
    assert as_row(plan, WORDS) == "on rnd 6, then every 4 rnds once more, then every 6 rnds 7 more times"


def test_a_difference_that_is_not_whole_shaping_rounds() -> None:
    """From 39 to 76 is 37: 9 rounds of 4 and 1 over; move the start or the end. Worked by hand."""
    plan = taper(39, 76, 4, 56, step=2, before=2, after=4)
    assert isinstance(plan, NoPlan)
    assert plan.reason == "from 39 to 76 is 37 sts: 9 rnds of 4 and 1 over"
    assert {Nearest("start", 40), Nearest("start", 36), Nearest("end", 75), Nearest("end", 79)} <= set(plan.nearest)


SLEEVES = """
start  56 58 62 68 72 78 84 90 96
end    44 46 48 50 54 56 60 62 66
rounds 31 32 32 33 33 33 34 34 34
times   6  6  7  9  9 11 12 14 15
first   5  5  5  4  4  3  3  3  3
every   4  4  4  3  3  2  2  2  2
more    2  1  6  6  6  3  5 11 14
then    5  5  0  4  4  3  3  3  0
thens   3  4  0  2  2  7  6  2  0
last   28 29 29 30 30 30 31 31 31
"""


@pytest.mark.parametrize("size", by_size(SLEEVES))
def test_sleeves_of_a_yoke_top_in_nine_sizes(size: dict[str, int]) -> None:
    """Two sts lost on each dec round, the first round and the last three plain. Worked by hand."""
    plan = taper(size["start"], size["end"], 2, size["rounds"], before=1, after=3)
    assert isinstance(plan, Taper)
    used = plan.rates
    assert (used.times, used.on[0], used.on[-1]) == (size["times"], size["first"], size["last"])
    assert (used.every, used.more_times) == (size["every"], size["more"])
    assert (used.then_every, used.then_more_times) == (size["then"], size["thens"])
    assert used.even_after == 3


HIPS = [
    (2, 30, 20),
    (2, 30, 20),
    (2, 31, 20),
    (3, 32, 26),
    (3, 32, 26),
    (3, 33, 26),
    (3, 34, 26),
    (4, 35, 32),
    (4, 36, 32),
]


@pytest.mark.parametrize(("times", "rounds", "last"), HIPS)
def test_hips_of_a_yoke_top(times: int, rounds: int, last: int) -> None:
    """On body rnd 14, then every 6 rnds. Worked by hand."""
    plan = at_one_rate(times, rounds, first=14, every=6, worked=Worked.IN_ROUNDS)
    assert isinstance(plan, TwoRates)
    assert plan.on[-1] == last
    often = "once" if times == 2 else f"{times - 1}"
    assert as_row(plan, StitchWords(section="body rnd")).startswith(f"on body rnd 14, then every 6 rnds {often} more")


def test_a_rate_that_outruns_its_rows() -> None:
    """First on 14, 4 times every 6: the last on 32 of 31. Worked by hand."""
    assert at_one_rate(4, 31, first=14, every=6) == NoPlan(
        "the last shaping falls on row 32 of 31",
        (Nearest("times", 3), Nearest("rows", 32), Nearest("first", 13), Nearest("every", 5)),
    )


@given(st.integers(0, 40), st.integers(0, 120), st.integers(1, 60), st.integers(1, 12))
def test_one_rate_row_by_row(times: int, rows: int, first: int, every: int) -> None:
    plan = at_one_rate(times, rows, first=first, every=every)
    walked: list[int] = []
    row = first
    while len(walked) < times:
        walked.append(row)
        row += every
    assert isinstance(plan, NoPlan) == bool(walked and walked[-1] > rows)
    if isinstance(plan, TwoRates):
        assert list(plan.on) == walked == read_schedule(as_row(plan, WORDS))


def choices(times: int, rows: int, unit: int, before: int, after: int, place: Place) -> list[tuple[int, ...]]:
    """Every choice of shaping rows with gaps of whole steps that keeps the plain rows at both ends."""
    if times == 0:
        return [()] if before + after <= rows else []
    found = []
    for on in combinations(range(before + 1, rows - after + 1), times):
        gaps = [later - earlier for earlier, later in pairwise(on)]
        if place is Place.CLOSES:
            gaps.append(on[0] - before)
        elif on[0] != before + 1:
            continue
        if any(gap % unit for gap in gaps) or (place is Place.OPENS and on[-1] + unit - 1 > rows - after):
            continue
        found.append(on)
    return found


@pytest.mark.parametrize("place", list(Place))
@pytest.mark.parametrize("only", [None, Side.RS, Side.WS])
def test_small_sections_against_every_choice_of_rows(place: Place, only: Side | None) -> None:
    for times, rows, step, before, after in product(range(6), range(12), (1, 2, 3), range(3), range(2)):
        slow_first = rows % 2 == 0
        unit = step if only is None else lcm(step, 2)
        possible = choices(times, rows, unit, before, after, place)
        on_side = [on for on in possible if only is None or all(row % 2 == only.value for row in on)]
        plan = laid_out(times, rows, Layout(unit, place, before, after, only, slow_first, Worked.IN_ROWS))
        assert isinstance(plan, NoPlan) == (not on_side), (times, rows, step, before, after)
        if isinstance(plan, TwoRates):
            assert plan == at_two_rates(
                times, rows, step=step, place=place, before=before, after=after, only=only, slow_first=slow_first
            )
            assert plan.on in on_side
            assert read_schedule(as_row(plan, WORDS)) == list(plan.on)
            check_best(plan, intervals(plan, before, after, place), rows - before - after, unit, slow_first)


def intervals(plan: TwoRates, before: int, after: int, place: Place) -> list[int]:
    """Every interval, the one that the last plain rows or the first plain rows belong to among them."""
    if not plan.on:
        return []
    gaps = [later - earlier for earlier, later in pairwise(plan.on)]
    if place is Place.CLOSES:
        return [plan.on[0] - before, *gaps]
    if place is Place.OPENS:
        last = plan.then_every if plan.then_times else plan.every
        assert plan.on[-1] + last - 1 <= plan.rows - after
        return [*gaps, last]
    return gaps


def check_best(plan: TwoRates, found: list[int], room: int, unit: int, slow_first: bool) -> None:
    """No two rates next to each other use more of the rows; the intervals stand in the order asked for."""
    assert found == sorted(found, reverse=slow_first)
    counts = [found.count(plan.every), found.count(plan.then_every)] if found else [0, 0]
    assert counts == [plan.every_times, plan.then_times]
    assert plan.times == 0 or plan.rows_if_on_next == plan.on[-1] - plan.on[0] + 1
    room -= 1 if plan.place is Place.BETWEEN and plan.on else 0
    if found:
        lengths = range(unit, room + 1, unit)
        used = [
            sum(each)
            for each in combinations_with_replacement(lengths, len(found))
            if sum(each) <= room and max(each) - min(each) <= unit
        ]
        assert sum(found) == max(used)
        assert max(found) - min(found) <= unit


@given(
    st.integers(1, 60),
    st.integers(1, 400),
    st.sampled_from([1, 2, 4]),
    st.sampled_from(list(Place)),
    st.integers(0, 9),
    st.integers(0, 9),
)
def test_large_sections_by_stretching_one_interval_at_a_time(
    times: int, rows: int, step: int, place: Place, before: int, after: int
) -> None:
    """The other way to two rates: all intervals as short as can be, then one step to each in turn while there is room."""
    plan = at_two_rates(times, rows, step=step, place=place, before=before, after=after)
    number = times - 1 if place is Place.BETWEEN else times
    room = rows - before - after - (1 if place is Place.BETWEEN else 0)
    lengths = [step] * number
    if sum(lengths) > room or room < 0:
        assert isinstance(plan, NoPlan)
        return
    turn = 0
    while number and sum(lengths) + step <= room:
        lengths[turn % number] += step
        turn += 1
    assert isinstance(plan, TwoRates)
    assert sorted(intervals(plan, before, after, place)) == sorted(lengths)
    assert all(before < row <= rows - after for row in plan.on)
    assert read_schedule(as_row(plan, WORDS)) == list(plan.on)


@given(st.integers(1, 90), st.integers(1, 90), st.integers(1, 6), st.integers(1, 60))
def test_tapers_stitch_by_stitch(start: int, end: int, change: int, rows: int) -> None:
    plan = taper(start, end, change, rows)
    count, shaped = start, 0
    while abs(end - count) >= change:
        count += change if end > count else -change
        shaped += 1
    assert isinstance(plan, NoPlan) == (count != end or shaped > rows)
    if isinstance(plan, Taper):
        assert plan.rates.times == shaped
        assert (plan.start, *plan.counts)[-1] == end


def test_rs_rows_only() -> None:
    """Row 1 RS: a first shaping on row 4 cannot be RS; one plain row more or less before it can. Worked by hand."""
    plan = at_two_rates(3, 20, before=3, place=Place.BETWEEN, only=Side.RS)
    assert isinstance(plan, NoPlan)
    assert plan.reason == "after 3 plain rows the shaping rows fall on WS"
    assert plan.nearest == (Nearest("before", 2), Nearest("before", 4))


def test_a_taper_on_ws_rows_only() -> None:
    """4 shapings in 11 rows, each closing an even interval: rows 2, 4, 6 and 10. Worked by hand."""
    plan = taper(20, 28, 2, 11, only=Side.WS, worked=Worked.IN_ROWS)
    assert isinstance(plan, Taper)
    assert plan.rates.on == (2, 4, 6, 10)


def test_too_many_shapings_for_the_rows() -> None:
    """11 shapings 2 rows apart need 22 of 20 rows. Worked by hand."""
    assert at_two_rates(11, 20, step=2) == NoPlan(
        "11 shapings, 2 rows apart, need 22 rows; there are 20",
        (Nearest("times", 10), Nearest("rows", 22), Nearest("step", 1)),
    )
