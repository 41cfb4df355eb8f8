"""Odd and even totals of offset fabrics, against walking them stitch by stitch."""

from fractions import Fraction

import pytest

from stitchproof.measures.values import rounded_text
from tests.sizing.written_pattern import faultless
from tests.worked_sums.offset_walk import (
    SpiralEndingWithAChain,
    join_works,
    ring_works,
    row_works,
    spiral_kept_in_place_works,
)
from tests.worked_sums.worksheet import checked, number

TWO_ROWS = ["sc, ch 1", "sc, sc"] * 3
ONE_ROW = ["sc, ch 1"] * 6
TOTALS = range(6, 41)


def refused(way: str, piece: str) -> set[int]:
    """The totals from 6 to 40 that the rule on offset fabrics reports for a way of working."""
    found = checked(
        f"""
        sizes: {{names: [{", ".join(f"n{total}" for total in TOTALS)}]}}
        counts:
          total: [{", ".join(f"{total} sts" for total in TOTALS)}]
        pieces:
          piece: {{gauge: fabric, worked: {piece}, offset_fabric: {{total: total, worked: "{way}"}}}}
        """
    )
    assert {name for name, _ in found} <= {"wrong-parity-for-offset-fabric"}
    return {int(size[1:]) for _, reported in found for size in reported}


@pytest.mark.parametrize(
    ("way", "piece", "works"),
    [
        ("rows, two-row repeat", "rows", lambda total: row_works(total, TWO_ROWS)),
        ("rows, one-row repeat", "rows", lambda total: row_works(total, ONE_ROW)),
        ("joined rounds", "joined rounds", ring_works),
        ("turned rounds", "turned rounds", ring_works),
        ("spiral rounds, start kept in place", "spiral rounds", spiral_kept_in_place_works),
    ],
)
def test_odd_or_even_by_the_way_of_working(way: str, piece: str, works: object) -> None:
    """Rows: odd for a two-row repeat, even for a one-row repeat; rings even; a spiral with its start in place odd.

    Rows of two: interweave.com (an offset two-stitch pattern in rows). The others: common practice, no source, and the
    spiral derived; all walked stitch by stitch here.
    """
    assert callable(works)
    assert refused(way, piece) == {total for total in TOTALS if not works(total)}


def test_a_spiral_whose_rounds_end_with_a_chain_is_a_ring_of_one_fewer() -> None:
    """116 written, 115 around: 63.9 cm at 18 to 10 cm, not 64.4. Derived, no source; walked stitch by stitch."""
    for total in range(6, 60, 2):
        walk = SpiralEndingWithAChain(total, rounds=6)
        after_first = {place: below for place, below in walk.over.items() if place >= 2 * total}
        assert {place - below for place, below in after_first.items()} == {total - 1}
        twice = [chain for chain, stitches in walk.passed.items() if stitches != 1]
        assert twice == [2 * total - 1]
        assert walk.passed[2 * total - 1] == 2
    assert refused("spiral rounds, each ending with a chain", "spiral rounds") == {n for n in TOTALS if n % 2}
    found = faultless("""
        gauges:
          fabric: {stitches: 18, rounds: 17, over: 10 cm, stitch: sc, worked: spiral rnds, hook: 4.5 mm, state: blocked}
        measures:
          around: ring / fabric.stitches
          as_written: total / fabric.stitches
        counts:
          total: 116 sts
          ring: total - 1
        pieces:
          piece: {gauge: fabric, worked: spiral rounds}
    """)
    assert [rounded_text(number(found, name), 1) for name in ("around", "as_written")] == ["63.9", "64.4"]


def test_the_start_of_such_a_spiral_moves_one_place_a_round() -> None:
    """The first stitch of each round lies over the second place of the round below. Derived, no source; walked."""
    walk = SpiralEndingWithAChain(116, rounds=8)
    starts = [walk.over[round_ * 116] for round_ in range(1, 9)]
    assert starts[0] == 0
    assert starts[1:] == [round_ * 116 + 1 for round_ in range(1, 8)]


def test_both_forms_of_rows_do_not_mix() -> None:
    """A set-up row of the one with pattern rows of the other: no total works. Common practice, no source; walked."""
    mixed = ["sc, ch 1", "sc, ch 1", "sc, sc", "sc, ch 1", "sc, sc"]
    assert not [total for total in TOTALS if row_works(total, mixed)]


def test_the_chain_of_an_odd_offset_row() -> None:
    """An odd number of stitches and one chain: a multiple of 2 plus 2. Source: interweave.com (offset pattern in rows)."""
    found = faultless("""
        gauges:
          fabric: {stitches: 18, rows: 17, over: 10 cm, stitch: sc, worked: rows, hook: 4.5 mm, state: blocked}
        counts:
          row: {is: 40 cm * fabric.stitches, round: nearest, multiple: 2 plus 1}
          chain: {is: row + 1, multiple: 2 plus 2}
        pieces:
          piece: {gauge: fabric, worked: rows, offset_fabric: {total: row, worked: "rows, two-row repeat"}}
    """)
    assert [number(found, name) for name in ("row", "chain")] == [73, 74]


@pytest.mark.parametrize("bridge", range(4))
def test_a_yoke_of_an_offset_fabric_needs_an_odd_bridge_over_odd_sleeves(bridge: int) -> None:
    """Over the second underarm the yoke goes on by bridge + sleeve − skip, the body by skip: sleeve + bridge is even.

    Derived, no source. Against trying every way to part the body, to start the sleeves and to stand the bridge.
    """
    for body in range(21, 28):
        for sleeve in range(9, 13):
            for skip in range(2, 6):
                works = (sleeve + bridge) % 2 == 0 and body % 2 == 1
                assert join_works(body, sleeve, skip, bridge) == works, (body, sleeve, skip, bridge)


def test_skips_that_differ_count_into_the_bridge() -> None:
    """sleeve + bridge ≡ skip of the body + skip of the sleeve (mod 2). Derived, no source; tried as above."""
    for sleeve in range(9, 12):
        for skip in range(2, 5):
            for body_skip in range(2, 5):
                for bridge in range(3):
                    works = (sleeve + bridge - skip - body_skip) % 2 == 0
                    assert join_works(25, sleeve, skip, bridge, body_skip) == works


def test_pairs_in_an_odd_offset_round() -> None:
    """Decreases in pairs: (N − 1) / 2 of an odd round; 417 sts are 208 pairs. Derived, no source."""
    found = faultless("""
        counts:
          joined: {by_hand: 417 sts, multiple: 2 plus 1}
          pairs: {is: (joined - 1) / 2 sts, unit: pairs}
    """)
    assert number(found, "pairs") == Fraction(208)
