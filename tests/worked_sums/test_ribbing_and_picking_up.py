"""Sideways ribbing, stitches picked up along its row-ends, and along ordinary row-ends."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.rate import whole_rate
from stitchproof.measures.values import rounded_text
from stitchproof.plans.evenly import EvenRound, evenly_in_rounds
from stitchproof.plans.pick_up import PickUp, longest_edge, pick_up
from stitchproof.plans.row_end_rate import RowEndRate, row_end_rate
from stitchproof.standards.heights import row_ends
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import checked, number, numbers, per_size, sizes

RIB = "rib: {stitches: 16, rows: 17, over: 10 cm, rows_per_rib: 2, stitch: sc-blo, worked: rows, hook: 4 mm, state: relaxed}"


def test_a_sewn_brim_loses_a_row_and_still_passes_over_the_head() -> None:
    """84 rows at 17 to 10 cm are 49.4 cm; sewn, 83 rows and 48.8 cm; × 1.35 is 65.9, more than 56 + 1.

    Common practice, no source.
    """
    found = faultless(f"""
        gauges:
          {RIB}
        measures:
          slip_stitched: brim_rows / rib.rows
          sewn: (brim_rows - 1) / rib.rows
          stretched: sewn * 1.35
          fabric: 56 cm
          smaller: {{is: 1 - slip_stitched / fabric, unit: times}}
        counts:
          brim_rows: 84 rows
        pieces:
          piece: {{gauge: rib, worked: rows}}
    """)
    lengths = [rounded_text(number(found, name), 1) for name in ("slip_stitched", "sewn", "stretched")]
    assert lengths == ["49.4", "48.8", "65.9"]
    assert number(found, "stretched") >= 57
    assert Fraction("0.1") <= number(found, "smaller") <= Fraction("0.2")


def test_a_rib_that_gathers_a_full_skirt() -> None:
    """Two in each row-end: 168 from 42 ribs, so at 16 sts to 10 cm the fabric is twice as wide as the rib: a ratio of 0.47.

    Common practice, no source.
    """
    found = faultless(f"""
        gauges:
          {RIB}
          skirt: {{stitches: 16, rounds: 12, over: 10 cm, stitch: hdc, worked: spiral rnds, hook: 5 mm, state: blocked}}
        rates:
          full: {{sts: 4, per: 1 rib, along: rib}}
        measures:
          edge: rib_rows / rib.rows
          fabric: skirt_sts / skirt.stitches
          ratio: {{is: edge / fabric, unit: times}}
        counts:
          ribs_: {{is: 42 ribs, gauge: rib}}
          rib_rows: ribs_ * rib.rows_per_rib
          skirt_sts: picked_up(full, ribs_)
        pieces:
          piece: {{gauge: rib, worked: rows}}
    """)
    assert number(found, "skirt_sts") == 168
    assert rounded_text(number(found, "ratio"), 2) == "0.47"


def test_three_ways_to_a_total_of_a_given_multiple() -> None:
    """Ribs so that it falls out (40 ribs, 90 sts, even by tens); the seam stitch (2·42 + 1 = 85, odd); 2 more in the next round.

    Derived, no source. 94 to 96 in the next round is "46 plain, increase" twice.
    """
    found = faultless("""
        sizes: {names: [one]}
        rates:
          extra: {sts: 9, per: 4 ribs, left_over: 2 sts}
          plain: {sts: 2, per: 1 rib}
        counts:
          ribs_that_fit: largest(n, 1 ribs, 42 ribs, nearest(picked_up(extra, n), 10) = picked_up(extra, n))
          by_tens: picked_up(extra, ribs_that_fit)
          with_seam: {is: "picked_up(plain, 42 ribs) + 1", multiple: 2 plus 1}
          first_round: picked_up(extra, 42 ribs)
          hat: {is: first_round, round: up, multiple: 8}
          correction: {is: (hat - first_round) / 1 st, unit: times, at_least: 1}
          between: {is: (first_round - correction * 1 st) / correction, round: down}
    """)
    assert [number(found, name) for name in ("ribs_that_fit", "by_tens", "with_seam")] == [40, 90, 85]
    assert [number(found, name) for name in ("first_round", "hat", "correction", "between")] == [94, 96, 2, 46]
    plan = evenly_in_rounds(94, 2)
    assert isinstance(plan, EvenRound)
    assert (plan.after, plan.groups.fewer, plan.groups.more_times) == (96, 46, 0)


def test_a_seam_stitch_makes_every_total_odd() -> None:
    """2·ribs + 1 is odd for every number of ribs. Derived, no source."""
    found = faultless(f"""
        {sizes(40)}
        rates:
          plain: {{sts: 2, per: 1 rib}}
        counts:
          ribs_: {per_size(range(1, 41), "ribs")}
          around: {{is: "picked_up(plain, ribs_) + 1", multiple: 2 plus 1}}
    """)
    assert numbers(found, "around") == [2 * ribs + 1 for ribs in range(1, 41)]
    assert not checked(f"counts:\n  around: {{by_hand: {per_size((85, 87), 'sts')}, multiple: 2 plus 1}}\n")


def test_the_half_stitch_of_a_rate_is_reported_not_rounded() -> None:
    """42 ribs at 9 per 4: the ideal 94.5 cannot be worked; 44 ribs can. Derived, no source."""
    edge = "rates:\n  edge: {sts: 9, per: 4 ribs}\ncounts:\n  edge_sts: picked_up(edge, RIBS ribs)\n"
    assert checked(edge.replace("RIBS", "42")) == [("pick-up-not-whole", ("S", "M"))]
    assert checked(edge.replace("RIBS", "44")) == []


@given(st.integers(1, 9), st.integers(1, 6), st.integers(0, 4), st.lists(st.integers(1, 150), min_size=8, max_size=8))
def test_the_formula_and_the_plan_pick_up_the_same(sts: int, per: int, left: int, edges: list[int]) -> None:
    """floor(ribs / q)·p + (ribs mod q)·base, and the most ribs that a count can take. Derived, no source."""
    if per == 1:
        left = 0
    left = min(left, sts)
    found = faultless(f"""
        {sizes(8)}
        rates:
          edge: {{sts: {sts}, per: {per} ribs, left_over: {left} sts}}
        counts:
          ribs_: {per_size(edges, "ribs")}
          taken: picked_up(edge, ribs_)
          longest: {{is: "edge_for(edge, taken)", unit: ribs}}
    """)
    rate = whole_rate(sts, per, left, row_ends=2, noun="ribs")
    for size, edge in enumerate(edges):
        plan = pick_up(edge, rate)
        assert isinstance(plan, PickUp)
        assert plan.picked_up == number(found, "taken", size) == edge // per * sts + edge % per * left
        longest = longest_edge(plan.picked_up, rate)
        assert isinstance(longest, PickUp)
        assert longest.edge == number(found, "longest", size)


def test_single_crochet_along_half_double_rows() -> None:
    """16 sts on 11 rows to 10 cm: 1.4545 a row, so 3 per 2 rows, 3.1 % long; 46 rows give 69 for the exact 66.9.

    Common practice, no source.
    """
    found = faultless("""
        gauges:
          fabric: {stitches: 15, rows: 11, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
          band: {stitches: 16, rows: 16, over: 10 cm, stitch: sc, worked: rows, hook: 5 mm, state: blocked}
        rates:
          along: {sts: 3, per: 2 rows, along: fabric}
        measures:
          edge: edge_rows / fabric.rows
          exact: edge * band.stitches * 1 cm / 1 st
          too_long: {is: band_sts / band.stitches / edge - 1, unit: times}
        counts:
          edge_rows: {is: 46 rows, gauge: fabric}
          band_sts: picked_up(along, edge_rows)
        pieces:
          piece: {gauge: fabric, worked: rows}
    """)
    assert number(found, "band_sts") == 69
    assert rounded_text(number(found, "exact"), 1) == "66.9"
    plan = row_end_rate(Fraction(16, 10), Fraction(11, 10))
    assert isinstance(plan, RowEndRate)
    assert (plan.sts, plan.per) == (3, 2)
    assert plan.off == number(found, "too_long")
    assert rounded_text(plan.off * 100, 1) == "3.1"


def test_rules_of_thumb_along_row_ends() -> None:
    """1 sc a row of sc, 3 per 2 rows of hdc, 2 a row of dc: common practice, no source.

    5 sc per 2 dc rows is another in use (serendipity.gpvm.com/modify.html); 20 sts on 8 rows to 10 cm lead to it.
    """
    thumb = {rule.stitch: rule.figure for rule in row_ends()}
    assert [thumb[stitch] for stitch in ("sc", "hdc", "dc")] == [1, Fraction(3, 2), 2]
    fine = row_end_rate(Fraction(20, 10), Fraction(8, 10))
    assert isinstance(fine, RowEndRate)
    assert (fine.sts, fine.per) == (5, 2)
    assert fine.off == 0


def test_rows_that_are_no_whole_groups_are_said() -> None:
    """47 rows at 3 per 2 rows leave one row: the pattern says what is picked up there, or hears of it. Common practice."""
    band = "rates:\n  along: {sts: 3, per: 2 rowsLEFT}\ncounts:\n  band_sts: picked_up(along, 47 rows)\n"
    assert checked(band.replace("LEFT", "")) == [("pick-up-not-whole", ("S", "M"))]
    assert checked(band.replace("LEFT", ", left_over: 1 st")) == []
