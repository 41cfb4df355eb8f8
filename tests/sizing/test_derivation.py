"""How a number came about, as a designer reads it. The texts were read by eye; the sums in them are worked by hand here."""

from fractions import Fraction

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof.diagnostics.diagnostic import Diagnostic
from tests.sizing.written_pattern import Sized, derivation_text, sized, told

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
      between(k): {is: hat_sts / k, round: down}
      wider: max(hat_sts, moss_sts, plain_sts)
      bounded: 8 + max(0, min(extra, down(around / 10 cm)))
      without_extra: extra * 2
      widest: highest(hat_sts) - hat_sts[Medium]
      lost: hat_sts / (ease - 2 cm) * 1 cm
    pieces:
      piece: {gauge: crown, worked: spiral rounds}
"""
IN_USE = {
    "after": {size: tuple(Fraction(k) for k in range(1, 3 + size)) for size in range(3)},
    "yoke": {0: tuple(Fraction(k) for k in range(4))},
}
"""The k of the values that take one, as a text would work with them."""
NAMES = [
    *("ease", "head", "around", "drop", "yarn", "yarn_length", "strap", "hat_sts", "moss_sts", "plain_sts", "ribs"),
    *("ribs_for", "picked", "picked_exactly", "extra", "after", "yoke", "lost", "edge", "exact_edge"),
    *("hat_sts[Medium]", "yoke[Small]", "after[Large]", "after(2)", "between", "wider", "bounded", "without_extra"),
    *("widest", "rates.edge.sts", "extra[Small]"),
    *("crown.stitches", "gauges.rib.rows_per_rib", "rib.rows"),
]


@pytest.fixture(scope="module")
def pattern() -> Sized:
    return sized(SOURCE)


@pytest.mark.parametrize("name", NAMES)
def test_a_derivation_as_it_reads(name: str, pattern: Sized, snapshot: SnapshotAssertion) -> None:
    assert derivation_text(pattern, name, IN_USE) == snapshot


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
        ("crown.stitches", "all sizes 17 sts per 10 cm"),
        ("after", "3 – 56 sts 64 sts"),
        ("after[Large]", "k = 2 96 sts − 8 × (2 + 1) = 72 sts"),
        ("between", "Small 80 sts ÷ 1 = 80 sts exact"),
        ("without_extra", "Small not worked as extra is not worked"),
        ("extra", "Small not worked as 80 sts ≤ 80 sts"),
        (
            "widest",
            "all sizes highest(80 sts, 88 sts, 96 sts) − 88 sts (size Medium) = 96 sts − 88 sts (size Medium) = 8 sts",
        ),
        ("yoke", "Small 80 sts + 8 = 88 sts"),
        ("picked_exactly", "all sizes 42 ribs × 9 sts ÷ 4 ribs = 94.5 sts → 94 sts rounding: −0.5 sts"),
    ],
)
def test_a_line_worked_by_hand(name: str, line: str, pattern: Sized) -> None:
    lines = [" ".join(each.split()) for each in derivation_text(pattern, name, IN_USE).splitlines()]
    assert line in lines


def test_a_short_name_and_a_full_name_tell_the_same(pattern: Sized) -> None:
    assert derivation_text(pattern, "head", IN_USE) == derivation_text(pattern, "body.head", IN_USE)


@pytest.mark.parametrize(
    ("name", "code", "shown", "help_text"),
    [
        ("hat_stz", "SP007", "hat_stz", "write `hat_sts`"),
        ("crown.stiches[Small]", "SP007", "crown.stiches", "write `crown.stitches`"),
        ("qqq", "SP007", "qqq", "add it to pattern.yaml, or write a name that is there"),
        ("hat_sts[Smal]", "SP029", "Smal", "write `Small`"),
        ("hat_sts[", "SP034", "hat_sts[", "write for example `ease` or `head[M]`"),
        ("hat_sts(3)", "SP034", "hat_sts(3)", "write `hat_sts`"),
    ],
)
def test_what_is_not_there_is_reported(name: str, code: str, shown: str, help_text: str, pattern: Sized) -> None:
    found = told(pattern, name)
    assert isinstance(found, Diagnostic)
    assert (found.page.code, found.primary.span.text, found.help) == (code, shown, (help_text,))


def test_no_line_ends_in_blanks(pattern: Sized) -> None:
    for name in NAMES:
        text = derivation_text(pattern, name, IN_USE)
        assert text.endswith("\n")
        assert all(line == line.rstrip() for line in text.splitlines())
