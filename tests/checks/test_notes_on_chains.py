"""Which sentences about the chain at the start of a row are held against the rows, and which leave it open."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from tests.checks.smallest_pattern import write_example

ROWS = (
    "## Piece {piece}\n\nCh 21.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc\n"
    "Row 2: Ch 3, sk first st, dc in each st across, turn. — 20 dc\n"
    "Row 3: Ch 1, sc in first st, sc in each of next 19 sts, turn. — 20 sc\n"
    "Row 4: Ch 2, hdc in each st across, turn. — 20 hdc\n"
    "Fasten off.\n"
)


def codes(notes: str, folder: Path, rows: str = ROWS, yaml: str = "") -> list[tuple[str, str | None]]:
    pattern = write_example(Example(yaml, f"## Notes\n\n{notes}\n\n{rows}", None, ()), folder)
    return [(each.page.code, each.row) for each in check_pattern(pattern, within=folder).findings]


@pytest.mark.parametrize(
    ("note", "row"),
    [
        ("Ch 3 does not count as a st.", "Row 2"),
        ("Every row starts with ch 3, which never counts as a stitch; work into the first st.", "Row 2"),
        ("The count stands after the dash. The ch 3 at the start of a row is not counted as a dc.", "Row 2"),
        ("- Turning ch-3 does not count as a st throughout.", "Row 2"),
        ("Ch 1 at the beginning of each row counts as a st.", "Row 3"),
        ("Ch 1 counts as one sc.", "Row 3"),
    ],
)
def test_a_note_that_the_counts_deny_is_told(note: str, row: str, tmp_path: Path) -> None:
    assert codes(note, tmp_path) == [("SP235", f"piece/{row}")]


@pytest.mark.parametrize(
    "note",
    [
        "Ch 3 counts as a dc. Ch 1 does not count as a st.",
        "Ch 3 does not count as a st unless the row says so.",
        "On the sleeves ch 3 does not count as a st.",
        "Ch 3 does not count as a st, except in Row 2.",
        "Ch 3 does not count as a tr.",
        "Ch 4 does not count as a st.",
        # It may stand on the first stitch, with hdc in each of the others: the row has 20 either way.
        "Ch 2 counts as a st.",
    ],
)
def test_a_note_that_may_be_true_is_left(note: str, tmp_path: Path) -> None:
    assert codes(note, tmp_path) == []


def test_the_words_are_those_of_the_patterns_own_terms(tmp_path: Path) -> None:
    """A UK treble is a US double crochet."""
    rows = (
        ROWS.replace("hdc", "htr").replace("dc", "tr").replace(" sc", " dc").replace("Sc", "Dc").replace("sk", "miss")
    )
    gauge = "{stitches: 16, rows: 12, over: 10 cm, stitch: dc, worked: rows, hook: 4 mm, state: blocked}"
    yaml = f"terms: UK\ngauges:\n  fabric: {gauge}\n"
    assert codes("Ch 3 counts as a tr.", tmp_path / "right", rows, yaml) == []
    assert codes("Ch 3 does not count as a tr.", tmp_path / "wrong", rows, yaml) == [("SP235", "piece/Row 2")]


def test_a_note_of_one_piece_says_nothing_of_another(tmp_path: Path) -> None:
    other = ROWS.replace("Piece {piece}", "Other {other}").replace(
        "Row 2: Ch 3, sk first st, ", "Row 2: Ch 3 (does not count as a st), "
    )
    note = "\n::: note\nCh 3 counts as a st.\n:::\n"
    yaml = "pieces:\n  piece: {gauge: fabric, worked: rows}\n  other: {gauge: fabric, worked: rows}\n"
    with_note = ROWS.replace("{piece}\n", "{piece}\n" + note)
    assert "SP235" not in dict(codes("Work loosely.", tmp_path, with_note + other, yaml))


def test_a_note_is_not_held_against_rows_that_are_wrong_anyway(tmp_path: Path) -> None:
    """The wrong row is told; what it comes to says nothing of the note."""
    found = codes("Ch 3 does not count as a st.", tmp_path, ROWS.replace("— 20 dc", "— 19 dc"))
    assert found == [("SP135", "piece/Row 2")]
