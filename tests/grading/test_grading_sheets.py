"""Grading sheets: written, edited as a designer would, read back; and what is told where a cell cannot be taken as it is."""

from __future__ import annotations

import datetime
import shutil
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.command_line import main
from stitchproof.diagnostics.report import Report
from stitchproof.grading.put_out import grading_sheet, sheet_file
from stitchproof.grading.read_back import ReadBack, read_back
from stitchproof.grading.requests import set_values_of
from stitchproof.grading.sheet import grade_rows
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source_edits.edit_source import edited_source
from tests.architecture.code_reader import CLONE
from tests.source_edits.edited import pattern_with
from tests.source_edits.test_demos_edited import DEMOS, demo

HEADER = """\
dialect: 1
title: Hat
designer: =A Designer
sizes: {names: [S, M, L]}
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm}
body:
  head: {cm: [50, 54, 57], in: [19.75, 21.25, 22.5]}
measures:
  ease: 2 cm
  third: head / 3
counts:
  n: {is: (head - ease) * fabric.stitches, round: nearest, multiple: 4, why: =four sections}
  m: {by_hand: [8, 10, 14], unit: sts}
  left: n - 70 if n > 80 sts else not worked
"""


@pytest.fixture(scope="module")
def hat(tmp_path_factory: pytest.TempPathFactory) -> SizedPattern:
    return pattern_with(tmp_path_factory.mktemp("hat"), HEADER)


def csv_of(sized: SizedPattern) -> str:
    content = sheet_file(sized, "a.csv")
    assert content is not None
    return content.decode()


def xlsx_of(sized: SizedPattern, edit: Callable[[openpyxl.Workbook], None]) -> bytes:
    content = sheet_file(sized, "a.xlsx")
    assert content is not None
    made = openpyxl.load_workbook(BytesIO(content))
    edit(made)
    held = BytesIO()
    made.save(held)
    return held.getvalue()


def changes(read: ReadBack) -> dict[str, str]:
    return {f"{name}[{size}]": text for (name, size), text in read.values.items()}


def told(read: ReadBack) -> list[str]:
    return [f"{found.page.code} {found.headline}" for found in read.findings]


def test_the_sheet_has_a_row_for_each_number_and_a_column_for_each_size(hat: SizedPattern) -> None:
    sheet = grading_sheet(hat)
    assert sheet.head == (
        "Name", "Unit", "Size S", "Size M", "Size L", "Set by", "Formula", "Rounding", "Section", "Why",
    )  # fmt: skip
    rows = {row[0]: row for row in sheet.rows}
    assert rows["n"][1:5] == ("sts", 76, 84, 88)
    assert rows["n"][5:] == (
        "formula", "(head - ease) * fabric.stitches", "nearest, multiple 4", "counts", "=four sections",
    )  # fmt: skip
    assert rows["left"][2:5] == ("not worked", 14, 18)
    assert [row[:5] for row in sheet.rows][:3] == [
        ("body.head", "cm", 50, 54, 57),
        ("body.head", "in", 19.75, 21.25, 22.5),
        ("ease", "cm", 2, 2, 2),
    ]


def test_words_never_become_formulas(hat: SizedPattern) -> None:
    """OWASP, "CSV Injection"; the workbook's own tests hold the same of its cells."""
    assert ",'=four sections\n" in csv_of(hat)
    tab = openpyxl.load_workbook(BytesIO(sheet_file(hat, "a.xlsx") or b"")).worksheets[0]
    assert not [cell.coordinate for row in tab.iter_rows() for cell in row if cell.data_type == "f"]
    assert tab.freeze_panes == "C2"
    assert tab.auto_filter.ref


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("file", ["a.csv", "a.xlsx"])
def test_a_sheet_that_comes_back_as_it_went_says_nothing(name: str, file: str) -> None:
    content = sheet_file(demo(name), file)
    assert content == sheet_file(demo(name), file)
    read = read_back(content or b"", file, demo(name))
    assert (read.changed, read.findings) == ((), ())


def as_saved_elsewhere(text: str) -> str:
    """As a spreadsheet in a country of decimal commas saves it: semicolons, its own order, blank lines, a column more."""
    rows = [line.split(",") for line in text.removeprefix("\ufeff").splitlines()]
    mixed = [[row[0], *row[5:6], *row[4:1:-1], row[1], "note"] for row in rows if len(row) > 5]
    lines = [
        ";".join(each.replace(".", ",") if "," not in each and each[:1].isdigit() else each for each in row)
        for row in mixed
    ]
    return "\n\n".join([lines[0], *reversed(lines[1:])])


def test_order_columns_separators_and_decimal_commas_do_not_matter(hat: SizedPattern) -> None:
    text = as_saved_elsewhere(csv_of(hat)).replace(";8;sts", ";9,5;sts")
    read = read_back(text.encode("utf-16"), "a.csv", hat)
    assert changes(read) == {"m[0]": "9.5 sts"}
    assert told(read) == []


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        ("m,sts,8,", "m,sts,9,", {"m[0]": "9 sts"}),
        ("m,sts,8,", "m,sts, 9 sts ,", {"m[0]": "9 sts"}),
        ("m,sts,8,10", "m,sts,8.0,10", {}),
        ("m,sts,8,", "m,sts,not worked,", {"m[0]": "not worked"}),
        ("m,sts,8,", "m,sts,–,", {"m[0]": "not worked"}),
        ("head,cm,50,54", "head,cm,50,55", {"body.head[1]": "55 cm"}),
        ("head,in,19.75", "head,in,20", {"body.head[0]": "50 cm, 20 in"}),
        ("ease,cm,2,2,2", "ease,cm,3,3,3", {"ease[0]": "3 cm", "ease[1]": "3 cm", "ease[2]": "3 cm"}),
        ("third,cm,16.666667", "third,cm,16.666668", {"third[0]": "16.666668 cm"}),
    ],
)  # fmt: skip
def test_only_changed_cells_count(hat: SizedPattern, old: str, new: str, found: dict[str, str]) -> None:
    read = read_back(csv_of(hat).replace(old, new).encode(), "a.csv", hat)
    assert changes(read) == found
    assert told(read) == []


@pytest.mark.parametrize(
    ("old", "new", "finding"),
    [
        ("m,sts,8,", "m,sts,eight,", "SP223 cell C7 (m, S): `eight` is no number"),
        ("m,sts,8,", "m,sts,9 cm,", "SP223 cell C7 (m, S): `9 cm` is not in sts"),
        ("m,sts,8,", "m,sts,99999999,", "SP223 cell C7 (m, S): 99999999 is too large"),
        ("m,sts,8,", "m,sts,#REF!,", "SP223 cell C7 (m, S): its formula has no number"),
        ("m,sts,8,", "m,rows,8,", "SP223 cell B7 (m): the unit is `rows` here and `sts` in the pattern"),
        ("m,sts,8,", "mm,sts,8,", "SP223 cell A7: `mm` is no number of this pattern that a grading sheet holds"),
        ("left,sts", "m,sts", "SP223 cell A8 (m): `m` stands in A7 already"),
        ("m,sts,8,", "m,sts,,", "SP224 cell C7 (m, S): the cell is empty; the value stays as it is"),
        ("(head - ease)", "(head)", "SP224 cell G6 (n): a formula is not read from a sheet"),
        ("state ", "state 0", "SP224 cell A9: the pattern has changed since this sheet was written"),
        ("Size M", "Size XL", "SP222 the grading sheet has a column for `XL`, which is no size of this pattern"),
        ("Size M", "Medium", "SP222 the grading sheet has no column for M"),
        ("Size M", "Size L", "SP222 the grading sheet has two columns for size L"),
        ("Name,", "What,", "SP222 the grading sheet has no row with `Name` and the sizes, such as `Size S`"),
    ],
)  # fmt: skip
def test_what_cannot_be_taken_is_told_with_its_cell(hat: SizedPattern, old: str, new: str, finding: str) -> None:
    read = read_back(csv_of(hat).replace(old, new, 1).encode(), "a.csv", hat)
    assert told(read) == [finding]
    assert read.changed == ()
    assert read.findings[0].help
    (found,) = read.findings
    shown = found.primary.span.file.text
    assert not shown or new.rpartition(",")[0].split(",")[-1] in shown


def test_a_formula_in_a_cell_is_read_as_what_it_came_to(hat: SizedPattern) -> None:
    """A workbook keeps beside each formula what it came to when it was saved; here the library has not worked it out."""

    def put_in(book: openpyxl.Workbook) -> None:
        book.worksheets[0]["C7"] = "=4+5"

    content = xlsx_of(hat, put_in)
    assert told(read_back(content, "a.xlsx", hat)) == ["SP223 cell C7 (m, S): its formula has no number"]
    held = BytesIO()
    with ZipFile(BytesIO(content)) as old, ZipFile(held, "w", ZIP_DEFLATED) as new:
        for name in old.namelist():
            new.writestr(
                name,
                old.read(name)
                .replace(b"<f>4+5</f><v/>", b"<f>4+5</f><v>9</v>")
                .replace(b"<f>4+5</f><v />", b"<f>4+5</f><v>9</v>"),
            )
    read = read_back(held.getvalue(), "a.xlsx", hat)
    assert told(read) == ["SP224 cell C7 (m, S): it holds a formula; 9, what it last came to, is taken"]
    assert changes(read) == {"m[0]": "9 sts"}


def test_merged_cells_and_dates_are_no_numbers(hat: SizedPattern) -> None:
    def put_in(book: openpyxl.Workbook) -> None:
        book.worksheets[0].merge_cells("C7:D7")
        book.worksheets[0]["C8"] = datetime.date(2026, 3, 5)

    assert told(read_back(xlsx_of(hat, put_in), "a.xlsx", hat)) == [
        "SP223 cell C7 (m, S): it is merged with others",
        "SP223 cell D7 (m, M): it is merged with others",
        "SP223 cell C8 (left, S): the spreadsheet has made a date of it",
    ]


@pytest.fixture(scope="module")
def workplace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("work")
    shutil.copytree(CLONE / "pattern_sources" / "cobblewick_hat", folder / "pattern_sources" / "cobblewick_hat")
    return folder


def test_a_sheet_goes_out_is_edited_looked_at_written_and_taken_back(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(workplace)
    source = workplace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    before = source.read_bytes()
    assert main(["grade", "cobblewick_hat", "--out", "sheet.csv"]) == 0
    assert main(["grade", "cobblewick_hat", "sheet.csv", "--write"]) == 0
    assert capsys.readouterr().out == "sheet.csv\nNothing was changed in the sheet\n"
    text = (workplace / "sheet.csv").read_text("utf-8-sig")
    edited = text.replace("hat_sts,sts,64", "hat_sts,sts,72").replace("brim_sts,sts,8", "brim_sts,sts,9")
    (workplace / "edited.csv").write_text(edited, "utf-8")
    assert main(["grade", "cobblewick_hat", "edited.csv"]) == 1  # the hat is too wide for its head now
    shown = capsys.readouterr()
    assert "hat_sts[Baby]   64 → 72 sts  (cell C10)" in shown.out
    assert "brim_chain            9 (10, 11, 12, 12) sts → 10 (10, 11, 12, 12) sts" in shown.out
    assert "fails now  error SP005" in shown.out
    assert "written" not in shown.out
    assert source.read_bytes() == before
    assert main(["grade", "cobblewick_hat", "edited.csv", "--write"]) == 1
    assert "written: pattern_sources/cobblewick_hat/pattern.yaml" in capsys.readouterr().out
    assert "by_hand: {Baby: 72 sts}" in source.read_text()
    # What the formula gives anyway follows it again, so that the first sheet brings back what there was.
    assert main(["grade", "cobblewick_hat", "sheet.csv", "--write"]) == 0
    assert "SP224" in capsys.readouterr().err
    assert source.read_bytes() == before


def test_a_sheet_with_a_fault_writes_nothing(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(workplace)
    source = workplace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    before = source.read_bytes()
    assert main(["grade", "cobblewick_hat", "--out", "sheet.csv"]) == 0
    text = (workplace / "sheet.csv").read_text("utf-8-sig")
    (workplace / "edited.csv").write_text(text.replace("brim_sts,sts,8,9", "brim_sts,sts,9,nine"), "utf-8")
    assert main(["grade", "cobblewick_hat", "edited.csv", "--write"]) == 2
    assert "SP223" in capsys.readouterr().err
    assert source.read_bytes() == before


def test_a_sheet_that_may_hold_changes_is_not_written_over(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(workplace)
    (workplace / "mine.csv").write_text("Name,Size Baby\nease,3\n", "utf-8")
    assert main(["grade", "cobblewick_hat", "--out", "mine.csv"]) == 2
    assert "mine.csv is there already and says something else" in capsys.readouterr().err
    assert (workplace / "mine.csv").read_text() == "Name,Size Baby\nease,3\n"


@pytest.mark.parametrize(
    "arguments",
    [["--out", "a.ods"], [], ["a.csv", "--out", "b.csv"], ["none.csv"], ["--out", "a.csv", "--write"]],
)
def test_what_cannot_run_says_so(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], arguments: list[str]
) -> None:
    monkeypatch.chdir(workplace)
    assert main(["grade", "cobblewick_hat", *arguments]) == 2
    assert capsys.readouterr().err.startswith("stitchproof: ")


@settings(max_examples=12)
@given(st.data())
def test_what_is_typed_into_a_sheet_stands_in_the_next_one(data: st.DataObject) -> None:
    """Any cells of any demo, set to any number: the pattern that takes them gives a sheet in which they stand."""
    name = data.draw(st.sampled_from(["cobblewick_hat", "pebblewold_cowl"]))
    sized = demo(name)
    rows = [row for row in grade_rows(sized) if row.unit != "in"]
    chosen = data.draw(st.lists(st.sampled_from(rows), min_size=1, max_size=3, unique_by=lambda row: row.name))
    cells = {
        (row.name, data.draw(st.integers(0, len(sized.sizes) - 1))): data.draw(st.integers(1, 90)) for row in chosen
    }
    lines = csv_of(sized).splitlines()
    for (row, size), number in cells.items():
        at = next(
            at for at, line in enumerate(lines) if line.startswith(f"{row},") and not line.startswith(f"{row},in")
        )
        parts = lines[at].split(",")
        lines[at] = ",".join([*parts[: 2 + size], str(number), *parts[3 + size :]])
    read = read_back("\n".join(lines).encode(), "a.csv", sized)
    assert read.findings == ()
    edited = edited_source(CLONE / "pattern_sources" / name, sized, set_values_of(read, sized, "a.csv"))
    assert edited.faults == ()
    after = {row.name: row for row in grade_rows(size_pattern(edited.source, Report(sized.sizes))) if row.unit != "in"}
    assert {key: after[key[0]].held[key[1]] for key in cells} == cells
