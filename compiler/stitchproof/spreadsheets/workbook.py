"""A workbook of plain tables with filters, as the bytes of an XLSX file. Words stay words: no cell is ever a formula.

The library is loaded only when a workbook is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from msgspec import Struct

from stitchproof.spreadsheets.table import FORMULA_SIGNS

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell as SheetCell
    from openpyxl.worksheet.worksheet import Worksheet

Cell = str | int | Fraction | None
"""Words, a whole number, an exact number (a decimal one in the file, to six places), or an empty cell."""

PLACES = 6
LONGEST_TITLE = 31
LONGEST_CELL = 32_767
"""Characters; limits of the file format (ECMA-376, and the makers of spreadsheets)."""
NARROWEST, WIDEST = 6, 60
EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The first time a zip file can tell. Every file in the workbook has it, so that the same tables give the same bytes."""
TIMES_TOLD = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*")
TIME = b"1980-01-01T00:00:00Z"
NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What no XML file may hold (XML 1.0, 2.2 Characters)."""


class Sheet(Struct, frozen=True):
    """A table. title: of its tab. head: the names of its columns. fixed: how many columns stay in sight."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    fixed: int = 1


def workbook(sheets: Sequence[Sheet], title: str, author: str) -> bytes:
    """The file. The head of every table stays in sight and has filters. The same tables give the same bytes."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.title, book.properties.creator = _clean(title), _clean(author)
    for sheet in sheets:
        _fill(book.create_sheet(_clean(sheet.title)[:LONGEST_TITLE]), sheet)
    held = BytesIO()
    book.save(held)
    return _without_times(held.getvalue())


def _fill(tab: Worksheet, sheet: Sheet) -> None:
    from openpyxl.utils import get_column_letter

    last = get_column_letter(len(sheet.head))
    for row, cells in enumerate((sheet.head, *sheet.rows), start=1):
        for column, value in enumerate(cells, start=1):
            if value is not None:
                _put(tab, f"{get_column_letter(column)}{row}", value)
    for column in range(len(sheet.head)):
        shown = [str(cells[column]) for cells in (sheet.head, *sheet.rows) if column < len(cells)]
        width = max((len(line) for text in shown for line in text.split("\n")), default=0) + 2
        tab.column_dimensions[get_column_letter(column + 1)].width = min(max(width, NARROWEST), WIDEST)
    tab.freeze_panes = f"{get_column_letter(sheet.fixed + 1)}2"
    tab.auto_filter.ref = f"A1:{last}{len(sheet.rows) + 1}"
    _for_paper(tab)


def _for_paper(tab: Worksheet) -> None:
    """As many pages long as it needs, one page wide, the head on each."""
    from openpyxl.worksheet.properties import PageSetupProperties

    tab.page_setup.orientation = "landscape"
    tab.page_setup.fitToHeight = 0
    tab.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    tab.print_title_rows = "1:1"


def _put(tab: Worksheet, place: str, value: str | int | Fraction) -> None:
    """Numbers as numbers, words as words: one that begins with "=" too."""
    from openpyxl.styles import Alignment, Font

    cell: SheetCell = tab[place]
    cell.alignment = Alignment(vertical="top", wrap_text=isinstance(value, str))
    if isinstance(value, str):
        cell.value = _clean(value)[:LONGEST_CELL]
        cell.data_type = "s"
        cell.quotePrefix = value.lstrip().startswith(FORMULA_SIGNS)
    elif isinstance(value, Fraction):
        cell.value = int(value) if value.denominator == 1 else round(float(value), PLACES)
    else:
        cell.value = value
    if cell.row == 1:
        cell.font = Font(bold=True)


def _clean(text: str) -> str:
    return NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", text)


def _without_times(content: bytes) -> bytes:
    """The same workbook, no file in it newer than another."""
    held = BytesIO()
    with ZipFile(BytesIO(content)) as made, ZipFile(held, "w", ZIP_DEFLATED) as kept:
        for name in sorted(made.namelist()):
            inside = made.read(name)
            if name == "docProps/core.xml":
                inside = TIMES_TOLD.sub(rb"\g<1>" + TIME, inside)
            info = ZipInfo(name, EARLIEST)
            info.compress_type = ZIP_DEFLATED
            kept.writestr(info, inside)
    return held.getvalue()
