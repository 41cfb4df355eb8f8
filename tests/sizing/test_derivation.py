"""How a number came about, as a designer reads it. The texts were read by eye; the sums in them are worked by hand here."""

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof.sizing.derivation import derivation_text
from tests.sizing.written_pattern import Sized, sized

SOURCE = """
    sizes: {names: [Small, Medium, Large]}
    body:
      head: {cm: [51.3, 55, 60]}
    gauges:
      crown: {stitches: 17, rounds: 12, over: 10 cm, stitch: hdc, worked: spiral rnds, hook: 5 mm, state: blocked}
      rib: {stitches: 16, rows: 15, over: 4 in, rows_per_rib: 2, stitch: sc-blo, worked: rows, hook: 4 mm, state: relaxed}
    rates:
      edge: {sts: 5, per: 2 ribs, left_over: 2 sts per rib, along: rib}
      exact_edge: {sts: 9, per: 4 ribs}
    measures:
      ease: 2 cm
      around: head - ease
      drop: 0 cm - 4.25 in
      yarn: {by_hand: [45, 50, 65], unit: g}
      yarn_length: {is: yarn * 220 m per 100 g, round: up, multiple: 10 m}
      strap: {by_hand: [ease * 3, ease * 4, not worked]}
    counts:
      hat_sts: {is: around * crown.stitches, round: nearest, multiple: 8, why: eight crown sections}
      moss_sts: {is: around * crown.stitches, round: down, multiple: 2 plus 1}
      plain_sts: {is: around * crown.stitches, round: up, at_least: 80 sts, at_most: 120 sts}
      ribs: "largest(n, 1 ribs, 200 ribs, picked_up(edge, n) <= hat_sts)"
      ribs_for: edge_for(edge, hat_sts)
      picked: picked_up(edge, ribs)
      picked_exactly: {is: "picked_up(exact_edge, 42 ribs)", round: down}
      extra: hat_sts - picked if hat_sts > picked else not worked
      after(k): hat_sts - 8 * (k + 1)
      yoke(k): {is: yoke(k - 1) + 8, start: hat_sts}
      lost: hat_sts / (ease - 2 cm) * 1 cm
    pieces:
      piece: {gauge: crown, worked: spiral rounds}
"""
NAMES = [
    *("ease", "head", "around", "drop", "yarn", "yarn_length", "strap", "hat_sts", "moss_sts", "plain_sts", "ribs"),
    *("ribs_for", "picked", "picked_exactly", "extra", "after", "yoke", "lost", "edge", "exact_edge"),
    *("crown.stitches", "gauges.rib.rows_per_rib", "rib.rows"),
]


@pytest.fixture(scope="module")
def pattern() -> Sized:
    return sized(SOURCE)


@pytest.mark.parametrize("name", NAMES)
def test_a_derivation_as_it_reads(name: str, pattern: Sized, snapshot: SnapshotAssertion) -> None:
    assert derivation_text(pattern.pattern, name) == snapshot


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("hat_sts", "Small 49.3 cm × 17 sts per 10 cm = 83.81 sts → 80 sts rounding: −3.81 sts, −2.2 cm / −0.9 in"),
        ("hat_sts", "Medium 53 cm × 17 sts per 10 cm = 90.1 sts → 88 sts rounding: −2.1 sts, −1.2 cm / −0.5 in"),
        ("plain_sts", "at least 80 sts"),
        ("moss_sts", "rounding down, to an odd number"),
        ("ribs", "Small at 32 ribs 80 sts ≤ 80 sts; at 33 ribs 82 sts > 80 sts; so 32 ribs"),
        ("yarn_length", "Small 45 g × 220 m per 100 g = 99 m → 100 m rounding: +1 m"),
        ("yarn_length", "Medium 50 g × 220 m per 100 g = 110 m exact"),
        ("around", "Small 51.3 cm − 2 cm = 49.3 cm prints 49.5 cm / 19½ in"),
        ("drop", "all sizes 0 cm − 4.25 in = −10.795 cm prints −11 cm / −4¼ in"),
        ("strap", "Large not worked"),
        ("crown.stitches", "all sizes 17 sts ÷ 10 cm = 17 sts per 10 cm"),
        ("yoke", "Small 80 sts + 8 = 88 sts"),
        ("picked_exactly", "all sizes 42 ribs × 9 sts ÷ 4 ribs = 94.5 sts → 94 sts rounding: −0.5 sts"),
    ],
)
def test_a_line_worked_by_hand(name: str, line: str, pattern: Sized) -> None:
    lines = [" ".join(each.split()) for each in derivation_text(pattern.pattern, name).splitlines()]
    assert line in lines


def test_a_short_name_and_a_full_name_tell_the_same(pattern: Sized) -> None:
    assert derivation_text(pattern.pattern, "head") == derivation_text(pattern.pattern, "body.head")


@pytest.mark.parametrize(("name", "near"), [("hat_stz", "hat_sts"), ("crown.stiches", "crown.stitches"), ("qqq", "")])
def test_an_unknown_name_carries_the_nearest(name: str, near: str, pattern: Sized) -> None:
    with pytest.raises(KeyError) as unknown:
        derivation_text(pattern.pattern, name)
    assert unknown.value.args == (near,)


def test_no_line_ends_in_blanks(pattern: Sized) -> None:
    for name in NAMES:
        text = derivation_text(pattern.pattern, name)
        assert text.endswith("\n")
        assert all(line == line.rstrip() for line in text.splitlines())
