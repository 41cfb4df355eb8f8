"""Tables as spreadsheets save them: read in every usual form, and refused where they are packed to do harm."""

from __future__ import annotations

import csv
import datetime
from fractions import Fraction
from io import BytesIO, StringIO
from zipfile import ZIP_DEFLATED, ZipFile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.spreadsheets.csv_table import csv_text, read_csv
from stitchproof.spreadsheets.read_table import read_tables
from stitchproof.spreadsheets.table import TableUnreadable, address_of, decimal_text
from stitchproof.spreadsheets.workbook import Sheet, workbook

TABLE = Sheet(
    "Numbers", ("Name", "S"), (("hat_sts", 88), ("ease", Fraction(-5, 2)), ("third", Fraction(1, 3)), ("no", None))
)


def words(content: bytes, name: str) -> list[list[str]]:
    return [[cell.words for cell in cells.values()] for cells in read_tables(content, name)[0].rows.values()]


READ = [["Name", "S"], ["hat_sts", "88"], ["ease", "-2.5"], ["third", "0.333333"], ["no"]]


def test_a_table_comes_back_as_it_was_written() -> None:
    assert words(csv_text(TABLE).encode(), "a.csv") == READ
    assert words(workbook([TABLE], "t", "a"), "a.XLSX") == READ


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_csv_as_spreadsheets_of_any_country_save_it(encoding: str, separator: str, line_end: str) -> None:
    text = line_end.join(separator.join(cells) for cells in (("Name", "S"), ("hat_sts", "88"), ("ü", '"40,5"')))
    assert words(text.encode(encoding), "a.csv") == [["Name", "S"], ["hat_sts", "88"], ["ü", "40,5"]]


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1 sts", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("http://example.org")']
)
def test_words_that_would_be_formulas_are_guarded_and_numbers_are_not(text: str) -> None:
    """OWASP, "CSV Injection": a cell that begins with = + - @, a tab or a line end is taken for a formula; a ' before it
    keeps it words. A number below zero is a number and stays one."""
    written = csv_text(Sheet("", ("Name", "S"), ((text, Fraction(-3)),)))
    record = written.removeprefix("Name,S\n")
    assert record.startswith(("'", "\"'"))
    assert record.rstrip("\n").endswith(",-3")
    assert read_csv(written.encode()).rows[2][1].words == " ".join(text.split())


WORDS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")) | st.text("=+-@＝＋－＠;,\t\"' a")


@given(st.lists(WORDS, min_size=1, max_size=5), st.sampled_from(",;\t"))
def test_no_cell_of_a_csv_begins_like_a_formula(cells: list[str], separator: str) -> None:
    """Whichever sign a spreadsheet takes for the end of a cell; the full-width signs are OWASP's too ("CSV Injection")."""
    written = csv_text(Sheet("", tuple(cells), ()))
    for cell in next(csv.reader(StringIO(written, newline=""), delimiter=separator)):
        assert not cell.lstrip().startswith(("=", "+", "-", "@", "＝", "＋", "－", "＠"))
        assert not cell.startswith(("\t", "\r", "\n"))


@given(st.lists(st.text("=+-@＝＋－＠;, ab", min_size=1).filter(str.strip), min_size=1, max_size=5))
def test_what_is_guarded_comes_back_as_it_was(cells: list[str]) -> None:
    read = read_csv(csv_text(Sheet("", ("Name", "Unit"), (tuple(cells),))).encode()).rows[2]
    assert {column: cell.value for column, cell in read.items()} == dict(enumerate(cells, start=1))


def book(**cells: str) -> bytes:
    made = openpyxl.Workbook()
    for address, value in cells.items():
        made.worksheets[0][address] = value
    held = BytesIO()
    made.save(held)
    return held.getvalue()


def test_what_a_workbook_says_of_its_cells() -> None:
    made = openpyxl.Workbook()
    tab = made.worksheets[0]
    tab["A1"], tab["B1"], tab["C1"] = "=1+1", datetime.date(2026, 3, 5), True
    tab["A2"] = 4
    tab.merge_cells("A2:B2")
    tab.column_dimensions["C"].hidden = True
    held = BytesIO()
    made.save(held)
    cells = read_tables(held.getvalue(), "a.xlsx")[0].rows
    assert (cells[1][1].is_formula, cells[1][1].value) == (True, None)  # nobody has worked it out yet
    assert cells[1][2].is_date
    assert cells[1][3].words == "TRUE"
    assert [cell.is_merged for cell in cells[2].values()] == [True, True]


def packed(**parts: bytes) -> bytes:
    held = BytesIO()
    with ZipFile(held, "w", ZIP_DEFLATED) as made:
        for name, content in parts.items():
            made.writestr(name, content)
    return held.getvalue()


REFUSED = {
    "packed to burst": (packed(sheet=b"0" * 40_000_000), "unpacks to more"),
    "too many parts": (packed(**{f"p{number}": b"" for number in range(400)}), "unpacks to more"),
    "macros": (packed(**{"xl/vbaProject.bin": b"x"}), "holds macros"),
    "entities": (packed(**{"xl/workbook.xml": b'<!DOCTYPE x [<!ENTITY a "aa">]><x>&a;</x>'}), "declares entities"),
    "the older form": (b"\xd0\xcf\x11\xe0" + b"\0" * 100, "an older form"),
    "too large": (b"0" * 5_000_001, "larger than 5 MB"),
    "no workbook": (b"Name,S\n", "is not readable as a workbook"),
    "an archive of something else": (packed(a=b"b"), "is not readable as a workbook"),
    "a cell far out": (book(A1="Name", ZZ9999="x"), "more than 5000 rows"),
}


@pytest.mark.parametrize("refused", REFUSED.values(), ids=REFUSED)
def test_what_is_refused(refused: tuple[bytes, str]) -> None:
    content, why = refused
    with pytest.raises(TableUnreadable, match=why):
        read_tables(content, "a.xlsx")


@pytest.mark.parametrize("name", ["a.ods", "a", "a.xlsm"])
def test_another_ending_is_refused(name: str) -> None:
    with pytest.raises(TableUnreadable, match="is no"):
        read_tables(b"", name)


@given(st.binary(max_size=300))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    for name in ("a.csv", "a.xlsx"):
        try:
            read_tables(content, name)
        except TableUnreadable as error:
            assert str(error)


@settings(max_examples=30)
@given(st.data())
def test_a_workbook_with_bytes_changed_is_read_or_refused(data: st.DataObject) -> None:
    content = bytearray(workbook([TABLE], "t", "a"))
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    try:
        read_tables(bytes(content), "a.xlsx")
    except TableUnreadable as error:
        assert str(error)


@pytest.mark.parametrize(("column", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (703, "AAA")])
def test_addresses(column: int, letters: str) -> None:
    assert address_of(7, column) == f"{letters}7"


@given(st.fractions(max_denominator=10**6))
def test_decimals_are_as_near_as_six_places_can_be(number: Fraction) -> None:
    assert abs(Fraction(decimal_text(number)) - number) * 2 <= Fraction(1, 10**6)
