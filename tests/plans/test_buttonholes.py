"""Buttonholes, against a table worked by hand and against dealing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.plans.buttonholes import Buttonholes, buttonholes
from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.row_text import StitchWords, as_row
from stitchproof.plans.two_groups import Order
from tests.plans.deal import dealt
from tests.plans.row_reader import makes, read_row, takes

SC = StitchWords("sc")


def test_five_holes_in_37_stitches() -> None:
    """3 + 10 + 22 + 2 = 37; 22 over 4 gaps is 6, 6, 5, 5. Worked by hand."""
    plan = buttonholes(37, 5, 2, below=3, above=2)
    assert isinstance(plan, Buttonholes)
    assert (plan.free, plan.starts) == (22, (4, 12, 20, 27, 34))
    assert as_row(plan, SC) == (
        "sc in each of next 3 sts, [ch 2, sk next 2 sts, sc in each of next 6 sts] 2 times, "
        "[ch 2, sk next 2 sts, sc in each of next 5 sts] 2 times, ch 2, sk next 2 sts, sc in each of next 2 sts"
    )
    highest = buttonholes(37, 5, 2, below=3, above=2, larger=Order.SMALLER_FIRST)
    assert isinstance(highest, Buttonholes)
    assert [run.size for run in highest.runs] == [5, 6]


STRAIGHT = (33, 33, 36, 36, 36, 36, 39, 39, 39, 39)
GAPS = ("2×6 + 2×5",) * 2 + ("1×7 + 3×6",) * 4 + ("4×7",) * 4


@pytest.mark.parametrize(("straight", "gaps"), tuple(zip(STRAIGHT, GAPS, strict=True)))
def test_buttonhole_gaps_of_a_waistcoat_in_ten_sizes(straight: int, gaps: str) -> None:
    """Five holes of 2 sts in 4 + the straight part, 3 below and 2 above, larger gaps lowest. Worked by hand."""
    plan = buttonholes(4 + straight, 5, 2, below=3, above=2)
    assert isinstance(plan, Buttonholes)
    assert " + ".join(f"{run.times}×{run.size}" for run in plan.runs) == gaps


def test_holes_that_do_not_fit() -> None:
    """3 + 5 × 2 + 4 gaps of at least 1 + 2 = 19 of 18. Worked by hand."""
    assert buttonholes(18, 5, 2, below=3, above=2) == NoPlan(
        "3 + 5 × 2 + 4 gaps of at least 1 + 2 = 19 sts, and there are 18",
        (Nearest("stitches", 19), Nearest("holes", 4), Nearest("width", 1), Nearest("below", 2), Nearest("above", 1)),
    )


def test_a_single_hole() -> None:
    """What is left goes above it. Worked by hand."""
    plan = buttonholes(10, 1, 1, below=3, above=2)
    assert isinstance(plan, Buttonholes)
    assert (plan.starts, plan.above) == ((4,), 6)
    assert as_row(plan, SC) == "sc in each of next 3 sts, ch 1, sk next st, sc in each of next 6 sts"


@settings(max_examples=500)
@given(
    st.integers(1, 150),
    st.integers(1, 12),
    st.integers(1, 5),
    st.integers(0, 8),
    st.integers(0, 8),
    st.sampled_from(list(Order)),
)
def test_holes_against_dealing(stitches: int, holes: int, width: int, below: int, above: int, larger: Order) -> None:
    plan = buttonholes(stitches, holes, width, below=below, above=above, larger=larger)
    free = stitches - below - above - holes * width
    hands = dealt(free, holes - 1) if free >= 0 else []
    fits = free >= 0 and all(hands)
    assert isinstance(plan, NoPlan) == (not fits)
    if isinstance(plan, Buttonholes):
        events = read_row(as_row(plan, SC))
        assert takes(events) == makes(events) == stitches
        assert events.count((0, width)) == holes
        check_holes(plan, hands, larger)


def check_holes(plan: Buttonholes, hands: list[int], larger: Order) -> None:
    between = [later - earlier - plan.width for earlier, later in zip(plan.starts, plan.starts[1:], strict=False)]
    assert sorted(between) == sorted(hands)
    assert plan.starts[0] == plan.below + 1
    assert plan.starts[-1] + plan.width - 1 + plan.above == plan.stitches
    if larger is not Order.SPREAD:
        assert between == sorted(between, reverse=larger is Order.LARGER_FIRST)
