"""Worked sums of the trade, written as a designer would write them, and what they must come to.

The figures are common practice, no source, unless a test says otherwise; each was worked out by hand beforehand.
"""

from fractions import Fraction

from stitchproof.measures.print_grid import cm_text
from stitchproof.measures.values import rounded_text
from tests.sizing.written_pattern import Sized, faultless


def number(found: Sized, name: str, size: int = 0) -> Fraction:
    value = found.values(name)[size]
    assert isinstance(value, Fraction)
    return value


def test_gauge_to_counts_and_back() -> None:
    """17 sts per 10 cm, 92 cm: 156.4, so 156 sts, which lie at 91.76 cm and print 92. Common practice, no source."""
    found = faultless("""
        gauges:
          body: {stitches: 17, rows: 14, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          target: 92 cm
          achieved: body_sts / body.stitches
          error: achieved - target
        counts:
          body_sts: {is: target * body.stitches, round: nearest}
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    assert found.quantity("body_sts").raw[0] == Fraction("156.4")
    assert number(found, "body_sts") == 156
    assert rounded_text(number(found, "achieved")) == "91.76"
    assert cm_text(number(found, "achieved")) == "92"
    assert rounded_text(number(found, "error")) == "−0.24"
    assert abs(number(found, "error")) <= 1 / (2 * Fraction("1.7"))


def test_a_gauge_over_four_inches_is_no_gauge_over_ten_centimetres() -> None:
    """4 in are 10.16 cm, 1.6 % more; on a bust of 160 cm that is 2.6 cm. Derived from 1 in = 2.54 cm."""
    found = faultless("""
        gauges:
          metric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 5 mm, state: blocked}
          inches: {stitches: 16, rows: 12, over: 4 in, stitch: sc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          bust: 160 cm
          really: bust * metric.stitches / inches.stitches
          wider: really - bust
        pieces:
          piece: {gauge: metric, worked: rows}
    """)
    assert number(found, "really") / 160 == Fraction("1.016")
    assert rounded_text(number(found, "wider"), 1) == "2.6"


def test_rounding_to_a_repeat_with_its_edges() -> None:
    """Multiple of 6 plus 1, and 2 selvedges, 17 sts per 10 cm, 104 cm: 29 repeats, 177 sts, 104.1 cm; steps of 3.5 cm.

    Common practice, no source.
    """
    found = faultless("""
        gauges:
          body: {stitches: 17, rows: 14, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          target: 104 cm
          achieved: body_sts / body.stitches
          narrower: (body_sts - 6) / body.stitches
          wider: (body_sts + 6) / body.stitches
        counts:
          body_sts: {is: target * body.stitches, round: nearest, multiple: 6 plus 3}
          repeats_across: {is: (body_sts - 3) / 6 sts, unit: repeats}
          in_rounds: {is: target * body.stitches, round: nearest, multiple: 6}
          in_rounds_up: {is: target * body.stitches, round: up, multiple: 6}
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    assert number(found, "body_sts") == 177
    assert number(found, "repeats_across") == 29
    widths = [rounded_text(number(found, name), 1) for name in ("narrower", "achieved", "wider")]
    assert widths == ["100.6", "104.1", "107.6"]
    assert [number(found, "in_rounds"), number(found, "in_rounds_up")] == [174, 180]
    assert found.quantity("body_sts").cm_per_unit == 1 / Fraction("1.7")


def test_a_brim_of_sideways_ribbing() -> None:
    """Head 56 cm, brim 12 % smaller, 17 rows and 16 sts per 10 cm: 49.28 cm, 84 rows, 42 ribs, 49.4 cm; 7 cm deep: chain 12.

    Even rows, so that the rib count is whole. Common practice, no source.
    """
    found = faultless("""
        gauges:
          rib: {stitches: 16, rows: 17, over: 10 cm, rows_per_rib: 2, stitch: sc-blo, worked: rows, hook: 4 mm, state: relaxed}
        measures:
          head: 56 cm
          brim: head * (1 - 12%)
          achieved: brim_rows / rib.rows
        counts:
          brim_rows: {is: brim * rib.rows, round: nearest, multiple: 2}
          brim_ribs: {is: brim_rows / rib.rows_per_rib, unit: ribs}
          brim_sts: {is: 7 cm * rib.stitches, round: nearest}
          brim_chain: brim_sts + 1
        pieces:
          piece: {gauge: rib, worked: rows}
    """)
    assert number(found, "brim") == Fraction("49.28")
    assert [number(found, name) for name in ("brim_rows", "brim_ribs", "brim_sts", "brim_chain")] == [84, 42, 11, 12]
    assert rounded_text(number(found, "achieved"), 1) == "49.4"


def test_picking_up_along_a_rib_edge() -> None:
    """42 ribs: 168 with two in each row-end, 84 with one, 94 with an extra one before every fourth rib (94.5 cannot be worked).

    Common practice, no source; the last derived.
    """
    found = faultless("""
        sizes: {names: [one]}
        rates:
          two_each: {sts: 4, per: 1 rib}
          one_each: {sts: 2, per: 1 rib}
          extra: {sts: 9, per: 4 ribs, left_over: 2 sts}
          ideal: {sts: 9, per: 4 ribs}
        counts:
          edge: 42 ribs
          full: picked_up(two_each, edge)
          plain: picked_up(one_each, edge)
          written: picked_up(extra, edge)
        measures:
          never_worked: picked_up(ideal, edge) * 1 cm / 1 st
    """)
    assert [number(found, name) for name in ("full", "plain", "written")] == [168, 84, 94]
    assert number(found, "never_worked") == Fraction("94.5")


def test_a_row_gauge_that_drifts() -> None:
    """39 rnds at 14 per 10 cm are 27.9 cm; hung, at 13.2, 29.5 cm, 1.7 more. Planned again for 27.9 cm: 37 rnds.

    Common practice, no source. The drift is what a change of the gauge does to the same pattern.
    """
    source = """
        gauges:
          body: {stitches: 16, rounds: 14, over: 10 cm, stitch: dc, worked: spiral rnds, hook: 5 mm, state: blocked}
        measures:
          length: body_rnds / body.rounds
        counts:
          body_rnds: 39 rnds
          planned_again: {is: 27.9 cm * body.rounds, round: nearest}
        pieces:
          piece: {gauge: body, worked: spiral rounds}
    """
    flat, hung = faultless(source), faultless(source, {("gauges.body.rounds", None): "13.2"})
    assert rounded_text(number(flat, "length"), 1) == "27.9"
    assert rounded_text(number(hung, "length"), 1) == "29.5"
    assert rounded_text(number(hung, "length") - number(flat, "length"), 1) == "1.7"
    assert rounded_text(hung.quantity("planned_again").raw[0], 1) == "36.8"  # type: ignore[arg-type]
    assert number(hung, "planned_again") == 37


def test_a_bust_with_a_front_opening() -> None:
    """Back 64, fronts 30 each, one stitch of each lost in a seam, 15 sts per 10 cm, band 3 cm: 83.0 cm, with the seams 85.7.

    Common practice, no source.
    """
    found = faultless("""
        gauges:
          body: {stitches: 15, rows: 12, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          band: 3 cm
          bust: (back_sts - 2 * seam) / body.stitches + 2 * (front_sts - seam) / body.stitches + band
          forgotten: back_sts / body.stitches + 2 * front_sts / body.stitches + band
        counts:
          back_sts: 64 sts
          front_sts: 30 sts
          seam: 1 st
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    assert number(found, "bust") == 83
    assert rounded_text(number(found, "forgotten") - number(found, "bust"), 1) == "2.7"
