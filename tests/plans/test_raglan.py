"""Raglans, against tables worked by hand and against every pair of body and sleeve rates there is."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.raglan import Raglan, raglan
from stitchproof.plans.row_text import StitchWords, as_row
from stitchproof.plans.two_groups import Order
from tests.plans.row_reader import read_schedule

WORDS = StitchWords(section="rnd")


def test_fifteen_rounds_every_second() -> None:
    """212 to 92: 120 / 8 = 15 rounds in 31 after the join round; ends 28 and 18. Worked by hand."""
    plan = raglan(58, 58, 48, 92, 31, least_sleeve=10, before=1)
    assert isinstance(plan, Raglan)
    assert (plan.joined, plan.full, plan.body_only, plan.sleeve_only) == (212, 15, 0, 0)
    assert plan.body_on == plan.sleeve_on == tuple(range(3, 32, 2))
    assert (58 - plan.body_lost, 48 - plan.sleeve_lost) == (28, 18)
    assert as_row(plan, StitchWords()) == "body and sleeves on rnd 3, then every 2 rnds 14 more times"


def test_separate_rates() -> None:
    """340 to 108: 58 in all, sleeves at most (62 − 10) / 2 = 26, body 32; 26 full, 6 body only, 5 plain. Worked by hand."""
    plan = raglan(108, 108, 62, 108, 37, least_sleeve=10)
    assert isinstance(plan, Raglan)
    assert (plan.full, plan.body_only, plan.sleeve_only, plan.plain) == (26, 6, 0, 5)
    assert (108 - plan.body_lost, 62 - plan.sleeve_lost) == (44, 10)
    assert as_row(plan, StitchWords()) == (
        "body on next 27 rnds, then every 2 rnds 5 more times; sleeves on next 26 rnds"
    )
    last = raglan(108, 108, 62, 108, 37, least_sleeve=10, full=Order.SMALLER_FIRST)
    assert isinstance(last, Raglan)
    assert last.sleeve_on == last.body_on[6:]


def test_the_levers_where_it_does_not_fit() -> None:
    """400 to 104 in 41: 74 in all, body at most 41, sleeves (70 − 10) / 2 = 30, 71 together. Worked by hand."""
    assert raglan(130, 130, 70, 104, 41, least_sleeve=10) == NoPlan(
        "296 sts to lose are 74 decrease rnds of 4, body and sleeves counted apart; the body can have 41, the sleeves 30, "
        "which makes 71",
        (Nearest("neck", 116), Nearest("rounds", 44), Nearest("more_skip", 6), Nearest("body_doubles", 3)),
    )


def pairs(
    front: int, back: int, sleeve: int, neck: int, rounds: int, least: int, doubles: int
) -> list[tuple[int, int]]:
    """Every (body rounds, sleeve rounds) that leads to the neck, `doubles` of the body's rounds losing twice."""
    found = []
    for body, sleeves in product(range(doubles, rounds + 1), range(rounds + 1)):
        ends = (front - 2 * (body + doubles), back - 2 * (body + doubles), sleeve - 2 * sleeves)
        if min(ends[:2]) >= 1 and ends[2] >= least and ends[0] + ends[1] + 2 * ends[2] == neck:
            found.append((body, sleeves))
    return found


@settings(max_examples=500)
@given(
    st.integers(4, 60),
    st.integers(-6, 6),
    st.integers(4, 40),
    st.integers(4, 100),
    st.integers(0, 24),
    st.integers(1, 8),
    st.integers(0, 4),
    st.integers(0, 3),
    st.sampled_from(list(Order)),
)
def test_raglans_against_every_pair_of_rates(
    front: int, more: int, sleeve: int, neck: int, rounds: int, least: int, doubles: int, before: int, full: Order
) -> None:
    back = max(1, front + more)
    plan = raglan(front, back, sleeve, neck, rounds, least_sleeve=least, before=before, body_doubles=doubles, full=full)
    possible = pairs(front, back, sleeve, neck, rounds - before, least, doubles)
    assert isinstance(plan, NoPlan) == (not possible)
    if isinstance(plan, Raglan):
        body, sleeves = len(plan.body_on), len(plan.sleeve_on)
        best = min(possible, key=lambda pair: (abs(pair[0] - pair[1]), pair[1]))
        assert (body, sleeves) == best
        for on in (plan.body_on, plan.sleeve_on):
            assert list(on) == sorted(set(on))
            assert all(before < number <= rounds for number in on)
        assert plan.full == min(body, sleeves)
        assert plan.full + plan.body_only + plan.sleeve_only + plan.plain == rounds


@pytest.mark.parametrize("least", [2, 6, 10])
def test_raglan_text_reads_back(least: int) -> None:
    for neck in range(60, 160, 4):
        plan = raglan(80, 80, 50, neck, 40, least_sleeve=least, full=Order.SPREAD)
        if isinstance(plan, Raglan):
            text = as_row(plan, WORDS)
            body, _, sleeves = text.partition("; ")
            assert read_schedule(body.removeprefix("body ").removeprefix("and sleeves ")) == list(plan.body_on)
            assert not sleeves or read_schedule(sleeves.removeprefix("sleeves ")) == list(plan.sleeve_on)
