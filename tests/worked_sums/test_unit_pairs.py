"""Centimetres and inches of the same length, as they are printed and as they are typed."""

from fractions import Fraction

from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.values import rounded_text
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import checked, number


def test_both_units_come_from_the_unrounded_length() -> None:
    """50 sts at 15 to 10 cm are 33.33 cm: 33.5 cm and 13 in, not the 13¼ in of the rounded 33.5. Derived, no source."""
    found = faultless("""
        gauges:
          body: {stitches: 15, rows: 12, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          width: 50 sts / body.stitches
          from_rounded: 33.5 cm
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    assert [cm_text(number(found, "width")), inch_text(number(found, "width"))] == ["33.5", "13"]
    assert inch_text(number(found, "from_rounded")) == "13¼"
    assert rounded_text(number(found, "width") / Fraction("2.54"), 2) == "13.12"


def test_a_typed_pair_is_true_within_the_two_half_steps() -> None:
    """|cm − 2.54·in| ≤ 0.25 + 0.3175 = 0.5675: 33.5 cm with each quarter of an inch, and those reported. Derived."""
    true = []
    for quarters in range(48, 60):
        inches = Fraction(quarters, 4)
        whole, rest = divmod(inches, 1)
        words = f"{whole}{['', '¼', '½', '¾'][int(rest * 4)]}"
        found = [name for name, _ in checked("", f"Work even until piece measures 33.5 cm / {words} in.\n")]
        within = abs(Fraction("33.5") - Fraction("2.54") * inches) <= Fraction("0.5675")
        assert ("unit-pair-untrue" not in found) == within, words
        if within:
            true.append(words)
    assert true == ["13", "13¼"]
