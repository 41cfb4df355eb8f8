"""A heading inside a piece may name the gauge of its rows; what offers a count then says it in cm at that gauge."""

from fractions import Fraction

from tests.expansion.unfolded import clean, unfolded

YAML = """sizes: {names: [S, M]}
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}
  rib: {stitches: 20, rows: 15, over: 10 cm, stitch: rib, worked: rows, hook: 3.5 mm, state: relaxed}
counts:
  body_sts: {by_hand: [40, 44], unit: sts, multiple: 4}
  rib_sts: {by_hand: [40, %s], unit: sts, multiple: 4}
pieces:
  body: {gauge: fabric, worked: rows}
"""
TEXT = """## Body {body}

Row 1: Sc across. — <body_sts> sc

### Hem { gauge: rib }

Row 2: Sc across. — <rib_sts> sc

::: note
Work loosely.
:::

Row 3: Sc across.

### Finish

Row 4: Sc across. — <body_sts> sc
"""


def test_the_rows_below_a_heading_lie_at_its_gauge() -> None:
    """The next heading without a gauge goes back to that of the piece; the braces do not print."""
    found = clean(TEXT, YAML % 44, as_it_stands=True)
    assert [step.gauge for step in found.steps] == ["fabric", "rib", "rib", "fabric"]
    assert found.piece[1] == "### Hem"


def test_an_offered_count_is_told_in_cm_at_the_gauge_of_its_rows() -> None:
    """45 sts are to be 44 or 48: at 20 sts in 10 cm, half a cm less or one and a half more. On 44 sts no row has 48."""
    findings = unfolded(TEXT, YAML % 45, as_it_stands=True).findings
    (found,) = [each for each in findings if each.page.code == "SP002"]
    assert [(each.value, each.change_cm) for each in found.alternatives] == [("44 sts", Fraction(-1, 2))]
    assert found.left_out == ("M  48 sts would bring SP135 stated-count-wrong",)
    free = unfolded(
        TEXT.replace("Row 2: Sc across. —", "Row 2: In a way of your own. —"), YAML % 45, as_it_stands=True
    ).findings
    (found,) = [each for each in free if each.page.code == "SP002"]
    assert [(each.value, each.change_cm) for each in found.alternatives] == [
        ("44 sts", Fraction(-1, 2)),
        ("48 sts", Fraction(3, 2)),
    ]


def test_a_count_printed_at_two_gauges_has_no_width() -> None:
    text = TEXT.replace("Row 4: Sc across. — <body_sts> sc", "Row 4: Sc across. — <rib_sts> sc")
    findings = unfolded(text, YAML % 45, as_it_stands=True).findings
    (found,) = [each for each in findings if each.page.code == "SP002"]
    assert {each.change_cm for each in found.alternatives} == {None}


def test_a_gauge_that_is_not_there_offers_the_nearest() -> None:
    found = unfolded(TEXT.replace("gauge: rib", "gauge: rip"), YAML % 44, as_it_stands=True)
    assert found.codes == ["SP122"]
    assert found.findings[0].primary.span.text == "rip"
    assert found.findings[0].help == ("write `{gauge: rib}`",)


def test_a_gauge_of_a_heading_has_to_be_whole_as_one_of_a_piece() -> None:
    found = unfolded(TEXT, (YAML % 44).replace(", hook: 3.5 mm", ""), as_it_stands=True)
    assert found.codes == ["SP068"]
