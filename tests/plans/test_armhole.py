"""Set-in armholes, against a table worked by hand and against walking row by row."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.plans.armhole import Armhole, armhole
from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.row_text import StitchWords, as_row
from tests.plans.row_reader import read_schedule
from tests.plans.size_table import by_size

WAISTCOAT = """
width       64 70 76 82 88 94 102 110 118 124
unworked     3  4  5  6  7  8  10  12  14  15
every_row    1  1  1  3  3  5   5   7   9   9
rs_times     3  4  5  4  5  4   5   4   4   5
last         7  9 11 11 13 13  15  15  17  19
loss         7  9 11 13 15 17  20  23  27  29
cross_back  50 52 54 56 58 60  62  64  64  66
rows        20 22 22 24 24 24  26  26  28  28
"""


@pytest.mark.parametrize("size", by_size(WAISTCOAT))
def test_armholes_of_a_waistcoat_in_ten_sizes(size: dict[str, int]) -> None:
    """(Nb − X) / 2 = u + e + f, e odd, the last decrease on row e + 2f, within 0.7 of the rows.

    43 to 52 % of the loss is left unworked. Worked by hand."""
    plan = armhole(size["width"], size["cross_back"], size["rows"], size["unworked"], size["every_row"])
    assert isinstance(plan, Armhole)
    assert (plan.loss, plan.rs_times, plan.last) == (size["loss"], size["rs_times"], size["last"])
    assert 43 <= round(plan.unworked_share * 100) <= 52
    assert plan.last == plan.every_row + 2 * plan.rs_times
    assert as_row(plan, StitchWords()) == (
        f"on next {plan.every_row + 1} rows, then every 2nd row {plan.rs_times - 1} more times"
    )
    assert read_schedule(as_row(plan, StitchWords(section="armhole row"))) == list(plan.on)


def test_what_is_wrong_with_an_armhole() -> None:
    """Loss 17: 8 + 6 puts the next row on WS; 8 + 10 is too much; 5 + 5 + 7 ends on row 19 of 24. Worked by hand."""
    even = armhole(94, 60, 24, 8, 6)
    assert isinstance(even, NoPlan)
    assert even.reason == "after 6 on every row the next row is row 8, which is a WS row"
    assert {Nearest("every_row", 5), Nearest("every_row", 7)} <= set(even.nearest)
    much = armhole(94, 60, 24, 8, 10)
    assert isinstance(much, NoPlan)
    assert much.reason == "8 unworked + 10 on every row are more than the 17 sts to lose at each side"
    late = armhole(94, 60, 24, 5, 5)
    assert isinstance(late, NoPlan)
    assert late.reason == "the last decrease falls on armhole row 19; it should fall on row 16.8 of 24 or before"
    assert isinstance(armhole(94, 61, 24, 8, 5), NoPlan)


@settings(max_examples=600)
@given(st.integers(2, 80), st.integers(1, 80), st.integers(1, 40), st.integers(0, 16), st.integers(0, 10))
def test_armholes_row_by_row(width: int, cross_back: int, rows: int, unworked: int, every_row: int) -> None:
    plan = armhole(width, cross_back, rows, unworked, every_row)
    count, row, on = width - 2 * unworked, 1, []
    for _ in range(every_row):
        row += 1
        count -= 2
        on.append(row)
    right_side = True
    while count > cross_back:
        row += 1 if len(on) == every_row else 2
        right_side = right_side and row % 2 == 1
        count -= 2
        on.append(row)
    works = count == cross_back and right_side and row <= rows * Fraction(7, 10)
    assert isinstance(plan, NoPlan) == (not works)
    if isinstance(plan, Armhole):
        assert list(plan.on) == on == read_schedule(as_row(plan, StitchWords(section="armhole row")))
