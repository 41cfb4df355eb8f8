"""A row that is defined by name and worked from other lines: a fault in it is told where it is written."""

from __future__ import annotations

from pathlib import Path

from stitchproof import check_pattern
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Example
from tests.checks.smallest_pattern import write_example

BEGUN = (
    "Ch 21.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc\n"
    "Row 2: Ch 1, sc in each st across, turn. — 20 sc\n"
)


def found(text: str, folder: Path) -> tuple[Diagnostic, ...]:
    return check_pattern(write_example(Example("", BEGUN + text, None, ()), folder), within=folder).findings


def test_a_wrong_number_in_a_named_row_is_shown_where_it_stands(tmp_path: Path) -> None:
    """With the line that has it worked, as which row it was worked there, and the numbers that would fit."""
    (error,) = found(
        "Dec Row: Ch 1, sc2tog, sc in each of next 15 sts, sc2tog, turn. — 2 sts dec\n"
        "Rep Row 2, working Dec Row on row 5, until 8 rows are complete. — 18 sc\n"
        "Fasten off.\n",
        tmp_path,
    )
    assert (error.page.code, error.row) == ("SP136", "piece/Dec Row")
    assert error.primary.span.text.startswith("sc2tog")
    assert [(each.label, each.span.text[:5]) for each in error.related] == [("worked from here", "Rep R")]
    assert [line.expression for line in error.sums] == ["worked as row 5: uses 19 of 20 sts, 1 left"] * 2
    assert {line.note for line in error.sums} == {"next 16 sts for 15 (one off) would fit"}


def test_a_wrong_count_of_a_named_row_is_shown_at_the_count(tmp_path: Path) -> None:
    (error,) = found(
        "Dec Row: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn. — 4 sts dec\n"
        "Work Dec Row 3 times. — 14 sc\n"
        "Fasten off.\n",
        tmp_path,
    )
    assert (error.page.code, error.primary.span.text) == ("SP135", "4 sts dec")
    assert error.sums[0].expression.startswith("worked as row 3: the row has 2 sts fewer")


def test_a_named_row_that_came_out_once_is_told_at_the_line_that_calls_for_it_too_often(tmp_path: Path) -> None:
    """Its numbers are right: the line that has it worked on another edge is not."""
    (error,) = found(
        "Dec Row: Ch 1, sc2tog, sc in each of next 16 sts, sc2tog, turn. — 2 sts dec\nWork Dec Row twice.\nFasten off.\n",
        tmp_path,
    )
    assert error.page.code == "SP137"
    assert error.primary.span.text.startswith("Work Dec Row twice")
    assert error.related == ()


def test_a_fault_in_a_named_row_is_told_once_though_two_lines_call_for_it(tmp_path: Path) -> None:
    (error,) = found(
        "Dec Row: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn. — 3 sts dec\n"
        "Work Dec Row twice.\n"
        "Row 5: Ch 1, sc in each st across, turn. — 16 sc\n"
        "Work Dec Row twice.\n"
        "Row 8: Ch 1, sc in each st across, turn. — 12 sc\n"
        "Fasten off.\n",
        tmp_path,
    )
    assert (error.page.code, error.row) == ("SP135", "piece/Dec Row")


def test_a_number_of_times_that_is_too_large_is_found_where_one_more_would_not_end_in_time(tmp_path: Path) -> None:
    """One shaping more needs rows that are not there: by how many says nothing of the stitches."""
    (error,) = found(
        "Inc Row: Ch 1, 2 sc in next st, sc in each st to last st, 2 sc in next st, turn. — 2 sts inc\n"
        "Rep Row 2, working Inc Row on row 3, then every 3 rows 2 more times, until 11 rows are complete. — 24 sc\n"
        "Fasten off.\n",
        tmp_path,
    )
    assert error.page.code == "SP135"
    assert {line.note for line in error.sums} == {"1 more times for 2 (one off) would fit"}
