"""Named values: given by hand or by formula, grouped, cast to a unit, rounded to a multiple, kept within bounds."""

from fractions import Fraction

import pytest

from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT
from stitchproof.measures.rounding import Multiple
from stitchproof.measures.values import Absent
from tests.sizing.written_pattern import faultless, sized

ALL = ("S", "M", "L")
SIZES = "sizes: {names: [S, M, L]}\n"


def whole(*numbers: int | str) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for number in numbers)


@pytest.mark.parametrize(
    ("written", "values"),
    [
        ("12 sts", whole(12, 12, 12)),
        ("[12 sts, 14 sts, 16 sts]", whole(12, 14, 16)),
        ("[12 sts, 14, 16]", whole(12, 14, 16)),
        ("[12, 14, 16 sts]", whole(12, 14, 16)),
        ("{by_hand: [12, 14, 16], unit: sts}", whole(12, 14, 16)),
        ("{by_hand: [12 sts, not worked, 16 sts]}", (Fraction(12), Absent.NOT_WORKED, Fraction(16))),
        ("[base, base + 2, 2 * base]", whole(10, 12, 20)),
        ("[0, base, 0 sts]", whole(0, 10, 0)),
    ],
)
def test_by_hand_and_by_formula(written: str, values: tuple[object, ...]) -> None:
    found = faultless(f"{SIZES}counts:\n  base: 10 sts\n  x: {written}\n")
    assert found.values("x") == values
    assert found.quantity("x").kind == Kind(STITCHES, "sts")
    assert found.quantity("x").by_hand == ("[" in written)


@pytest.mark.parametrize(
    ("numbers", "given"), [("12 sts", 1), ("12 sts, 14 sts", 2), ("1 sts, 2 sts, 3 sts, 4 sts", 4)]
)
def test_a_wrong_number_of_values(numbers: str, given: int) -> None:
    """One report, and what is worked out from it stays silent: which size a number belongs to cannot be told."""
    right = "y: [1 sts, 2 sts, 3 sts]"
    found = sized(f"{SIZES}counts:\n  {right}\n  x: [{numbers}]\n  twice: x * 2\n  f(k): [{numbers}]\n  g: f(1) + x\n")
    assert [fault[:2] for fault in found.faults] == [("wrong-number-of-values", f"[{numbers}]")] * 2
    assert found.findings[0].headline == f"x has {given} value{'s' * (given > 1)} for 3 sizes"
    for name in ("x", "twice", "g"):
        assert found.values(name) == (Absent.UNKNOWN,) * 3


@pytest.mark.parametrize(
    ("sizes", "found"),
    [
        ("{names: [S, L]}", ("wrong-number-of-values", "S, L")),
        ("{names: [S, L], groups: [2]}", ("wrong-number-of-values", "S, L")),
        ("{names: [S, M, S], groups: [2]}", ("key-written-twice", "S")),
    ],
)
def test_a_size_dropped_or_named_twice_is_one_fault(sizes: str, found: tuple[str, str]) -> None:
    """All lists agree with one another, and so do the brackets: it is the names of the sizes that are wrong."""
    lists = "x: [1 sts, 2 sts, 3 sts]\n  y: [4 sts, 5 sts, 6 sts]\n  twice: x * 2\n"
    assert [fault[:2] for fault in sized(f"sizes: {sizes}\ncounts:\n  {lists}").faults] == [found]


def test_groups_give_dotted_names() -> None:
    found = faultless("""
        counts:
          brim:
            rows: 12 rows
            edge:
              sts: 8 sts
          total: brim.edge.sts + 2
    """)
    assert [quantity.name for quantity in found.pattern.quantities if quantity.section == "counts"] == [
        "brim.rows",
        "brim.edge.sts",
        "total",
    ]
    assert found.values("total") == whole(10, 10)


def test_short_names_of_the_body_and_of_gauges() -> None:
    found = faultless("""
        body:
          head: {cm: [50, 55]}
        counts:
          a: {is: head * fabric.stitches, round: nearest}
          b: {is: body.head * gauges.fabric.stitches, round: nearest}
    """)
    assert found.values("a") == found.values("b") == whole(80, 88)
    assert found.values("head") is found.values("body.head")
    assert found.quantity("a").inputs == found.quantity("b").inputs == ("body.head", "gauges.fabric.stitches")


@pytest.mark.parametrize(
    ("yaml", "shown"),
    [
        ("measures:\n  x: 5 cm\ncounts:\n  x: 5 sts\n", "x"),
        ("body:\n  head: {cm: [50, 55]}\ncounts:\n  body:\n    head: 5 sts\n", "head"),
        ("body:\n  head: {cm: [50, 55]}\nmeasures:\n  head: 5 cm\n", "head"),
        ("counts:\n  fabric:\n    stitches: 5 sts\n", "stitches"),
        ("measures:\n  max: 5 cm\n", "max"),
        ("counts:\n  if: 5 sts\n", "if"),
        ("counts:\n  worked: 5 sts\n", "worked"),
        ("rates:\n  x: {sts: 1, per: 1 row}\ncounts:\n  x: 5 sts\n", "x"),
        ("rates:\n  e: {sts: 1, per: 1 row}\ncounts:\n  rates:\n    e: 5 sts\n", "e"),
    ],
)
def test_a_name_that_is_taken(yaml: str, shown: str) -> None:
    """The first stays what it is; nothing else is reported."""
    found = sized(yaml)
    assert [fault[:2] for fault in found.faults] == [("name-not-usable", shown)]
    if "head" in yaml:
        assert found.values("body.head") == whole(50, 55)


@pytest.mark.parametrize(
    ("written", "kind", "value"),
    [
        ("{is: 20 sts / 8 sts, unit: times}", Kind(PLAIN, "times"), "2.5"),
        ("{is: 12, unit: rnds}", Kind(ROWS, "rnds"), 12),
        ("{is: 8 ribs * 2, unit: rows}", Kind(ROWS, "rows"), 16),
        ("{is: 25 ribs / 2, unit: groups, round: down}", Kind(PLAIN, "groups"), 12),
        ("{is: 12 rows, unit: rnds}", Kind(ROWS, "rnds"), 12),
        ("{is: 4, unit: in}", Kind(LENGTH, "in"), "10.16"),
        ("{is: 4 cm, unit: in}", Kind(LENGTH, "in"), 4),
        ("{is: 1.5, unit: oz}", Kind(WEIGHT, "oz"), Fraction("1.5") * Fraction("28.349523125")),
        ("{in: [4, 4]}", Kind(LENGTH, "in"), "10.16"),
        ("{in: [4, 10.16 cm]}", Kind(LENGTH, "in"), "10.16"),
    ],
)
def test_a_plain_number_becomes_a_number_of_the_stated_unit(
    written: str, kind: Kind, value: int | str | Fraction
) -> None:
    """What measures already is shown in the unit and stays what it is."""
    found = faultless(f"measures:\n  x: {written}\n")
    assert found.quantity("x").kind == kind
    assert found.values("x") == (Fraction(value),) * 2


@pytest.mark.parametrize(
    ("section", "written", "fault"),
    [
        ("measures", "38", ("missing-unit", "38")),
        ("counts", "12", ("missing-unit", "12")),
        ("measures", "[52 cm, 56]", ("missing-unit", "56")),
        ("measures", "[52, 56 cm]", ("missing-unit", "52")),
        ("measures", "[52 cm, 8 sts]", ("mixed-dimensions", "8 sts")),
        ("counts", "[8 sts, 9 rows]", ("mixed-dimensions", "9 rows")),
        ("counts", "{is: 40 ribs, unit: cm}", ("mixed-dimensions", "40 ribs")),
        ("counts", "{is: 4 cm, unit: sts}", ("mixed-dimensions", "4 cm")),
        ("counts", "{is: 4, unit: ells}", ("word-not-known", "ells")),
        ("counts", "{is: 4 sts, round: closest}", ("word-not-known", "closest")),
        ("counts", "{is: 4 sts, round: up, multiple: 0}", ("word-not-known", "0")),
        ("counts", "{is: 4 sts, round: up, multiple: 3 cm}", ("mixed-dimensions", "3 cm")),
        ("counts", "{is: 4 sts, round: up, multiple: 4 plus 2 rows}", ("mixed-dimensions", "2 rows")),
        ("counts", "{is: 4 sts, at_least: 6 cm}", ("mixed-dimensions", "6 cm")),
        ("measures", "{is: 4 cm, at_most: 6}", ("missing-unit", "6")),
        ("measures", "{is: 4 cm, round: up, multiple: 6}", ("missing-unit", "6")),
        ("counts", "{is: 4 sts, gauge: fabrik}", ("word-not-known", "fabrik")),
        ("counts", "3 > 2", ("mixed-dimensions", "3 > 2")),
    ],
)
def test_a_value_whose_kind_does_not_fit(section: str, written: str, fault: tuple[str, str]) -> None:
    """One report, and the name stays silent where it is used."""
    found = sized(f"{section}:\n  x: {written}\n  y: x\n")
    assert [each[:2] for each in found.faults] == [fault]


@pytest.mark.parametrize(
    ("rounding", "values"),
    [
        ("round: nearest", whole(63, 66, 68)),
        ("round: up", whole(63, 66, 69)),
        ("round: down", whole(62, 65, 68)),
        ("round: 'nearest, half down'", whole(62, 66, 68)),
        ("round: nearest, multiple: 8", whole(64, 64, 72)),
        ("round: nearest, multiple: 4 plus 2", whole(62, 66, 70)),
        ("round: nearest, multiple: 2 plus 1", whole(63, 65, 69)),
        ("round: nearest, multiple: repeat_sts plus edge_sts", whole(62, 68, 68)),
        ("round: up, multiple: 8 sts", whole(64, 72, 72)),
        ("multiple: 8", whole("62.5", "65.6", "68.4")),
    ],
)
def test_rounding_and_multiples(rounding: str, values: tuple[Fraction, ...]) -> None:
    """A multiple may be a name that stands further down; without a rounding it is only judged."""
    found = faultless(
        f"""
        {SIZES}
        measures:
          around: [62.5 cm, 65.6 cm, 68.4 cm]
        counts:
          x: {{is: around * 1 st per cm, {rounding}}}
          edge_sts: 2 sts
          repeat_sts: 6 sts
    """.replace("        ", "")
    )
    assert found.values("x") == values
    assert found.quantity("x").raw == whole("62.5", "65.6", "68.4")


def test_the_multiple_of_a_length_is_in_the_stated_unit() -> None:
    found = faultless(
        "measures:\n  x: {is: 143, unit: m, round: up, multiple: 10}\n  y: {is: 41, unit: g, round: up, multiple: 5}\n"
    )
    assert found.values("x") == whole(15_000, 15_000)
    assert found.quantity("x").multiples == (Multiple(Fraction(1000)),) * 2
    assert found.values("y") == whole(45, 45)


def test_a_multiple_may_differ_by_size() -> None:
    found = faultless(
        f"{SIZES}counts:\n  rep: [6 sts, 8 sts, not worked]\n  x: {{is: 20 sts, round: up, multiple: rep}}\n"
    )
    assert found.values("x") == whole(24, 24, 20)


def test_bounds_per_size() -> None:
    """A bound may be worked out from the value itself: it changes nothing."""
    found = faultless(
        f"{SIZES}counts:\n  x: {{is: 20 sts, at_least: low, at_most: twice}}\n  low: [1 st, 2 sts, 0]\n  twice: 2 * x\n"
    )
    assert found.quantity("x").at_least == whole(1, 2, 0)
    assert found.quantity("x").at_most == whole(40, 40, 40)
    assert found.quantity("low").at_least == (Absent.UNKNOWN,) * 3


@pytest.mark.parametrize(
    ("over", "stitches", "fault"),
    [
        ("10", "16", ("missing-unit", "10")),
        ("10 g", "16", ("mixed-dimensions", "16")),
        ("10 cm", "16 rows", ("mixed-dimensions", "16 rows")),
        ("0 cm", "16", ("division-by-zero", "0 cm")),
        ("10 cm", "16 +", ("formula-not-readable", "")),
        ("10 +", "16", ("formula-not-readable", "")),
    ],
)
def test_a_gauge_counts_stitches_over_a_length(over: str, stitches: str, fault: tuple[str, str]) -> None:
    """One report, where the gauge stands; nothing that uses it says more."""
    gauge = f"{{stitches: {stitches}, over: {over}, stitch: sc, worked: rows, hook: 4 mm, state: blocked}}"
    found = sized(f"gauges:\n  fabric: {gauge}\ncounts:\n  x: {{is: 50 cm * fabric.stitches, round: nearest}}\n")
    assert [each[:2] for each in found.faults] == [fault]


@pytest.mark.parametrize(
    ("rate", "fault"),
    [
        ("{sts: 5 rows, per: 2 ribs}", ("mixed-dimensions", "e")),
        ("{sts: 5, per: 2 cm}", ("mixed-dimensions", "e")),
        ("{sts: 5, per: 2}", ("function-used-wrongly", "2")),
        ("{sts: 0, per: 2 ribs}", ("function-used-wrongly", "e")),
        ("{sts: 5, per: 0 ribs}", ("function-used-wrongly", "e")),
        ("{sts: 5, per: 1.5 ribs}", ("function-used-wrongly", "e")),
        ("{sts: 5, per: 2 ribs, left_over: 3 cm}", ("mixed-dimensions", "3 cm")),
        ("{sts: 5, per: 2 ribs, left_over: -1}", ("function-used-wrongly", "-1")),
        ("{sts: 5, per: 2 ribs, along: fabrik}", ("word-not-known", "fabrik")),
    ],
)
def test_a_rate_is_stitches_per_ribs_or_rows(rate: str, fault: tuple[str, str]) -> None:
    found = sized(f"rates:\n  e: {rate}\ncounts:\n  x: edge_for(e, 9 sts) + 1\n")
    assert [each[:2] for each in found.faults] == [fault]


@pytest.mark.parametrize(
    ("yaml", "circle"),
    [
        ("counts:\n  a: a + 1 sts\n", "a → a"),
        ("counts:\n  a: b + 1\n  b: c + 1\n  c: a - 2\n  d: a + 1\n", "a → b → c → a"),
        ("counts:\n  d: a\n  c: a - 2\n  a: b\n  b: c\n", "c → a → b → c"),
        ("counts:\n  a: b\n  b: a\n  c: d\n  d: c\n", "a → b → a"),
        ("counts:\n  a: {is: 9 sts, round: up, multiple: b}\n  b: a / 2\n", "a → b → a"),
        ("counts:\n  f(k): f(k - 1) + 4 sts\n", "f → f"),
        ("counts:\n  f(k): {is: f(k - 2) + 4 sts, start: 1 st}\n", "f → f"),
        ("counts:\n  f(k): {is: f(k) + 4 sts, start: 1 st}\n", "f → f"),
        ("counts:\n  f(k): {is: f(k - 1) + 4 sts, start: f(3)}\n", "f → f"),
        ("counts:\n  f(k): {is: f(k - 1) + g(k), start: 1 st}\n  g(k): f(k - 1)\n", "f → g → f"),
        ("body:\n  f(k): {is: f(k) + 4 cm, start: 1 cm}\n", "body.f → body.f"),
    ],
)
def test_a_circle_is_reported_once(yaml: str, circle: str) -> None:
    """From the name that stands first, with every name it goes through; what uses one of them is silent."""
    found = sized(yaml)
    assert {fault[0] for fault in found.faults} == {"circular-definition"}
    assert found.findings[0].headline.endswith(f"is worked out from itself: {circle}")
    assert len(found.findings) == (2 if "d: c" in yaml else 1)


def test_of_circles_that_share_a_name_the_first_written_is_reported() -> None:
    """The order in the file decides, and not the order in which a machine keeps a set of names."""
    others = "bcdefg"
    lines = "".join(f"  {name}: a\n" for name in others)
    found = sized(f"counts:\n  a: {' + '.join(others)}\n{lines}")
    assert [each.headline for each in found.findings] == ["a is worked out from itself: a → b → a"]
