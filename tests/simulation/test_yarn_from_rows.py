"""Yarn counted from the rows of small patterns: what is weighed, what counts as another, and where the amounts may stand.

The patterns and weights are invented; how the sum goes is derived, no source.
"""

from fractions import Fraction
from pathlib import Path

import pytest

from stitchproof import CheckOutcome, build_pattern, check_pattern, explain
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Example
from stitchproof.expansion.document import Number, Step, blocks_of, inlines_of, steps_of
from stitchproof.measures.values import Absent, Value
from stitchproof.pipeline import BuildOutcome
from stitchproof.sizing.changes import Changes
from tests.checks.smallest_pattern import write_example

ROWS = """
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
Row 2: Ch 1, hdc in each st across, turn. — 20 hdc
Rep Row 2 until there are <piece_rows> rows in all.
"""
DONE = """
## Finishing

Fasten off each piece.
"""
"""What becomes of the last stitches is not asked here."""
COUNTS = """
counts:
  piece_rows: {by_hand: [5, 9], unit: rows}
"""
WEIGHTS = """
yarn:
  weights: {sc: 0.1 g, hdc: 0.2 g}
  length: 2 m per 1 g
  length_up_to: 1 m
  ball: 10 g
"""
"""S: 20 sc and 80 hdc, 18 g. M: 20 sc and 160 hdc, 34 g."""


def worked(tmp_path: Path, yaml: str, text: str = ROWS, changes: Changes | None = None) -> CheckOutcome:
    folder = write_example(Example(yaml.lstrip("\n"), text.lstrip("\n") + DONE, None), tmp_path)
    return check_pattern(folder, changes, within=tmp_path)


def built(tmp_path: Path, yaml: str, text: str = ROWS, draft: bool = False) -> BuildOutcome:
    folder = write_example(Example(yaml.lstrip("\n"), text.lstrip("\n") + DONE, None), tmp_path)
    return build_pattern(folder, within=tmp_path, to=tmp_path / "out", draft=draft)


def values(found: CheckOutcome, name: str) -> tuple[Value, ...]:
    assert found.sized is not None
    return found.sized.scope.quantities[name].values


def findings(found: CheckOutcome) -> tuple[Diagnostic, ...]:
    """All but that of the last stitches: the pieces are shown as far as they take yarn, and not to their end."""
    return tuple(each for each in found.findings if each.page.code != "SP165")


def codes(found: CheckOutcome) -> list[str]:
    return [each.page.code for each in findings(found)]


def printed(found: CheckOutcome) -> dict[str, tuple[Value, ...]]:
    """The late numbers of the Document by their formulas."""
    assert found.document is not None
    inlines = [each for block in blocks_of(found.document) for each in inlines_of(block)]
    return {each.written: each.values for each in inlines if isinstance(each, Number) and each.late is not None}


def test_from_stitches_to_balls(tmp_path: Path) -> None:
    found = worked(tmp_path, COUNTS + WEIGHTS)
    assert codes(found) == []
    assert values(found, "yarn.grams") == (18, 34)
    assert values(found, "yarn.metres") == (3600, 6800)
    assert values(found, "yarn.balls") == (2, 4)


def test_a_sample_scales_every_size(tmp_path: Path) -> None:
    """A sample in S that weighs 19.8 g beside 18 g counted: 1.1 times; a tenth to spare: 21.78 and 41.14 g, up to 5 g."""
    sample = "  sample: {size: S, weighs: 19.8 g}\n  margin: 10%\n  round_up_to: 5 g\n"
    found = worked(tmp_path, COUNTS + WEIGHTS + sample)
    assert codes(found) == []
    assert values(found, "yarn.scale") == (Fraction(11, 10),) * 2
    assert values(found, "yarn.predicted") == (Fraction("19.8"), Fraction("37.4"))
    assert values(found, "yarn.grams") == (25, 45)


def test_every_number_may_be_a_formula(tmp_path: Path) -> None:
    yaml = (
        COUNTS
        + """
measures:
  swatch: 4 g
ratios:
  spare: 5%
yarn:
  weights: {sc: swatch / 40, hdc: {is: swatch / 20 sts, why: a swatch of 20 sts}}
  sample: {size: S, weighs: swatch * 4.5}
  margin: spare * 2
  ball: swatch * 2.5
"""
    )
    found = worked(tmp_path, yaml)
    assert codes(found) == []
    assert values(found, "yarn.grams") == (20, 38)
    assert values(found, "yarn.balls") == (2, 4)


def test_what_a_stitch_weighs_may_hang_on_its_gauge(tmp_path: Path) -> None:
    gauges = """
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}
  edge: {stitches: 18, rows: 14, over: 10 cm, stitch: sc, worked: rows, hook: 3.5 mm, state: blocked}
pieces:
  piece: {gauge: fabric, worked: rows}
yarn:
  weights: {sc: 0.1 g, sc at edge: 0.05 g}
"""
    text = """
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc

### Edge (3.5 mm hook) {gauge: edge}

Row 2: Ch 1, sc in each st across, turn. — 20 sc
"""
    found = worked(tmp_path, gauges, text)
    assert codes(found) == []
    assert values(found, "yarn.counted") == (3, 3)


def test_a_stitch_may_count_as_several_of_another(tmp_path: Path) -> None:
    """20 hdc that weigh as 1.5 sc each."""
    text = ROWS.replace("<piece_rows> rows", "2 rows")
    found = worked(tmp_path, "yarn:\n  weights: {sc: 0.1 g}\n  counts_as: {hdc: 1.5 sc}\n", text.rsplit("Rep", 1)[0])
    assert codes(found) == []
    assert values(found, "yarn.counted") == (5, 5)


def test_stitches_inside_the_scale_are_not_counted(tmp_path: Path) -> None:
    yaml = "yarn:\n  weights: {sc: 0.1 g}\n  inside_scale: [hdc, ch, sl st]\n"
    found = worked(tmp_path, yaml, ROWS.rsplit("Rep", 1)[0])
    assert codes(found) == []
    assert values(found, "yarn.counted") == (2, 2)


def test_several_yarns_each_for_its_pieces(tmp_path: Path) -> None:
    yaml = """
pieces:
  piece: {gauge: fabric, worked: rows}
  trim: {gauge: fabric, worked: rows}
yarn:
  main: {weights: {sc: 0.1 g}, pieces: [piece]}
  contrast: {weights: {sc: 0.2 g}, pieces: [trim], ball: 3 g}
"""
    text = """
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc

## Trim {trim}

::: make 2
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 10 sc
:::
"""
    found = worked(tmp_path, yaml, text)
    assert codes(found) == []
    assert values(found, "yarn.main.grams") == (2, 2)
    assert values(found, "yarn.contrast.grams") == (4, 4)
    assert values(found, "yarn.contrast.balls") == (2, 2)


def test_of_pieces_of_which_one_is_worked_the_one_that_takes_most(tmp_path: Path) -> None:
    yaml = """
pieces:
  piece: {gauge: fabric, worked: rows}
  other: {gauge: fabric, worked: rows}
yarn:
  weights: {sc: 0.1 g}
  one_of: [piece, other]
  sample: {size: S, pieces: [piece], weighs: 2.2 g}
"""
    text = """
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc

## Other {other}

Ch 31.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 30 sc
"""
    found = worked(tmp_path, yaml, text)
    assert codes(found) == []
    assert values(found, "yarn.predicted") == (Fraction("3.3"),) * 2
    assert codes(worked(tmp_path / "again", yaml.replace("pieces: [piece], ", ""), text)) == ["SP019"]


def test_a_size_that_works_none_of_it_takes_none(tmp_path: Path) -> None:
    yaml = """
pieces:
  piece: {gauge: fabric, worked: rows}
  trim: {gauge: fabric, worked: rows, sizes: [M]}
yarn:
  main: {weights: {sc: 0.1 g}, pieces: [piece]}
  contrast: {weights: {sc: 0.2 g}, pieces: [trim]}
"""
    text = """
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc

## Trim {trim}

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 10 sc
"""
    assert values(worked(tmp_path, yaml, text), "yarn.contrast.grams") == (Absent.NOT_WORKED, 2)


def test_names_of_stitches_are_those_of_the_pattern(tmp_path: Path) -> None:
    """UK double crochet is US single crochet; its half treble is the US half double."""
    uk = WEIGHTS.replace("hdc:", "htr:").replace("sc:", "dc:")
    text = ROWS.replace("hdc", "htr").replace("Sc", "Dc").replace("20 sc", "20 dc")
    found = worked(tmp_path, "terms: UK\n" + COUNTS + uk, text)
    assert values(found, "yarn.grams") == (18, 34)


def test_amounts_stand_in_materials_notes_tables_and_other_values(tmp_path: Path) -> None:
    yaml = (
        COUNTS
        + WEIGHTS.replace("weights:", "margin: 25%\n  weights:")
        + """
measures:
  spare: yarn.grams - yarn.predicted
  half: yarn.meters / 2
  large_balls: {is: yarn.grams / 100 g, round: up, unit: balls}
materials: ["Light (category 3) wool, 200 m per 100 g: <yarn.grams>, <yarn.grams / 10 g> tenths"]
finished:
  Yarn to spare: <spare>
"""
    )
    text = (
        ROWS
        + """
::: note
A half takes <half as m>.
:::

## Finishing

| balls | of |
|---|---|
| <large_balls> | 100 g |
"""
    )
    found = worked(tmp_path, yaml, text)
    assert codes(found) == []
    assert printed(found) == {
        "yarn.grams": (23, 43),
        "yarn.grams / 10 g": (Fraction("2.3"), Fraction("4.3")),
        "spare": (5, 9),
        "half": (2300, 4300),
        "large_balls": (1, 1),
    }


def test_the_rows_stay_the_same_objects(tmp_path: Path) -> None:
    """Filling numbers in works nothing again: each step is the one that was read and worked."""
    found = worked(tmp_path, COUNTS + WEIGHTS + 'materials: ["Wool (category 3), 200 m per 100 g: <yarn.grams>"]\n')
    assert found.document is not None and found.written is not None and found.worked is not None
    steps = [step for piece in found.document.pieces for step in steps_of(piece.blocks)]
    before = [read.step for read in found.written.readings]
    assert all(step is other for step, other in zip(steps, before, strict=True))
    assert all(isinstance(step, Step) for step in steps)


def test_without_amounts_the_document_is_the_one_that_was_read(tmp_path: Path) -> None:
    found = worked(tmp_path, COUNTS + WEIGHTS)
    assert found.written is not None
    assert found.document is found.written.document


def test_a_count_from_an_amount_is_judged_like_any_other(tmp_path: Path) -> None:
    """18 g are 1.8 balls of 10 g: no count. Nothing is offered, since values are tried without the rows."""
    counts = (
        COUNTS
        + "  balls: {is: yarn.grams / 10 g, unit: balls}\n  few: {is: yarn.balls, at_most: 3 balls, unit: balls}\n"
    )
    found = worked(tmp_path, counts + WEIGHTS)
    assert sorted((each.page.code, each.sizes) for each in findings(found)) == [
        ("SP001", ("S", "M")),
        ("SP038", ("M",)),
    ]
    assert all(each.alternatives == () for each in findings(found))


@pytest.mark.parametrize(
    ("yaml", "text"),
    [
        ("", ROWS + "Rep Row 2 <yarn.balls> more times.\n"),
        ("", ROWS + "::: sizes with yarn.grams > 20 g\nRow 20: Ch 1, hdc in each st across, turn. — 20 hdc\n:::\n"),
        ("", ROWS + "::: for each k in 1 to yarn.balls\nNext Row: Ch 1, hdc in each st across, turn. — 20 hdc\n:::\n"),
        ("must_hold: [{that: yarn.grams < 50 g, why: one ball}]\n", ROWS),
        ("plans: {dec: {kind: evenly in rows, from: 20 sts, times: yarn.balls, shaping: decrease}}\n", ROWS),
        ("rates: {edge: {sts: yarn.balls * 1 st, per: 2 rows}}\n", ROWS),
    ],
    ids=["a step", "a condition", "a loop", "must_hold", "a plan", "a rate"],
)
def test_no_row_hangs_on_an_amount(yaml: str, text: str, tmp_path: Path) -> None:
    found = worked(tmp_path, COUNTS + WEIGHTS + yaml, text)
    assert "SP192" in codes(found)


def test_a_value_between_passes_it_on(tmp_path: Path) -> None:
    """A count that is worked out from an amount is as late as the amount."""
    yaml = COUNTS + "  more: {is: yarn.balls * 1 row, unit: rows}\n" + WEIGHTS
    found = worked(tmp_path, yaml, ROWS + "Rep Row 2 <more> more times.\n")
    assert "SP192" in codes(found)


def test_a_row_that_is_not_read_leaves_only_its_sizes_open(tmp_path: Path) -> None:
    yaml = COUNTS + WEIGHTS + 'materials: ["Wool (category 3), 200 m per 100 g: <yarn.grams>"]\n'
    text = ROWS + "::: sizes M\nRow 10: Ch 1, wiggle across to taste, turn. — 20 hdc\n:::\n"
    found = worked(tmp_path, yaml, text)
    assert values(found, "yarn.grams") == (18, Absent.UNKNOWN)
    (told,) = [each for each in findings(found) if each.page.code == "SP195"]
    assert (told.sizes, told.piece, told.row) == (("M",), "piece", "piece/Row 10")
    outcome = built(tmp_path / "build", yaml, text)
    assert outcome.files == ()
    draft = built(tmp_path / "draft", yaml, text, draft=True)
    page = next(file for file in draft.files if file.suffix == ".html").read_text(encoding="utf-8")
    assert "18" in page and "?" in page and "34" not in page


def test_a_row_with_a_fault_is_told_once_and_leaves_the_amount_open(tmp_path: Path) -> None:
    yaml = COUNTS + WEIGHTS + 'materials: ["Wool (category 3), 200 m per 100 g: <yarn.grams>"]\n'
    found = worked(tmp_path, yaml, ROWS.replace("— 20 hdc", "— 21 hdc"))
    assert values(found, "yarn.grams") == (Absent.UNKNOWN, Absent.UNKNOWN)
    assert "SP195" not in codes(found) and len(findings(found)) == 1


def test_another_margin_may_be_tried(tmp_path: Path) -> None:
    found = worked(tmp_path, COUNTS + WEIGHTS, changes={"yarn.margin": "50%"})
    assert values(found, "yarn.grams") == (18, 34), "a margin that the pattern does not have is none to change"
    yaml = COUNTS + WEIGHTS + "  margin: 10%\n"
    assert values(worked(tmp_path / "1", yaml, changes={"yarn.margin": "50%"}), "yarn.grams") == (27, 51)
    assert values(worked(tmp_path / "2", yaml, changes={"yarn.weights.sc": "0.2 g"}), "yarn.grams") == (22, 40)
    assert codes(worked(tmp_path / "3", yaml, changes={"yarn.grams": "50 g"})) == ["SP034"]


def test_the_sum_is_told(tmp_path: Path) -> None:
    """Stitches by their weights, scale, margin and rounding, as the sum of a handbook is written."""
    sample = "  sample: {size: S, weighs: 19.8 g}\n  margin: 10%\n  round_up_to: 5 g\n"
    yaml = COUNTS + WEIGHTS + sample
    folder = write_example(Example(yaml.lstrip("\n"), ROWS.lstrip("\n"), None), tmp_path)
    told = explain("yarn.balls[M]", folder, within=tmp_path).text
    assert told.split("\n\n")[1].splitlines() == [
        "M  160 hdc × 0.2 g + 20 sc × 0.1 g = 34 g",
        "   × scale 1.1 = 37.4 g",
        "   + 10 % = 41.14 g → 45 g, up to a multiple of 5 g",
        "   ÷ 10 g = 4.5 → 5, up to a whole number",
    ]
    assert "scale     19.8 g ÷ 18 g by its stitches = 1.1" in told


@pytest.mark.parametrize(
    ("yarn", "told"),
    [
        ("{weights: {hcd: 0.1 g}}", [("SP191", "write `hdc`")]),
        ("{weights: {sc: 0.1 g, hdc: 0.2 g, half double crochet: 0.3 g}}", [("SP191", "keep one of the two")]),
        ("{weights: {sc: 0.1 g, hdc: 0.2 g}, pieces: [peice]}", [("SP033", "write `piece`")]),
        ("{weights: {sc: 0.1 g, hdc: 0.2 g}, sample: {size: XL, weighs: 5 g}}", [("SP033", "it can be: `S`, `M`")]),
        ("{weights: {sc: 0.1 g, hdc: 0.2 g}, sample: {size: S}}", [("SP019", "add `weighs:` with its value")]),
        ("{weights: {sc: 0.1 g, hdc: 0.2 g}, marginn: 10%}", [("SP017", "margin")]),
        ("{counts_as: {hdc: sc}}", [("SP019", ""), ("SP191", "")]),
        ("{weights: {sc: 0.1 g, hdc: 0.2 g}, margin: -5%}", [("SP190", "write a part of the whole, such as `10%`")]),
        (
            "{weights: {sc: 0.1, hdc: 0.2 g}}",
            [("SP190", "write what one of these stitches weighs, such as `0.0236 g`")],
        ),
        ("{weights: {sc: 0.1 g, hdc: yarn.grams / 20}}", [("SP192", "")]),
        ("5 g", [("SP018", "")]),
    ],
)
def test_faults_of_the_keys(yarn: str, told: list[tuple[str, str]], tmp_path: Path) -> None:
    found = worked(tmp_path, f"{COUNTS}yarn: {yarn}\n")
    assert [each.page.code for each in findings(found)] == [code for code, _ in told]
    for each, (_, help_text) in zip(findings(found), told, strict=True):
        assert help_text in each.help[0]
