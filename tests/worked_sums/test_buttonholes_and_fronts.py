"""Buttonholes along a band, and a bust with a front opening."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.values import rounded_text
from stitchproof.plans.buttonholes import Buttonholes, buttonholes
from stitchproof.plans.no_plan import NoPlan
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import number, per_size, sizes

HOLES = """
        counts:
          band: {band}
          holes: {holes}
          free: band - 3 sts - 2 sts - holes * 2 sts
          gaps_: holes - 1
          short: {{is: free / gaps_, round: down}}
          long_gaps: {{is: (free - short * gaps_) / 1 st, unit: times}}
          long: short + 1
          short_gaps: gaps_ - long_gaps
          in_all: 3 sts + holes * 2 sts + long_gaps * long + short_gaps * short + 2 sts
"""


def test_five_holes_along_37_stitches() -> None:
    """3 + 2 margins, five holes of 2: 22 over 4 gaps, 6, 6, 5, 5; 3 + 10 + 22 + 2 = 37.

    Source of the division: serendipity.gpvm.com/modify.html, and others like it.
    """
    found = faultless(HOLES.format(band="37 sts", holes="{by_hand: 5, unit: times}"))
    names = ("free", "long", "long_gaps", "short", "short_gaps", "in_all")
    assert [number(found, name) for name in names] == [22, 6, 2, 5, 2, 37]


@settings(max_examples=30)
@given(st.lists(st.tuples(st.integers(2, 12), st.integers(0, 120)), min_size=8, max_size=8))
def test_formulas_and_plans_agree_on_buttonholes(cases: list[tuple[int, int]]) -> None:
    """Gaps of two sizes that differ by one. Derived, no source."""
    bands = [5 + 3 * holes + more for holes, more in cases]
    times = f"{{by_hand: {per_size((holes for holes, _ in cases), '')}, unit: times}}"
    found = faultless(f"        {sizes(8)}" + HOLES.format(band=per_size(bands, "sts"), holes=times))
    for size, ((holes, _), band) in enumerate(zip(cases, bands, strict=True)):
        plan = buttonholes(band, holes, 2, below=3, above=2)
        assert isinstance(plan, Buttonholes)
        assert [plan.free, plan.gaps.fewer, plan.gaps.more_times] == [
            number(found, name, size) for name in ("free", "short", "long_gaps")
        ]
        assert number(found, "in_all", size) == band
    assert isinstance(buttonholes(4 + 3 * 5 - 1, 5, 2, below=3, above=2), NoPlan)


def test_a_front_is_half_of_the_back_less_half_of_the_band() -> None:
    """Back 64 with a stitch in each seam, 15 to 10 cm, band 3 cm: 20.67 − 1.5 cm are 28.75 sts, 29 and the seam stitch: 30.

    Source: serendipity.gpvm.com/modify.html.
    """
    found = faultless("""
        gauges:
          body: {stitches: 15, rows: 12, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          back: (back_sts - 2) / body.stitches
          front: back / 2 - 3 cm / 2
          bust: back + 2 * (front_sts - 1) / body.stitches + 3 cm
        counts:
          back_sts: 64 sts
          front_sts: {is: front * body.stitches + 1, round: nearest}
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    assert found.quantity("front_sts").raw[0] == Fraction("29.75")
    assert number(found, "front_sts") == 30
    assert number(found, "bust") == 83


def test_a_pullover_in_the_round_has_no_seam() -> None:
    """N / gauge: 124 sts at 15 to 10 cm are 82.7 cm. Common practice, no source."""
    found = faultless("""
        gauges:
          body: {stitches: 15, rounds: 12, over: 10 cm, stitch: hdc, worked: spiral rnds, hook: 5 mm, state: blocked}
        measures:
          bust: 124 sts / body.stitches
        pieces:
          piece: {gauge: body, worked: spiral rounds}
    """)
    assert rounded_text(number(found, "bust"), 1) == "82.7"
