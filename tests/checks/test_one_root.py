"""One root cause is one report: between the rules on text and numbers, and those on worked rows."""

from __future__ import annotations

from pathlib import Path

from stitchproof import check_pattern
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Example
from tests.checks.smallest_pattern import write_example

YAML = "counts:\n  body_sts: {by_hand: [20, 24], unit: sts}\n"


def found(text: str, folder: Path, yaml: str = YAML) -> tuple[Diagnostic, ...]:
    return check_pattern(write_example(Example(yaml, text, None, ()), folder), within=folder).findings


def test_a_typed_number_is_told_in_the_row_that_it_spoils(tmp_path: Path) -> None:
    """The error comes with what the warning would say; the warning alone is left where the row comes out."""
    (error,) = found(
        "Ch <body_sts + 1>.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 (25) sc\n", tmp_path
    )
    assert (error.page.code, error.sizes) == ("SP135", ("M",))
    assert "`20 (25)` is a sized number that no formula makes" in error.help[-1]


def test_a_typed_number_in_a_row_that_comes_out_is_a_warning(tmp_path: Path) -> None:
    (warning,) = found(
        "Ch <body_sts + 1>.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 (24) sc\nFasten off.\n",
        tmp_path,
    )
    assert warning.page.code == "SP054"


def test_an_accepted_number_stays_accepted_beside_the_error(tmp_path: Path) -> None:
    """What the designer has accepted is not told a second time, and the acceptance still has what it is for."""
    text = (
        "Ch <body_sts + 1>.\n::: accept SP054: kept as the sample was worked\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 (25) sc\n"
    )
    warning, error = found(text, tmp_path)
    assert (error.page.code, warning.page.code, bool(warning.accepted)) == ("SP135", "SP054", True)
    assert not any("no formula makes" in line for line in error.help)


def test_an_error_of_a_row_silences_what_follows_from_it_up_to_the_next_count(tmp_path: Path) -> None:
    """The row with an unknown word is told; so is the wrong count of a later row, after one that states its own."""
    text = (
        "Ch <body_sts + 1>.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. — <body_sts> sc\n"
        "Row 2: Ch 1, sc5tog, sc in each st to end, turn.\n"
        "Row 3: Ch 1, sc in each st across, turn. — <body_sts> sc\n"
        "Row 4: Ch 1, sc in each st across, turn. — <body_sts> sc\n"
        "Row 5: Ch 1, sc in each st across, turn. — <body_sts + 1> sc\n"
    )
    assert [(each.page.code, each.row) for each in found(text, tmp_path)] == [
        ("SP063", "piece/Row 2"),
        ("SP135", "piece/Row 5"),
    ]


def test_a_warning_in_a_row_hides_no_error_of_it(tmp_path: Path) -> None:
    """A row said for a round is a slip of words; the count that is wrong in the same line is another."""
    text = (
        "Ch <body_sts + 1>.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. — <body_sts + 2> sc\n"
        "Work straight for 2 rows, then work even for 2 rows.\n"
    )
    assert "SP135" in [each.page.code for each in found(text, tmp_path)]


def test_a_line_that_only_states_a_count_is_held_against_the_row_before(tmp_path: Path) -> None:
    """It works nothing, so it leaves nothing unworked."""
    rows = "Ch <body_sts + 1>.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. — <body_sts> sc\n"
    assert found(rows + "Check your work. — <body_sts> sc\nFasten off.\n", tmp_path / "right") == ()
    (error,) = found(rows + "Check your work. — <body_sts + 1> sc\nFasten off.\n", tmp_path / "wrong")
    assert (error.page.code, error.sizes) == ("SP135", ("S", "M"))


def test_one_habit_of_writing_is_one_report(tmp_path: Path) -> None:
    """Rounds joined without a place, each in the same words: told once, with the others beside it."""
    yaml = YAML + "pieces: {piece: {gauge: fabric, worked: joined rnds}}\n"
    text = (
        "Ch <body_sts>, join with sl st to form a ring.\n"
        "Rnd 1: Ch 1, sc in each ch around, join. — <body_sts> sc\n"
        "Rnd 2: Ch 1, sc in each st around, join. — <body_sts> sc\n"
        "Rnd 3: Ch 1, sc in each st around, join. — <body_sts> sc\nFasten off.\n"
    )
    (error,) = found(text, tmp_path, yaml)
    assert (error.page.code, error.row, len(error.related)) == ("SP045", "piece/Rnd 1", 2)
    assert "once in the notes" in error.help[0]


def test_a_sum_names_its_row_where_several_rows_come_of_one_line(tmp_path: Path) -> None:
    """Two rows of a loop have the slip, in one size or both: each sum says which row it is of."""
    yaml = YAML + "  left(k): body_sts - 2 * k\n"
    text = (
        "Ch <body_sts + 1>.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. — <body_sts> sc\n"
        "::: for each k in 1 to 2\n"
        "Dec Row <k>: Ch 1, sc2tog, sc in each of next <left(k) - 3> sts, sc2tog, turn. — <left(k)> sc\n"
        "Next Row: Ch 1, sc in each st across, turn. — <left(k)> sc\n:::\nFasten off.\n"
    )
    (error,) = found(text, tmp_path, yaml)
    assert error.page.code == "SP136"
    assert [line.expression.partition(":")[0] for line in error.sums] == ["Dec Row 1", "Dec Row 2"] * 2


def test_a_line_is_named_by_its_first_words_with_its_numbers(tmp_path: Path) -> None:
    """As the pattern prints them: a number for each size is one word."""
    text = "Ch <body_sts + 1>, join in a way of your own. — <body_sts> sc\nRow 1: Sc in each ch across.\n"
    assert [each.headline for each in found(text, tmp_path / "sized")][:1] == [
        "“Ch 21 (25), join in a …” of piece is not proved: its words cannot be read"
    ]
    alike = text.replace("body_sts", "alike")
    yaml = "counts:\n  alike: {by_hand: [20, 20], unit: sts}\n"
    assert found(alike, tmp_path / "alike", yaml)[0].headline.startswith("“Ch 21, join in a …” of piece")


def test_yarn_that_is_not_known_names_the_line_with_its_numbers(tmp_path: Path) -> None:
    yaml = (
        YAML + "yarn:\n  weights: {sc: 0.02 g}\nmaterials: ['Light (category 3) wool, 220 m per 100 g: <yarn.grams>']\n"
    )
    text = "Ch <body_sts + 1>, join in a way of your own. — <body_sts> sc\nRow 1: Sc in each ch across.\nFasten off.\n"
    (error,) = (each for each in found(text, tmp_path, yaml) if each.page.code == "SP195")
    assert error.headline.endswith("“Ch 21 (25), join in a …” of piece is not proved, and 1 more")
