"""A yoke in four lines of increases, its markers called by number at the divide. Common practice, no source; counts by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.stages import CheckOutcome
from tests.checks.smallest_pattern import write_example

YAML = (
    "sizes: {names: [S, L]}\ncounts:\n  neck: {by_hand: [71, 83], unit: sts}\n  front: {by_hand: [12, 14], unit: sts}\n"
)
YAML += "  sleeve: {by_hand: [10, 12], unit: sts}\n  back: {by_hand: [23, 27], unit: sts}\n"
YOKE = """
Ch <neck + 1>.
Row 1 (WS): Sc in 2nd ch from hook and in each ch across, turn. — <neck> sc
Row 2 (RS): Ch 1, sc in each of next <front> sts, pm, sc in next st, pm, sc in each of next <sleeve> sts, pm, sc in next st,
  pm, sc in each of next <back> sts, pm, sc in next st, pm, sc in each of next <sleeve> sts, pm, sc in next st, pm,
  sc in each of next <front> sts, turn. — <neck> sc
Row 3: Ch 1, *sc in each st to 1 st before marker, 2 sc in next st, sl m, sc in next st, sl m, 2 sc in next st;
  rep from * 3 more times, sc in each st to end, turn. — <neck + 8> sc
Row 4: Ch 1, sc in each st across, slipping markers as you come to them, turn. — <neck + 8> sc
Rows 5 to 8: Rep Rows 3 and 4 twice more. — <neck + 24> sc
"""
DIVIDE = "Row 9: Ch 1, sc in each st to {first}, remove marker, ch 6, {skip}, sc in each st to 5th marker, ch 6, "
DIVIDE += "sk sts to {last}, sc in each st to end. Fasten off. — <2 * (front + 3) + back + 6> sc, 12 ch\n"


def worked(divide: str, folder: Path) -> CheckOutcome:
    return check_pattern(write_example(Example(YAML, YOKE + divide, None, ()), folder), within=folder)


@pytest.mark.parametrize("last", ["8th marker", "last marker"])
@pytest.mark.parametrize(
    "skip", ["sk all sts to 4th marker", "sk sts to 4th marker", "sk sts to marker, sk sts to marker, sk sts to marker"]
)
@pytest.mark.parametrize("first", ["first marker", "next marker", "marker"])
def test_markers_are_counted_from_the_beginning_of_the_row(first: str, skip: str, last: str, tmp_path: Path) -> None:
    """Each front has its stitches and one more from each of three rows of increases; the back one more at both edges."""
    outcome = worked(DIVIDE.format(first=first, skip=skip, last=last), tmp_path)
    assert [found.headline for found in outcome.findings] == []
    assert outcome.proof is not None and outcome.proof.whole.not_read == 0


def test_a_marker_that_lies_behind_is_not_gone_to(tmp_path: Path) -> None:
    (error,) = worked(
        DIVIDE.format(first="2nd marker", skip="sk sts to first marker", last="last marker"), tmp_path
    ).findings
    assert error.page.code == "SP141"


def test_a_marker_that_is_removed_is_not_met_again(tmp_path: Path) -> None:
    """The row after the divide comes to the 2nd marker first: it is the one behind the skipped sleeve."""
    divide = "Row 9: Ch 1, sc in each st to marker, remove marker, sc in each st to end, turn.\n"
    divide += "Row 10: Ch 1, sc in each st to 7th marker, sc in each st to 8th marker, sc in each st to end, turn. Fasten off.\n"
    (error,) = worked(divide, tmp_path).findings
    assert error.page.code == "SP141"
