"""V necks and round necks worked in rows, against tables worked by hand."""

from fractions import Fraction

import pytest

from stitchproof.plans.neckline import RoundNeck, VNeck, round_neck, v_neck
from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.row_text import StitchWords, as_row
from tests.plans.size_table import by_size

WORDS = StitchWords()
V_NECKS = """
neck   22 22 24 24 24 26 26 26 26 28
rows   28 30 30 32 32 32 34 34 36 36
times   9  9 10 10 10 11 11 11 11 12
more    4  3  5  4  4  6  5  5  4  6
thens   4  5  4  5  5  4  5  5  6  5
last   25 27 27 29 29 29 31 31 33 33
"""


@pytest.mark.parametrize("size", by_size(V_NECKS))
def test_v_necks_of_a_waistcoat_in_ten_sizes(size: dict[str, int]) -> None:
    """v = neck / 2 − half the band (1.5 cm at 1.5 sts), RS rows, the last three rows even. Worked by hand."""
    plan = v_neck(size["neck"], Fraction(9, 4), size["rows"])
    assert isinstance(plan, VNeck)
    used = plan.rates
    assert (plan.decs, used.every, used.then_every) == (size["times"], 2, 4)
    assert (used.more_times, used.then_more_times, used.on[-1]) == (size["more"], size["thens"], size["last"])
    assert all(row % 2 for row in used.on)
    assert as_row(plan, StitchWords(section="V Row")) == (
        f"on V Row 1, then every 2nd row {size['more']} more times, then every 4th row {size['thens']} more times"
    )


def test_a_round_neck_in_steps() -> None:
    """14 + 2 × (3 + 2 + 1 + 1 + 1) = 30; six rows with the dividing row, 2 of 8 even. Worked by hand."""
    plan = round_neck(30, 14, (3, 2, 1, 1, 1), 8)
    assert isinstance(plan, RoundNeck)
    assert (plan.per_side, plan.rows_used, plan.even_after) == (8, 6, 2)
    assert as_row(plan, WORDS) == "leave centre 14 sts unworked; at each side lose 3 sts once, 2 sts once, 1 st 3 times"
    assert round_neck(30, 12, (3, 2, 1, 1, 1), 8) == NoPlan(
        "12 + 2 × 8 = 28 sts, and the neck has 30", (Nearest("neck", 28), Nearest("centre", 14))
    )
    assert round_neck(30, 14, (3, 2, 1, 1, 1), 5) == NoPlan(
        "the dividing row and 5 steps need 6 rows of 5", (Nearest("rows", 6),)
    )
    assert isinstance(round_neck(30, 14, (2, 3, 3), 8), NoPlan)


def test_a_v_that_is_all_band() -> None:
    """Half of 4 sts is less than a half band of 3. Worked by hand."""
    assert v_neck(4, Fraction(3), 28) == NoPlan(
        "half of 4 sts is less than the 3 sts of the half band", (Nearest("neck", 5),)
    )
