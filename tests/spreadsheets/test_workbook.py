"""Workbooks: read back by the library that wrote them, words never formulas, the same bytes each time."""

from __future__ import annotations

import time
from fractions import Fraction
from io import BytesIO
from zipfile import ZipFile

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.spreadsheets.workbook import NOT_IN_XML, Sheet, workbook

TABLE = Sheet("Numbers", ("Name", "Value", "Raw"), (("hat_sts", 88, Fraction(143, 2)), ("rest", None, Fraction(1, 3))))


def _read(content: bytes) -> openpyxl.Workbook:
    return openpyxl.load_workbook(BytesIO(content))


def test_numbers_are_numbers_and_the_head_stays_and_filters() -> None:
    tab = _read(workbook([TABLE], "A hat", "me")).worksheets[0]
    assert [[cell.value for cell in row] for row in tab.iter_rows()] == [
        ["Name", "Value", "Raw"],
        ["hat_sts", 88, 71.5],
        ["rest", None, 0.333333],
    ]
    assert tab.freeze_panes == "B2"
    assert tab.auto_filter.ref == "A1:C3"


@pytest.mark.parametrize(
    "words",
    [
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        '=HYPERLINK("http://example.org")',
        "=cmd|' /C calc'!A0",
        "＝1+1",
        "＠SUM(A1)",
        " =1+1",
    ],
)
def test_words_that_look_like_formulas_stay_words(words: str) -> None:
    """OWASP, "CSV Injection": cells that begin with = + - @ are taken for formulas by spreadsheets."""
    content = workbook([Sheet("A", ("B",), ((words,),))], "t", "a")
    cell = _read(content).worksheets[0]["A2"]
    assert (cell.value, cell.data_type) == (words, "s")
    assert cell.quotePrefix
    inside = ZipFile(BytesIO(content)).read("xl/worksheets/sheet1.xml")
    assert b"<f>" not in inside


def test_the_same_tables_give_the_same_bytes_later(monkeypatch: pytest.MonkeyPatch) -> None:
    first = workbook([TABLE], "A hat", "me")
    monkeypatch.setattr(time, "time", lambda: 2_000_000_000.0)
    assert workbook([TABLE], "A hat", "me") == first
    assert ZipFile(BytesIO(first)).read("docProps/core.xml").count(b">1980-01-01T00:00:00Z<") == 2


@given(st.text())
def test_any_words_come_back_as_they_are(words: str) -> None:
    """But for what no XML file holds, and line ends, which XML makes alike (XML 1.0, 2.11)."""
    tab = _read(workbook([Sheet("A", ("B",), ((words,),))], words, words)).worksheets[0]
    kept = NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", words).replace("\r\n", "\n").replace("\r", "\n")
    assert (tab["A2"].value or "") == kept
