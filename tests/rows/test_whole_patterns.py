"""The rows of whole patterns: the four that ship, and a garment joined at the underarms, whose numbers are typed out."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.rows.row_tree import NotRead, Rework, RowTree, Shaping, Until
from stitchproof.rows.written_pattern import WrittenPattern
from tests.architecture.code_reader import CLONE
from tests.rows.notation import notation, read

SHIPPED = ("cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat")
NOT_READ: dict[str, str] = {}
"""Steps of the shipped patterns that are not read, by their first words, and why. There are none."""


@cache
def written(name: str) -> WrittenPattern:
    """A shipped pattern, read."""
    found = check_pattern(CLONE / "pattern_sources" / name, within=Path(CLONE)).written
    assert found is not None
    return found


@pytest.mark.parametrize("name", SHIPPED)
def test_every_step_is_read(name: str) -> None:
    unread = [
        (read.step.identity, part.reading.words)
        for read in written(name).readings
        for part in read.parts
        if isinstance(part.reading, NotRead) and part.reading.words not in NOT_READ
    ]
    assert unread == []


@pytest.mark.parametrize("name", SHIPPED)
def test_every_label_is_known(name: str) -> None:
    assert [read.step.identity for read in written(name).readings if read.step.label and read.label is None] == []


@pytest.mark.parametrize("name", SHIPPED)
def test_every_stated_count_is_found(name: str) -> None:
    """A count stands behind a dash in these patterns: each such dash has one."""
    for step in written(name).readings:
        for part in step.parts:
            if "—" in part.line.text and isinstance(part.reading, RowTree):
                assert part.reading.stated, part.line.text


@pytest.mark.parametrize("name", SHIPPED)
def test_what_is_read_leads_back_to_the_source(name: str) -> None:
    for step in written(name).readings:
        for part in step.parts:
            for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                place = part.line.place(item.at)
                assert place.span.file.path.endswith(".md")
                assert place.span.text.strip()


def test_rows_told_by_other_rows() -> None:
    """The waistcoat's schedules: a named row on next rows, on every second row, and to so many rows in all."""
    items = [
        item
        for step in written("thornhollow_waistcoat").readings
        for part in step.parts
        for item in (part.reading.items if isinstance(part.reading, RowTree) else ())
        if isinstance(item, Rework | Shaping | Until)
    ]
    assert sum(isinstance(item, Shaping) and item.row == "Dec Row" for item in items) == 2
    assert sum(isinstance(item, Rework) for item in items) >= 3


def test_facts_are_there_for_every_stitch_worked() -> None:
    facts = written("saltmarrow_yoke_top").facts
    assert facts["hdc2tog"].takes == 2
    assert facts["fhdc"].foundation
    assert facts["fphdc"].post


FOUR = ("1", "2", "3", "4")
# Row texts of a test garment of our own, with all numbers typed out, and what each is read as.
JOINED_FROM_BELOW = [
    ("Rep Row 2 until there are 120 (132, 144, 156) rows in all. (60 (66, 72, 78) ribs)",
     "again <Row 2> until rows (120,132,144,156) <rows in all> = (60,66,72,78) rib"),
    ("Ch 1, [sc in each of next 5 row-ends, 2 sc in next row-end] 20 (22, 24, 26) times, join with sl st in first sc."
     " (140 (154, 168, 182) sc)",
     "ch 1; [sc>next 5 row-end; 2 sc>next row-end]x(20,22,24,26); join>first sc = (140,154,168,182) sc"),
    ("Ch 1, hdc in each of next 74 (81, 89, 96) sts; do not join, do not fasten off. (74 (81, 89, 96) hdc)",
     'ch 1; hdc>next (74,81,89,96) st; not joined; "do not fasten off" = (74,81,89,96) hdc'),
    ("Rep Rnd 2, working Inc Rnd on rnd 5, then every 5 (4, 4, 4) rnds 7 (10, 9, 10) more times, until 48 rnds are complete."
     " Fasten off. (51 (57, 62, 64) hdc)",
     "shape <Inc Rnd> rnd 5 +(5,4,4,4)x(7,10,9,10) between Rnd 2 until rows 48 <rnds>; fasten off = (51,57,62,64) hdc"),
    ("Ch 1, 2 hdc in next st, hdc in each st to last st, 2 hdc in next st, join with sl st in first hdc. (2 sts inc)",
     "ch 1; 2 hdc>next st; hdc>each st..-1 st; 2 hdc>next st; join>first hdc = +2 st"),
    ("Ch 1, [hdc2tog, hdc in each st to 2 sts before next marker, hdc2tog] 4 times, join with sl st in first st. (8 sts dec)"
     " (206 (232, 248, 266) hdc)",
     "ch 1; [hdc2tog; hdc>each st..marker-2 st; hdc2tog]x4; join>first st = -8 st = (206,232,248,266) hdc"),
    ("Ch 1, [hdc in each of next 13 (9, 14, 13) sts, hdc2tog] 10 (16, 12, 14) times, join with sl st in first hdc."
     " (140 (160, 180, 196) hdc) The test ends here.",
     'ch 1; [hdc>next (13,9,14,13) st; hdc2tog]x(10,16,12,14); join>first hdc; "The test ends here" = (140,160,180,196) hdc'),
]  # fmt: skip
# Steps of the same garment that find places by counting from a marked stitch, or name another piece.
READ_FROM_BELOW = [
    "Sl st foundation ch and back loops of last row together, st to st.",
    "Marker A in st 1 of the half rnd.",
    "Underarm A: the st with marker A, the 3 (3, 4, 4) sts before it and the 3 (3, 4, 4) sts after it.",
    "Hdc in each of next 63 (70, 75, 82) sts of body, pm, starting in the first st after its underarm hdc in each of next 44"
    " (50, 53, 55) sts of first sleeve.",
]


@pytest.mark.parametrize(("text", "tree"), JOINED_FROM_BELOW)
def test_a_garment_joined_from_below(text: str, tree: str) -> None:
    assert notation(text, sizes=FOUR) == tree


@pytest.mark.parametrize("text", READ_FROM_BELOW)
def test_steps_that_look_to_marks_and_other_pieces_are_read(text: str) -> None:
    assert isinstance(read(text, sizes=FOUR), RowTree), text
