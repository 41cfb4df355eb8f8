"""What a page says of its body table: both columns as published, † beside figures from memory, and which table it was."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stitchproof import build_pattern, check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.print_document import PrintProse, PrintSection, PrintSizeTable, visible_text
from stitchproof.editions.set_type import set_type
from tests.checks.smallest_pattern import write_example
from tests.editions.page_text import html_blocks

TOP = """
sizes: {names: [1, 2, 3], called_by: number}
body:
  from: women
  sizes: [XS, L, 5X]
  take: {bust: high, waist: middle}
  hips: {cm: [85, 109, 155]}
measures:
  around: bust + 8 cm
  hem: hips + 2 cm
finished:
  To fit bust: <bust>
  To fit waist: <body.waist as cm>
  Finished bust: <around>
"""
ROW = "Row 1: Sc in each st across.\n"


def sizes_section(yaml: str, text: str, folder: Path, chosen: tuple[int, ...] | None = None) -> PrintSection:
    written = check_pattern(write_example(Example(yaml, text, None), folder), within=folder).written
    assert written is not None
    document = written.document if chosen is None else choose_sizes(written.document, chosen)
    return next(section for section in set_type(document).sections if section.key == "sizes")


def table_lines(section: PrintSection) -> list[str]:
    (table,) = (block for block in section.blocks if isinstance(block, PrintSizeTable))
    return [
        " ".join((visible_text(row.label), row.unit + row.mark, *(cell.text for cell in row.cells)))
        for row in table.rows
    ]


def notes(section: PrintSection) -> list[str]:
    return [visible_text(block.inlines) for block in section.blocks if isinstance(block, PrintProse)]


def test_both_columns_print_as_published(tmp_path: Path) -> None:
    """62 in is 157.48 cm, and the Craft Yarn Council's Woman table of 02/05/18 prints 158 for the bust of 5X."""
    assert table_lines(sizes_section(TOP, ROW, tmp_path)) == [
        "To fit bust cm 76 106.5 158",
        "To fit bust in 30 42 62",
        "To fit waist cm† 60 84 125.5",
        "Finished bust cm 84 114.5 165.5",
        "Finished bust in 33¼ 45¼ 65¼",
    ]


def test_the_note_tells_table_edition_choice_own_rows_and_memory(tmp_path: Path) -> None:
    section = sizes_section(TOP, ROW, tmp_path)
    note, memory = notes(section)
    assert note.startswith("Body measurements: Women's body measurements. Source: Craft Yarn Council (CYC)")
    assert "booklet dated 02/05/18" in note
    assert "Sizes in the table: 1 is X-Small, 2 is Large, 3 is 5X." in note
    assert "the higher figure is taken for bust" in note
    assert "the middle is taken for waist" in note
    assert note.endswith("The figures for hips are the designer's own.")
    assert memory == (
        "Figures marked † are from memory: confirm them against the published table before you rely on them. "
        "This pattern uses such figures for waist."
    )
    assert "cross back" not in note, "a row that nothing uses"


def test_a_checked_table_has_no_word_of_memory(tmp_path: Path) -> None:
    """EN 420, hand sizes, was read; it gives centimetres, and its inches are worked out."""
    yaml = "sizes: {names: [7, 9]}\nbody: {from: hand}\nfinished: {To fit hand: <hand_circumference>}\n"
    section = sizes_section(yaml, ROW, tmp_path)
    assert table_lines(section) == ["To fit hand cm 17.8 22.9", "To fit hand in 7 9"]
    assert "†" not in " ".join(notes(section))


def test_inches_that_were_checked_are_not_marked_with_the_centimetres(tmp_path: Path) -> None:
    """The inches of the babies' chest were found on other pages, its centimetres are recalled."""
    yaml = "sizes: {names: [3mo, 6mo]}\naudience: [adult]\nbody: {from: babies}\nfinished: {To fit chest: <chest>}\n"
    section = sizes_section(yaml, ROW, tmp_path)
    assert table_lines(section) == ["To fit chest cm† 40.5 43", "To fit chest in 16 17"]
    assert notes(section)[-1].endswith("for chest in cm.")


@pytest.mark.parametrize(
    ("slot", "printed"), [("<bust as cm>", "158"), ("<bust as in>", "62"), ("<bust>", "158 cm / 62 in")]
)
def test_one_size_prints_its_own_figures(slot: str, printed: str, tmp_path: Path) -> None:
    yaml = TOP.replace("called_by: number", f'called_by: number, choose: "Bust {slot}."')
    section = sizes_section(yaml, ROW, tmp_path, (2,))
    assert printed in notes(section)[0]


@pytest.mark.parametrize(
    ("slot", "printed"),
    [
        ("<bust[3]>", "158 cm / 62 in"),
        ("<highest(bust) as cm>", "158 cm"),
        ("<lowest(bust) as in>", "30 in"),
        ("<highest(bust) + 0 cm as cm>", "157.5 cm"),
    ],
)
def test_a_figure_of_one_size_prints_as_published_for_all(slot: str, printed: str, tmp_path: Path) -> None:
    """By its size or as the largest or smallest it is the table's figure; in a sum it is a length like any other."""
    yaml = TOP.replace("called_by: number", f'called_by: number, choose: "Bust {slot}."')
    assert f"Bust {printed}." in notes(sizes_section(yaml, ROW, tmp_path))[0]


def test_no_table_no_note(tmp_path: Path) -> None:
    section = sizes_section("body: {bust: {cm: [86, 94]}}\nfinished: {To fit bust: <bust>}\n", ROW, tmp_path)
    assert notes(section) == []


def test_the_mark_reaches_the_page(tmp_path: Path) -> None:
    folder = write_example(Example(TOP, ROW, None), tmp_path)
    files = build_pattern(folder, to=tmp_path / "out", within=tmp_path).files
    html = next(file for file in files if file.suffix == ".html").read_text("utf-8")
    assert "To fit waist, cm †" in html_blocks(html)
    assert len(re.findall("†", html)) == 2
