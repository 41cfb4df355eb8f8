"""The one argument `changes`: what-if, a new gauge and an offered value are all tried through it."""

from fractions import Fraction

import pytest

from stitchproof.measures.values import Absent
from stitchproof.sizing.changes import Changes
from tests.sizing.written_pattern import faultless, sized

SOURCE = """
    sizes: {names: [S, M, L]}
    body:
      head: {cm: [50, 55, 60]}
    gauges:
      crown: {stitches: 16, rounds: 12, over: 10 cm, stitch: hdc, worked: spiral rnds, hook: 5 mm, state: blocked}
      rib: {stitches: 16, rows: 15, over: 4 in, rows_per_rib: 2, stitch: sc-blo, worked: rows, hook: 4 mm, state: relaxed}
    rates:
      edge: {sts: 5, per: 2 ribs, left_over: 2, along: rib}
    ratios:
      stretch: 1.1
    measures:
      ease: 0 cm
      width: 20 in
      yarn: {by_hand: [45, 50, 65], unit: g}
      around: head - ease
    counts:
      hat_sts: {is: around * crown.stitches, round: nearest, multiple: 8}
      brim:
        sts: {by_hand: [8, 9, 10], unit: sts}
      rib_rows: 20 ribs * rib.rows_per_rib
      sections: hat_sts / 8
      after(k): hat_sts - 8 * k
      left: after(2)
      yoke(k): {is: yoke(k - 1) + 8, start: hat_sts}
      yoke_after_3: yoke(3)
      rounded(k): {is: hat_sts / k, round: down}
      rounded_at_3: rounded(3)
      picked: picked_up(edge, 9 ribs)
      pairs: {is: hat_sts / 2, unit: pairs}
    pieces:
      piece: {gauge: crown, worked: spiral rounds}
"""


def whole(*numbers: int | str) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for number in numbers)


def test_a_name_in_every_size() -> None:
    """A formula, or one value for all; what is worked out from it follows."""
    found = faultless(SOURCE, {("ease", None): "5 cm"})
    assert found.values("around") == whole(45, 50, 55)
    assert found.values("hat_sts") == whole(72, 80, 88)
    assert faultless(SOURCE, {("ease", None): "head * 10%"}).values("around") == whole(45, "49.5", 54)


def test_a_name_in_one_size_leaves_the_others() -> None:
    before = faultless(SOURCE)
    found = faultless(SOURCE, {("hat_sts", 1): "72"})
    assert before.values("hat_sts") == whole(80, 88, 96)
    assert found.values("hat_sts") == whole(80, 72, 96)
    assert found.values("left") == whole(64, 56, 80)


def test_a_given_value_is_not_rounded_again() -> None:
    """75 is no multiple of 8; it stays 75, for the checks to judge, while the other sizes keep their rounding."""
    assert faultless(SOURCE, {("hat_sts", 1): "75 sts"}).values("hat_sts") == whole(80, 75, 96)
    assert faultless(SOURCE, {("hat_sts", None): "75 sts"}).values("hat_sts") == whole(75, 75, 75)
    both: Changes = {("hat_sts", None): "75 sts", ("hat_sts", 2): "76 sts"}
    assert faultless(SOURCE, both).values("hat_sts") == whole(75, 75, 76)


def test_a_size_can_be_taken_out() -> None:
    found = faultless(SOURCE, {("hat_sts", 0): "not worked"})
    assert found.values("hat_sts")[0] is Absent.NOT_WORKED
    assert found.values("left") == (Absent.NOT_WORKED, *whole(72, 80))


@pytest.mark.parametrize("name", ["head", "body.head"])
def test_a_short_name_is_the_full_name(name: str) -> None:
    assert faultless(SOURCE, {(name, 2): "65"}).values("body.head") == whole(50, 55, 65)


def test_a_dotted_name() -> None:
    assert faultless(SOURCE, {("brim.sts", 2): "12"}).values("brim.sts") == whole(8, 9, 12)


@pytest.mark.parametrize("text", ["17", "17 sts", "17 sts per 10 cm"])
def test_a_new_gauge_keeps_the_length_it_is_counted_over(text: str) -> None:
    found = faultless(SOURCE, {("gauges.crown.stitches", None): text})
    assert found.values("gauges.crown.stitches") == (Fraction("1.7"),) * 3
    assert found.values("hat_sts") == whole(88, 96, 104)


def test_a_gauge_over_inches_and_one_per_rib() -> None:
    changes: Changes = {("rib.stitches", None): "17", ("gauges.rib.rows_per_rib", None): "3"}
    found = faultless(SOURCE, changes)
    assert found.values("gauges.rib.stitches") == (Fraction(17) / Fraction("10.16"),) * 3
    assert found.values("rib_rows") == whole(60, 60, 60)
    assert found.quantity("rib_rows").kind == faultless(SOURCE).quantity("rib_rows").kind


def test_a_value_with_a_number_in_brackets() -> None:
    """The whole rule may be changed, or the rule of one size."""
    assert faultless(SOURCE, {("after", None): "hat_sts - 4 * k"}).values("left") == whole(72, 80, 88)
    assert faultless(SOURCE, {("after", 1): "hat_sts - 4 * k"}).values("left") == whole(64, 80, 80)


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        ("hat_stz", "80 sts", ("unknown-name", "80 sts", ())),
        ("hat_sts", "80 sts +", ("formula-not-readable", "", ())),
        ("hat_sts", "", ("formula-not-readable", "", ())),
        ("head[XL]", "53", ("size-not-known", "XL", ())),
        ("head[M", "53", ("function-used-wrongly", "53", ())),
        ("ease(2)", "53", ("function-used-wrongly", "53", ())),
        ("yoke(0)[M]", "53", ("function-used-wrongly", "53", ())),
        ("rates.edge.sts[M]", "4", ("function-used-wrongly", "4", ())),
        ("rates.edge.ribs", "4", ("unknown-name", "4", ())),
        ("rates.edge.sts", "4 rows", ("mixed-dimensions", "edge", ("S", "M", "L"))),
        ("ease", "2 cm\n3 cm", ("formula-not-readable", "3", ())),
        ("ease", "hat_sts / crown.stitches", ("circular-definition", "ease", ())),
        ("gauges.crown.stitches", "17 rows", ("mixed-dimensions", "17 rows", ("S", "M", "L"))),
    ],
)
def test_a_change_that_cannot_be_made(name: str, text: str, fault: tuple[str, str, tuple[str, ...]]) -> None:
    assert sized(SOURCE, {(name, None): text}).faults == [fault]


def test_an_unknown_name_offers_the_nearest() -> None:
    found = sized(SOURCE, {("crown.stiches", None): "17"})
    assert found.findings[0].help == ("write `crown.stitches`",)


@pytest.mark.parametrize(
    ("name", "text", "changed", "values"),
    [
        ("hat_sts", "72", "hat_sts", whole(72, 72, 72)),
        ("ease", "2", "ease", whole(2, 2, 2)),
        ("ease", "-2", "around", whole(52, 57, 62)),
        ("width", "21", "width", whole("53.34", "53.34", "53.34")),
        ("yarn", "70", "yarn", whole(70, 70, 70)),
        ("pairs", "36", "pairs", whole(36, 36, 36)),
        ("stretch", "1.35", "stretch", whole("1.35", "1.35", "1.35")),
        ("hat_sts[M]", "72", "hat_sts", whole(80, 72, 96)),
        ("body.head[M]", "53", "head", whole(50, 53, 60)),
        ("head[ m ]", "53", "head", whole(50, 53, 60)),
        ("brim.sts[L]", "12 sts", "brim.sts", whole(8, 9, 12)),
        ("after(2)", "50", "left", whole(50, 50, 50)),
        ("after(2)[M]", "50", "left", whole(64, 50, 80)),
        ("after(1)", "50", "left", whole(64, 72, 80)),
        ("yoke(2)", "hat_sts + 4", "yoke_after_3", whole(92, 100, 108)),
        ("yoke(0)", "80", "yoke_after_3", whole(104, 104, 104)),
        ("rounded(3)", "20.5", "rounded_at_3", whole("20.5", "20.5", "20.5")),
        ("rates.edge.sts", "6", "picked", whole(26, 26, 26)),
        ("edge.per", "3", "picked", whole(15, 15, 15)),
        ("rates.edge.left_over", "3 sts", "picked", whole(23, 23, 23)),
    ],
)
def test_a_bare_number_takes_the_unit_of_what_it_stands_for(
    name: str, text: str, changed: str, values: tuple[Fraction, ...]
) -> None:
    """Every dotted name can be changed, in one size and at one k; 9 ribs are 4 groups of 2 ribs and 1 rib over."""
    assert faultless(SOURCE, {name: text}).values(changed) == values


def test_every_name_of_a_pattern_can_be_changed() -> None:
    found = faultless(SOURCE).pattern
    for quantity in found.quantities:
        held = next(each for each in quantity.formulas if each)
        text = held.node.span.text if quantity.section == "gauges" else held.text
        faultless(SOURCE, {quantity.name: text})
    for number, text in (("sts", "5 sts"), ("per", "2 ribs"), ("left_over", "2 sts")):
        faultless(SOURCE, {f"rates.edge.{number}": text})


def test_the_source_itself_is_left_as_it_was() -> None:
    before = faultless(SOURCE).pattern
    again = faultless(SOURCE, {("ease", None): "5 cm"}).pattern
    assert again.source.header.definitions[2].formulas[0] is not None
    assert again.source.header.definitions[2].formulas[0].text == "0 cm"
    assert before.sizes == again.sizes
