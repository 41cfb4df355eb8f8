"""Gauges, counts and lengths; repeats with their edges; a size step that a repeat swallows."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.print_grid import cm_text
from stitchproof.measures.values import rounded_text
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import checked, number, numbers


@given(
    st.lists(st.integers(200, 1800), min_size=2, max_size=2), st.integers(8, 30), st.integers(1, 12), st.integers(0, 5)
)
def test_rounding_to_whole_repeats_is_at_most_half_a_repeat_off(
    millimetres: list[int], gauge: int, multiple: int, plus: int
) -> None:
    """The error is at most 1 / (2·gauge), with a repeat of m at most m / (2·gauge). Common practice, no source."""
    found = faultless(f"""
        gauges:
          body: {{stitches: {gauge}, rows: 14, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}}
        measures:
          target: [{millimetres[0] / 10} cm, {millimetres[1] / 10} cm]
          off: abs(in_repeats / body.stitches - target)
          off_in_stitches: abs(sts_ / body.stitches - target)
        counts:
          sts_: {{is: target * body.stitches, round: nearest}}
          in_repeats: {{is: target * body.stitches, round: nearest, multiple: {multiple} plus {plus}}}
        pieces:
          piece: {{gauge: body, worked: rows}}
    """)
    per_cm = Fraction(gauge, 10)
    assert max(numbers(found, "off_in_stitches")) <= 1 / (2 * per_cm)
    assert max(numbers(found, "off")) <= multiple / (2 * per_cm)


def test_the_largest_error_at_17_to_ten_centimetres() -> None:
    """1 / (2 × 1.7) = 0.29 cm. Common practice, no source."""
    assert rounded_text(1 / (2 * Fraction("1.7")), 2) == "0.29"


def test_in_rounds_the_tie_goes_to_the_larger_count() -> None:
    """Multiple of 6 at 17 to 10 cm: 174 sts lie at 102.4 cm and 180 at 105.9; exactly between, `nearest` takes 180.

    The rule is stated: nearest, an exact half up; `nearest, half down` is the other. Common practice, no source.
    """
    found = faultless("""
        gauges:
          body: {stitches: 17, rounds: 14, over: 10 cm, stitch: hdc, worked: spiral rnds, hook: 5 mm, state: blocked}
        measures:
          lower: 174 sts / body.stitches
          upper: 180 sts / body.stitches
          between: (lower + upper) / 2
        counts:
          up_: {is: between * body.stitches, round: nearest, multiple: 6}
          down_: {is: between * body.stitches, round: "nearest, half down", multiple: 6}
        pieces:
          piece: {gauge: body, worked: spiral rounds}
    """)
    assert [rounded_text(number(found, name), 1) for name in ("lower", "upper")] == ["102.4", "105.9"]
    assert [number(found, name) for name in ("up_", "down_")] == [180, 174]


def test_selvedges_that_vanish_in_the_seam() -> None:
    """177 sts, 2 of them selvedges: 104.1 cm as worked, 175 sts and 102.9 cm once seamed. Common practice, no source."""
    found = faultless("""
        gauges:
          body: {stitches: 17, rows: 14, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          flat: piece_sts / body.stitches
          seamed: (piece_sts - selvedges) / body.stitches
        counts:
          selvedges: 2 sts
          piece_sts: {is: 104 cm * body.stitches, round: nearest, multiple: 6 plus 3}
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    assert [rounded_text(number(found, name), 1) for name in ("flat", "seamed")] == ["104.1", "102.9"]


def test_size_steps_below_the_repeat_stand_still_or_jump() -> None:
    """Sizes 2 cm apart, repeats 3.5 cm wide (6 sts at 1.7): each width repeats that of the size before or jumps by 3.5.

    Source: knitty.com, spring and summer 2008 (grading and repeats), for the rule; the figures are our own.
    """
    found = faultless("""
        sizes: {names: [1, 2, 3, 4, 5, 6]}
        gauges:
          body: {stitches: 17, rows: 14, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm, state: blocked}
        measures:
          target: {by_hand: [100, 102, 104, 106, 108, 110], unit: cm}
          achieved: body_sts / body.stitches
        counts:
          body_sts: {is: target * body.stitches, round: nearest, multiple: 6 plus 3}
        pieces:
          piece: {gauge: body, worked: rows}
    """)
    steps = [later - earlier for earlier, later in pairwise(numbers(found, "achieved"))]
    repeat = 6 / Fraction("1.7")
    assert rounded_text(repeat, 1) == "3.5"
    assert set(steps) == {Fraction(0), repeat}


def test_a_gauge_names_the_state_it_was_measured_in() -> None:
    """Blocking changes a gauge: of six yarns worked at one hook, two kept to the control before blocking.

    Source: ilovetinderbox.com, 20 February 2021 (a blocking trial). So a gauge without its state is an error.
    """
    gauge = "fabric: {stitches: 17, rows: 14, over: 10 cm, stitch: hdc, worked: rows, hook: 5 mm"
    assert checked(f"gauges:\n  {gauge}, state: hung}}\n") == []
    assert [name for name, _ in checked(f"gauges:\n  {gauge}}}\n")] == ["gauge-incomplete"]


def test_only_the_achieved_length_is_printed() -> None:
    """92 cm wished, 156 sts lie at 91.76 cm; 155 would print 91, 157 92.5. Common practice, no source."""
    per_cm = Fraction("1.7")
    assert [cm_text(sts / per_cm) for sts in (155, 156, 157)] == ["91", "92", "92.5"]
