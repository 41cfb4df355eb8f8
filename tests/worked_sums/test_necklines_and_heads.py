"""V necks, round necks in steps, short rows, and the head that must pass at every line of a neck."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.values import rounded_text
from stitchproof.plans.neckline import RoundNeck, VNeck, round_neck, v_neck
from stitchproof.plans.no_plan import NoPlan
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import checked, number, per_size, sizes

V_NECK = """
        counts:
          decs: {decs}
          rows_: {rows}
          every_4th: {{is: (rows_ - 4 rows) / 2 rows - (decs - 1 st) / 1 st, unit: times, round: down}}
          every_2nd: {{is: decs / 1 st - 1 - every_4th, unit: times}}
          last: {{is: 1 + 2 * every_2nd + 4 * every_4th, unit: rows}}
"""


def test_a_v_of_nine_decreases_in_thirty_rows() -> None:
    """1 + a + b = 9 and 1 + 2a + 4b ≤ 30 − 3: a 3, b 5, the last on row 27. Common practice, no source.

    The nine: half of 22 neck sts less half a band of 3 cm at 15 to 10 cm, 11 − 2.25 = 8.75.
    """
    found = faultless(
        V_NECK.format(decs="{is: 22 sts / 2 - 1.5 cm * 15 sts per 10 cm, round: nearest}", rows="30 rows")
    )
    assert [number(found, name) for name in ("decs", "every_2nd", "every_4th", "last")] == [9, 3, 5, 27]
    assert 1 + 3 + 5 == 9
    assert 1 + 2 * 3 + 4 * 5 == 27 == 30 - 3


@settings(max_examples=30)
@given(st.lists(st.tuples(st.integers(2, 30), st.integers(1, 40)), min_size=8, max_size=8))
def test_formulas_and_plans_agree_on_v_necks(cases: list[tuple[int, int]]) -> None:
    """Wherever every 2nd and every 4th row lead to the shoulder; three rows stay even. Derived, no source."""
    decs = [each for each, _ in cases]
    rows = [2 * each + 2 + more for each, more in cases]
    found = faultless(f"        {sizes(8)}" + V_NECK.format(decs=per_size(decs, "sts"), rows=per_size(rows, "rows")))
    for size, (number_of, high) in enumerate(zip(decs, rows, strict=True)):
        fast, slow = number(found, "every_2nd", size), number(found, "every_4th", size)
        plan = v_neck(2 * number_of, Fraction(0), high)
        assert isinstance(plan, VNeck)
        if fast > 0 and slow > 0:
            assert [plan.rates.every, plan.rates.more_times] == [Fraction(2), fast]
            assert [plan.rates.then_every, plan.rates.then_times] == [Fraction(4), slow]
            assert plan.rates.on[-1] == number(found, "last", size) <= high - 3


def test_a_round_neck_of_thirty_in_steps() -> None:
    """14 + 2 × (3 + 2 + 1 + 1 + 1) = 30; dividing row, 2 step rows and 3 single rows: 6 of 8 rows (7.5 cm at 11 to 10 cm).

    Common practice, no source.
    """
    found = faultless("""
        gauges:
          fabric: {stitches: 15, rows: 11, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        counts:
          centre: 14 sts
          side: 3 sts + 2 sts + 3 * 1 st
          neck: centre + 2 * side
          depth: {is: 7.5 cm * fabric.rows, round: nearest}
          used: 1 row + 2 rows + 3 rows
          even: depth - used
        pieces:
          piece: {gauge: fabric, worked: rows}
    """)
    assert [number(found, name) for name in ("side", "neck", "depth", "used", "even")] == [8, 30, 8, 6, 2]
    plan = round_neck(30, 14, (3, 2, 1, 1, 1), 8)
    assert isinstance(plan, RoundNeck)
    assert (plan.per_side, plan.rows_used, plan.even_after) == (8, 6, 2)
    assert isinstance(round_neck(30, 14, (3, 2, 1, 1), 8), NoPlan)


def test_short_rows_raise_a_back_neck() -> None:
    """Three pairs at 11 rows to 10 cm: 2 × 3 / 1.1 = 5.5 cm more in the middle; the count stays. Common practice, no source."""
    found = faultless("""
        gauges:
          fabric: {stitches: 15, rows: 11, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          raised: pairs_ * 2 rows / fabric.rows
        counts:
          pairs_: 3 pairs
        pieces:
          piece: {gauge: fabric, worked: rows}
    """)
    assert rounded_text(number(found, "raised"), 1) == "5.5"


LINES = {
    "mesh edge": ("91 sts", "18 sts per 10 cm", "1.15", "50.6", "58.1", True),
    "round of sc, 82": ("82 sts", "16 sts per 10 cm", "1.05", "51.3", "53.8", False),
    "round of sc, 90": ("90 sts", "16 sts per 10 cm", "1.05", "56.3", "59.1", True),
    "rib neckband": ("45 ribs * 2 rows per rib", "18 rows per 10 cm", "1.35", "50", "67.5", True),
}
"""A line of the neck: its count, gauge, stretch; its relaxed and its stretched length; whether 56 + 1 cm pass."""


@pytest.mark.parametrize("line", LINES)
def test_the_head_passes_at_every_line_of_a_neck(line: str) -> None:
    """A head of 56 needs 57 at the foundation, the picked-up round and the band, each with its own gauge and stretch.

    Stretches: common practice, no source. The tightest line is the plain round between fabric and band.
    """
    count, gauge, stretch, relaxed, stretched, passes = LINES[line]
    yaml = f"""
        body:
          head: 56 cm
        measures:
          line: {count} / {gauge}
          line_stretched: line * {stretch}
    """
    found = faultless(yaml.replace("2 rows per rib", "2 rows"))
    assert rounded_text(number(found, "line"), 1) == relaxed
    assert rounded_text(number(found, "line_stretched"), 1) == stretched
    rule = (
        yaml.replace("2 rows per rib", "2 rows")
        + """
        must_hold:
          - that: line_stretched >= head + 1 cm
            why: the head passes
    """
    )
    assert checked(rule) == ([] if passes else [("assertion-fails", ("S", "M"))])


def test_a_relaxed_neckband_of_nine_tenths_of_the_head() -> None:
    """0.9 × 56 = 50.4, more than the 50.0 of 45 ribs; 46 ribs, 51.1 cm, are enough.

    Another published rule, of the neckband alone; the name of its site is withheld.
    """
    yaml = """
        body:
          head: 56 cm
        measures:
          band: RIBS * 2 rows / 18 rows per 10 cm
        must_hold:
          - {that: band >= 0.9 * head, why: the neckband lies close and still gives}
    """
    assert checked(yaml.replace("RIBS", "45")) == [("assertion-fails", ("S", "M"))]
    assert checked(yaml.replace("RIBS", "46")) == []


def test_the_largest_head_of_a_size_is_the_one_that_must_pass() -> None:
    """Adult heads 46 to 56 cm by one source, up to 61 by another: an edge that lets 56 through stops 61.

    Sources: papermoonknits.com (neck width; 18 to 22 in), rhyflowerknits.com/standard-head-sizes.
    """
    assert [round(inches * 2.54) for inches in (18, 22)] == [46, 56]
    edge = """
        must_hold:
          - {that: 91 sts / 18 sts per 10 cm * 1.15 >= HEAD cm + 1 cm, why: the head passes}
    """
    assert checked(edge.replace("HEAD", "56")) == []
    assert checked(edge.replace("HEAD", "61")) == [("assertion-fails", ("S", "M"))]
