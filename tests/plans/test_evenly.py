"""Increases and decreases spread evenly, in rounds and in rows, against dealing and against every arrangement there is."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.plans.evenly import (
    DECREASE,
    INCREASE,
    Ends,
    EvenRound,
    EvenRow,
    Shaping,
    evenly_in_rounds,
    evenly_in_rows,
)
from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.row_text import StitchWords, as_row
from stitchproof.plans.two_groups import Order
from tests.plans.deal import balanced, dealt
from tests.plans.row_reader import gaps, makes, read_row, takes

INC = StitchWords("sc", "2 sc in next st")
DEC = StitchWords("sc", "sc2tog")
WORDS = {(1, 2): INC, (2, 1): DEC, (1, 3): StitchWords("sc", "3 sc in next st"), (3, 1): StitchWords("sc", "sc3tog")}


def in_rounds(stitches: int, times: int, shaping: Shaping = INCREASE, order: Order = Order.LARGER_FIRST) -> EvenRound:
    plan = evenly_in_rounds(stitches, times, shaping, order)
    assert isinstance(plan, EvenRound)
    return plan


def in_rows(
    stitches: int,
    times: int,
    shaping: Shaping = INCREASE,
    ends: Ends = Ends.HALF_GAPS,
    order: Order = Order.LARGER_FIRST,
) -> EvenRow:
    plan = evenly_in_rows(stitches, times, shaping, ends, order)
    assert isinstance(plan, EvenRow)
    return plan


def test_nine_increases_in_a_round_of_91() -> None:
    """Division with the remainder spread: 82 plain over 9 is 9 and 1 over. Worked by hand."""
    plan = in_rounds(91, 9)
    assert (plan.plain, plan.groups.fewer, plan.groups.more_times, plan.after) == (82, 9, 1, 100)
    assert as_row(plan, INC) == (
        "[sc in each of next 10 sts, 2 sc in next st] once, [sc in each of next 9 sts, 2 sc in next st] 8 times"
    )


def test_six_increases_in_a_row_of_74() -> None:
    """68 plain: inner gaps of 11, 13 left for the two ends. Worked by hand."""
    plan = in_rows(74, 6)
    assert (plan.first_edge, plan.last_edge, plan.gaps.fewer, plan.gaps.more_times, plan.after) == (6, 7, 11, 0, 80)
    assert as_row(plan, INC) == (
        "sc in each of next 6 sts, [2 sc in next st, sc in each of next 11 sts] 5 times, "
        "2 sc in next st, sc in each of next 7 sts"
    )


def test_equal_ends_move_the_odd_stitch_into_the_middle_gap() -> None:
    """The same row with equal ends: 6 and 6, one of the five gaps, the middle one, has 12. Worked by hand."""
    plan = in_rows(74, 6, ends=Ends.EQUAL_HALF_GAPS)
    assert gaps(read_row(as_row(plan, INC)), (1, 2)) == [6, 11, 11, 12, 11, 11, 6]


def test_whole_gaps_at_the_ends() -> None:
    """The other published convention: n + 1 equal gaps, 68 over 7 is 9 and 5 over. Worked by hand."""
    plan = in_rows(74, 6, ends=Ends.WHOLE_GAPS)
    assert as_row(plan, INC) == (
        "sc in each of next 10 sts, [2 sc in next st, sc in each of next 10 sts] 4 times, "
        "[2 sc in next st, sc in each of next 9 sts] 2 times"
    )


def test_sixteen_decreases_in_a_round_of_150() -> None:
    """118 plain over 16 is 7 and 6 over; 60 + 90 = 150 taken, 134 left. Worked by hand."""
    plan = in_rounds(150, 16, DECREASE)
    assert as_row(plan, DEC) == (
        "[sc in each of next 8 sts, sc2tog] 6 times, [sc in each of next 7 sts, sc2tog] 10 times"
    )
    assert plan.after == 134


def test_seven_decreases_in_a_row_of_88() -> None:
    """74 plain: gaps of 10, ends of 7, 81 left. Worked by hand."""
    plan = in_rows(88, 7, DECREASE)
    assert as_row(plan, DEC) == (
        "sc in each of next 7 sts, [sc2tog, sc in each of next 10 sts] 6 times, sc2tog, sc in each of next 7 sts"
    )
    assert plan.after == 81


@pytest.mark.parametrize(
    ("stitches", "times", "text"),
    [
        (94, 2, "[sc in each of next 45 base ch, sc2tog] 2 times"),
        (98, 4, "[sc in each of next 23 base ch, sc2tog] 2 times, [sc in each of next 22 base ch, sc2tog] 2 times"),
        (100, 4, "[sc in each of next 23 base ch, sc2tog] 4 times"),
        (104, 6, "[sc in each of next 16 base ch, sc2tog] 2 times, [sc in each of next 15 base ch, sc2tog] 4 times"),
        (106, 8, "[sc in each of next 12 base ch, sc2tog] 2 times, [sc in each of next 11 base ch, sc2tog] 6 times"),
        (8, 4, "[sc2tog] 4 times"),
        (9, 4, "[sc in next base ch, sc2tog] once, [sc2tog] 3 times"),
        (5, 1, "sc in each of next 3 base ch, sc2tog"),
        (2, 1, "sc2tog"),
        (12, 0, "sc in each of next 12 base ch"),
        (1, 0, "sc in next base ch"),
    ],
)
def test_decreases_along_a_neck_edge(stitches: int, times: int, text: str) -> None:
    """The neckbands of a yoke top in nine sizes, and the singulars. Worked by hand."""
    assert as_row(in_rounds(stitches, times, DECREASE), StitchWords("sc", "sc2tog", "base ch", "base ch")) == text


def test_the_spread_order() -> None:
    """Group i of n is long if floor((i + 1)·a/n) > floor(i·a/n): a 3, n 8 gives the 3rd, 6th and 8th. Worked by hand."""
    events = read_row(as_row(in_rounds(8 * 2 + 3 + 8, 8, order=Order.SPREAD), INC))
    assert gaps(events, (1, 2)) == [2, 2, 3, 2, 2, 3, 2, 3, 0]
    assert as_row(in_rounds(95, 10, order=Order.SPREAD), INC) == (
        "[sc in each of next 8 sts, 2 sc in next st, sc in each of next 9 sts, 2 sc in next st] 5 times"
    )


@pytest.mark.parametrize("shaping", [INCREASE, DECREASE, Shaping(1, 3), Shaping(3, 1)])
@pytest.mark.parametrize("order", list(Order))
def test_every_small_round_against_dealing(shaping: Shaping, order: Order) -> None:
    for stitches, times in product(range(32), range(12)):
        plan = evenly_in_rounds(stitches, times, shaping, order)
        hands = dealt(stitches - times * shaping.takes, times) if stitches >= times * shaping.takes else None
        assert isinstance(plan, NoPlan) == (hands is None)
        if isinstance(plan, EvenRound) and hands is not None:
            check_round(plan, hands, order)


def check_round(plan: EvenRound, hands: list[int], order: Order) -> None:
    shaping = (plan.shaping.takes, plan.shaping.makes)
    events = read_row(as_row(plan, WORDS[shaping]))
    assert (takes(events), makes(events)) == (plan.stitches, plan.after)
    assert events.count(shaping) == plan.times
    if not plan.times:
        return
    *between, tail = gaps(events, shaping)
    assert tail == 0
    assert sorted(between) == sorted(hands)
    assert max(between) - min(between) <= 1
    if order is Order.LARGER_FIRST:
        assert between == hands
    if order is Order.SMALLER_FIRST:
        assert between == hands[::-1]
    if order is Order.SPREAD:
        assert balanced(between)


@given(st.integers(0, 3000), st.integers(1, 400), st.sampled_from([INCREASE, DECREASE, Shaping(1, 3), Shaping(3, 1)]))
def test_large_rounds_against_dealing(stitches: int, times: int, shaping: Shaping) -> None:
    plan = evenly_in_rounds(stitches, times, shaping)
    if stitches < times * shaping.takes:
        assert isinstance(plan, NoPlan)
    else:
        assert isinstance(plan, EvenRound)
        check_round(plan, dealt(stitches - times * shaping.takes, times), Order.LARGER_FIRST)


def arrangements(plain: int, times: int, equal: bool) -> list[tuple[int, int, int]]:
    """Every (first edge, last edge, smallest gap) with edges of at least 1, alike within 1, and gaps alike within 1."""
    found = []
    for first in range(1, plain):
        for last in (first,) if equal else (first, first + 1):
            inside = plain - first - last
            if inside == 0 or (inside > 0 and times > 1):
                found.append((first, last, min(dealt(inside, times - 1), default=0)))
    return found


@pytest.mark.parametrize("equal", [False, True])
def test_every_small_row_with_half_gaps_against_every_arrangement(equal: bool) -> None:
    """One gap size where the ends can take up the rest without being shorter than half a gap or longer than one.

    Else the ends together come as near to a gap as they can.
    """
    ends = Ends.EQUAL_HALF_GAPS if equal else Ends.HALF_GAPS
    for stitches, times in product(range(2, 40), range(1, 12)):
        plain = stitches - times
        plan = evenly_in_rows(stitches, times, INCREASE, ends)
        possible = arrangements(plain, times, equal) if plain > 0 else []
        assert isinstance(plan, NoPlan) == (not possible), (stitches, times)
        if not isinstance(plan, EvenRow):
            continue
        first, *between, last = gaps(read_row(as_row(plan, INC)), (1, 2))
        assert (first, last, min(between, default=0)) in possible
        assert max(between, default=0) - min(between, default=0) <= 1
        left_for_ends = {gap: plain - gap * (times - 1) for gap in range(plain + 1)}
        simple = {
            gap: both for gap, both in left_for_ends.items() if gap <= both <= 2 * gap and both - both % 2 * equal >= 2
        }
        if simple and times > 1:
            moved = simple[max(simple)] % 2 * equal
            assert sorted(between) == [max(simple)] * (times - 1 - moved) + [max(simple) + 1] * moved
            assert first + last == simple[max(simple)] - moved
        elif times > 1:
            nearest = min(abs((a + b) * times - plain) for a, b, _ in possible)
            assert abs((first + last) * times - plain) == nearest


@pytest.mark.parametrize("order", list(Order))
def test_every_small_row_with_whole_gaps(order: Order) -> None:
    for stitches, times in product(range(2, 40), range(1, 12)):
        plain = stitches - 2 * times
        plan = evenly_in_rows(stitches, times, DECREASE, Ends.WHOLE_GAPS, order)
        assert isinstance(plan, NoPlan) == (plain < 2)
        if not isinstance(plan, EvenRow):
            continue
        events = read_row(as_row(plan, DEC))
        found = gaps(events, (2, 1))
        assert (takes(events), makes(events)) == (stitches, plan.after)
        assert min(found[0], found[-1]) >= 1
        if plain > times:
            assert sorted(found) == sorted(dealt(plain, times + 1))
        else:
            assert (found[0], found[-1]) == (1, 1)
            assert max(found) <= 1
        if order is not Order.SPREAD and plain > times:
            assert found == sorted(found, reverse=order is Order.LARGER_FIRST)


@given(st.integers(4, 2000), st.integers(1, 200), st.sampled_from(list(Ends)), st.sampled_from(list(Order)))
def test_rows_add_up(stitches: int, times: int, ends: Ends, order: Order) -> None:
    plan = evenly_in_rows(stitches, times, DECREASE, ends, order)
    if isinstance(plan, EvenRow):
        events = read_row(as_row(plan, DEC))
        assert (takes(events), makes(events), events.count((2, 1))) == (stitches, stitches - times, times)
        first, *between, last = gaps(events, (2, 1))
        assert (first, last) == (plan.first_edge, plan.last_edge)
        assert max(between, default=0) - min(between, default=0) <= 1
        assert abs(first - last) <= (0 if ends is Ends.EQUAL_HALF_GAPS else 1)


def test_what_does_not_fit_says_so_in_numbers() -> None:
    """16 decreases take 32 of 30 stitches. Worked by hand."""
    assert evenly_in_rounds(30, 16, DECREASE) == NoPlan(
        "16 decreases take 32 sts and there are 30", (Nearest("stitches", 32), Nearest("times", 15))
    )
    assert evenly_in_rows(17, 16) == NoPlan(
        "16 increases take 16 sts of 17; only 1 stitch is left for the two edges",
        (Nearest("stitches", 18), Nearest("times", 15)),
    )
    assert evenly_in_rows(8, 1, INCREASE, Ends.EQUAL_HALF_GAPS) == NoPlan(
        "7 plain sts cannot stand in two equal ends beside a single increase",
        (Nearest("stitches", 7), Nearest("stitches", 9), Nearest("times", 2)),
    )


def test_a_shaping_that_changes_nothing_is_our_bug() -> None:
    with pytest.raises(ValueError, match="not the same"):
        Shaping(2, 2)
