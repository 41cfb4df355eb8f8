"""Raglan lines, set-in armholes, and the sleeve cap that is sewn into them."""

from fractions import Fraction
from math import sqrt

from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.values import rounded_text
from stitchproof.plans.armhole import Armhole, armhole
from stitchproof.plans.no_plan import NoPlan
from stitchproof.plans.raglan import Raglan, raglan
from stitchproof.plans.two_rates import TwoRates, at_two_rates
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import checked, number, numbers

RAGLANS = """
        sizes: {names: [small, large, largest]}
        gauges:
          yoke: {stitches: 18, rounds: 14, over: 10 cm, stitch: hdc, worked: spiral rnds, hook: 4 mm, state: blocked}
        counts:
          front: [58 sts, 108 sts, 130 sts]
          sleeve: [48 sts, 62 sts, 70 sts]
          neck: [92 sts, 108 sts, 104 sts]
          rnds_: [31 rnds, 37 rnds, 41 rnds]
          least_sleeve: 10 sts
          joined: 2 * front + 2 * sleeve
          decs: {is: (joined - neck) / 4 sts, unit: rnds, why: front and back or both sleeves lose 4 a round}
          sleeve_decs: {is: "min((sleeve - least_sleeve) / 2 sts, down(decs / 2 rnds))", unit: rnds}
          body_decs: decs - sleeve_decs
          front_end: front - body_decs * 2 sts per rnd
          sleeve_end: sleeve - sleeve_decs * 2 sts per rnd
          neck_end: 2 * front_end + 2 * sleeve_end
          body_only: body_decs - sleeve_decs
        must_hold:
          - {that: neck_end = neck, why: the sections make the neck}
          - {that: "max(body_decs, sleeve_decs) <= rnds_", why: the yoke has a round for each decrease}
        pieces:
          piece: {gauge: yoke, worked: spiral rounds}
"""


def test_a_raglan_of_fifteen_full_rounds() -> None:
    """212 to 92: 120 / 8 = 15 rounds, every 2nd of 31; ends 28 and 18, 2 × (28 + 18) = 92.

    8 a round: cs.oswego.edu (hosted workshop notes of 1997).
    """
    found = faultless(RAGLANS)
    names = ("joined", "decs", "sleeve_decs", "body_decs", "front_end", "sleeve_end", "neck_end")
    assert [number(found, name) for name in names] == [212, 30, 15, 15, 28, 18, 92]
    assert (22 * Fraction("1.4")).__round__() == 31 == 1 + 2 * 15


def test_a_raglan_with_a_rate_for_the_body_and_one_for_the_sleeves() -> None:
    """340 to 108: 58 in all; the sleeves lose at most (62 − 10) / 2 = 26, so the body 32; 26 full, 6 body only, 5 plain.

    Common practice, no source; the limit derived.
    """
    found = faultless(RAGLANS)
    names = ("joined", "decs", "sleeve_decs", "body_decs", "body_only", "front_end", "sleeve_end", "neck_end")
    assert [number(found, name, 1) for name in names] == [340, 58, 26, 32, 6, 44, 10, 108]
    assert number(found, "rnds_", 1) - number(found, "body_decs", 1) == 5


def test_a_raglan_that_has_too_few_rounds_is_found_in_its_size() -> None:
    """400 to 104 in 41: 74 in all, the sleeves at most 30, so the body 44 of 41. Derived, no source.

    The levers: a neck of 116 (71 in all, 41 + 30), 44 rounds, or three of the body's rounds with double decreases.
    """
    assert checked(RAGLANS) == [("assertion-fails", ("largest",))]
    found = faultless(RAGLANS)
    assert [number(found, name, 2) for name in ("decs", "sleeve_decs", "body_decs")] == [74, 30, 44]
    for old, new in (("104 sts]", "116 sts]"), ("41 rnds]", "44 rnds]")):
        assert checked(RAGLANS.replace(old, new)) == []
    plan = raglan(130, 130, 70, 104, 41, least_sleeve=10)
    assert isinstance(plan, NoPlan)
    assert {(near.name, near.value) for near in plan.nearest} >= {("neck", 116), ("rounds", 44), ("body_doubles", 3)}


@settings(max_examples=200)
@given(st.integers(30, 140), st.integers(20, 80), st.integers(10, 60), st.integers(10, 60))
def test_a_raglan_is_possible_where_the_two_limits_allow_it(front: int, sleeve: int, rounds: int, lost: int) -> None:
    """4·(body + sleeve) = join − neck, body ≤ rounds, sleeve ≤ (sleeve − 10) / 2, both sections left. Derived, no source."""
    neck = 2 * front + 2 * sleeve - 4 * lost
    plan = raglan(front, front, sleeve, max(neck, 1), rounds, least_sleeve=10)
    works = neck > 0 and any(
        0 <= lost - sleeves <= min(rounds, (front - 1) // 2) for sleeves in range(min(rounds, (sleeve - 10) // 2) + 1)
    )
    if neck > 0:
        assert isinstance(plan, Raglan) == works


def test_an_armhole_that_loses_seventeen_stitches_a_side() -> None:
    """(94 − 60) / 2 = 17 = 8 unworked + 5 on every row + 4 on RS rows; the last on row 5 + 8 = 13 of 24, 54 % of the depth.

    8 of 17 is 47 %: 40 to 50 % is common practice, no source.
    """
    found = faultless("""
        counts:
          width: 94 sts
          across: 60 sts
          rows_: 24 rows
          unworked: 8 sts
          every_row: {by_hand: 5, unit: times, multiple: 2 plus 1}
          loss: (width - across) / 2
          rs_rows: {is: (loss - unworked) / 1 st - every_row, unit: times}
          last: {is: every_row + 2 * rs_rows, unit: rows}
        measures:
          share: {is: unworked / loss * 100, unit: times}
          depth_used: {is: last / rows_ * 100, unit: times}
    """)
    assert [number(found, name) for name in ("loss", "rs_rows", "last")] == [17, 4, 13]
    assert [rounded_text(number(found, name), 0) for name in ("share", "depth_used")] == ["47", "54"]
    assert Fraction(100, 3) <= number(found, "depth_used") <= Fraction(200, 3)
    plan = armhole(94, 60, 24, 8, 5)
    assert isinstance(plan, Armhole)
    assert (plan.loss, plan.rs_times, plan.last) == (17, 4, 13)
    assert 94 - 2 * 8 - 2 * 5 - 2 * 4 == 60


CAP = """
        sizes: {names: [low, taken, high]}
        gauges:
          fabric: {stitches: 15, rows: 11, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          flat: 7 sts / fabric.stitches
          slope_across: 8 sts / fabric.stitches
          slope_up: 13 rows / fabric.rows
          slope: largest(n, 0, 3000, n * 0.01 cm * n * 0.01 cm <= slope_across * slope_across + slope_up * slope_up) * 0.01 cm
          straight: 11 rows / fabric.rows
          armhole: flat + slope + straight
          cap_across: cap_decs * 1 st / fabric.stitches
          cap_up: cap_rows / fabric.rows
          cap_slope: largest(n, 0, 3000, n * 0.01 cm * n * 0.01 cm <= cap_across * cap_across + cap_up * cap_up) * 0.01 cm
          cap: flat + cap_slope + top / 2 / fabric.stitches
          eased: {is: (cap / armhole - 1) * 100, unit: times}
        counts:
          sleeve: 57 sts
          cap_decs: 15 times
          top: sleeve - 2 * 7 sts - 2 * cap_decs * 1 st
          cap_rows: [17 rows, 18 rows, 19 rows]
        pieces:
          piece: {gauge: fabric, worked: rows}
"""


def test_a_sleeve_cap_against_its_armhole() -> None:
    """Armhole 4.67 + 12.97 (as searched 12.96) + 10.0 = 27.6 cm; caps of 17, 18, 19 rows: 27.4, 28.2, 29.0: −0.8, +2.0, +4.8 %.

    The principle, cap edge to armhole edge: interweave.com (set-in sleeves). The sums are derived: edges as straight lines.
    """
    found = faultless(CAP)
    parts = [rounded_text(number(found, name), 2) for name in ("flat", "slope", "straight")]
    assert parts == ["4.67", "12.96", "10"]
    assert rounded_text(number(found, "armhole"), 1) == "27.6"
    assert [rounded_text(cap, 1) for cap in numbers(found, "cap")] == ["27.4", "28.2", "29"]
    assert [rounded_text(each, 1) for each in numbers(found, "eased")] == ["−0.8", "2", "4.8"]
    assert numbers(found, "top") == [13, 13, 13]


def test_the_slopes_by_pythagoras() -> None:
    """The search in the formula is never more than a tenth of a millimetre short of the root. Derived, no source."""
    found = faultless(CAP)
    for size, rows in enumerate((17, 18, 19)):
        exact = sqrt(10**2 + (rows / 1.1) ** 2)
        assert 0 <= exact - float(number(found, "cap_slope", size)) < 0.01
        cap = 7 / 1.5 + exact + 6.5 / 1.5
        assert abs(cap - float(number(found, "cap", size))) < 0.01
    assert 0 <= sqrt((8 / 1.5) ** 2 + (13 / 1.1) ** 2) - float(number(found, "slope")) < 0.01


def test_fifteen_decreases_in_a_cap_of_eighteen_rows() -> None:
    """Every row 12 times, every 2nd row 3 times: 12 + 6 = 18. Derived, no source."""
    plan = at_two_rates(15, 18)
    assert isinstance(plan, TwoRates)
    assert (plan.every, plan.every_times, plan.then_every, plan.then_times) == (1, 12, 2, 3)


def test_a_cap_that_puckers_or_pulls_is_found() -> None:
    """An ease of −1 to +5 %: 20 rows are 7.7 % over, 16 rows 3.4 % short. Common practice, no source."""
    rule = """
        must_hold:
          - that: eased >= -1 and eased <= 5
            why: the cap is eased into the armhole
    """
    assert checked(CAP + rule) == []
    wide = CAP.replace("[17 rows, 18 rows, 19 rows]", "[16 rows, 18 rows, 20 rows]") + rule
    assert checked(wide) == [("assertion-fails", ("low", "high"))]


def test_cap_heights_by_the_bust() -> None:
    """Armhole depth less 5 cm below a bust of 76 cm, less 7.5 to 122, less 10 above.

    Source: slippedstitches.wordpress.com/tag/sleeve-cap.
    """
    found = faultless("""
        sizes: {names: [child, adult, large]}
        body:
          bust: {cm: [70, 100, 130]}
          armhole_depth: {cm: [16, 21, 25]}
        measures:
          cap: armhole_depth - (5 cm if bust < 76 cm else 7.5 cm if bust <= 122 cm else 10 cm)
    """)
    assert numbers(found, "cap") == [11, Fraction("13.5"), 15]


def test_the_error_of_a_cap_grows_with_the_row_gauge() -> None:
    """18 rows at 11 or at 10 to 10 cm: 28.2 or 29.6 cm of cap. Principle: tkga.org (short-row caps); the sum derived."""
    found = faultless(CAP, {("gauges.fabric.rows", None): "10"})
    before = faultless(CAP)
    drift = number(found, "cap", 1) - number(before, "cap", 1)
    assert rounded_text(drift, 1) == f"{sqrt(100 + 18**2) - sqrt(100 + (18 / 1.1) ** 2):.1f}" == "1.4"
