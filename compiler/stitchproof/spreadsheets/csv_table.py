"""Tables as CSV, written so that no spreadsheet takes words for a formula, and read as spreadsheets save them."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable
from fractions import Fraction
from io import StringIO

from stitchproof.spreadsheets.table import (
    FORMULA_SIGNS,
    LONGEST_WORDS,
    MOST_BYTES,
    MOST_COLUMNS,
    MOST_ROWS,
    Table,
    TableCell,
    TableUnreadable,
    address_of,
    decimal_text,
)
from stitchproof.spreadsheets.workbook import Cell, Sheet

GUARD = "'"
SEPARATORS = (",", ";", "\t")
_SIGNS = re.escape("".join(FORMULA_SIGNS))
_LIKE_A_FORMULA = re.compile(rf"(^|;)(?=\s*[{_SIGNS}])")
"""Where a cell begins like a formula: also behind a semicolon, where a spreadsheet in a country of decimal commas splits it."""
_GUARDED = re.compile(rf"(^|;){GUARD}(?=\s*[{_SIGNS}])")


def csv_text(sheet: Sheet) -> str:
    """The table. Words that begin like a formula get a `'` before them, also those that would behind a semicolon; numbers stay
    numbers, those below zero too."""
    held = StringIO()
    writer = csv.writer(held, lineterminator="\n")
    for cells in (sheet.head, *sheet.rows):
        writer.writerow(_written(cell) for cell in cells)
    return held.getvalue()


def _written(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        words = "".join(sign if sign.isprintable() else " " for sign in cell)
        return _LIKE_A_FORMULA.sub(rf"\1{GUARD}", words)
    return decimal_text(Fraction(cell))


def read_csv(content: bytes) -> Table:
    """A table in UTF-8 or UTF-16, cells separated by commas, semicolons or tabs. Raises TableUnreadable."""
    if len(content) > MOST_BYTES:
        raise TableUnreadable(f"is larger than {MOST_BYTES // 1_000_000} MB")
    text = _decoded(content)
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(SEPARATORS, key=first.count)
    try:
        records = list(csv.reader(StringIO(text, newline=""), delimiter=separator))
    except csv.Error:
        raise TableUnreadable("is not readable as CSV") from None
    if len(records) > MOST_ROWS or max(map(len, records), default=0) > MOST_COLUMNS:
        raise TableUnreadable(f"has more than {MOST_ROWS} rows or {MOST_COLUMNS} columns")
    return Table("", {row: _cells(row, record) for row, record in enumerate(records, start=1)})


def _cells(row: int, record: Iterable[str]) -> dict[int, TableCell]:
    cells = {}
    for column, text in enumerate(record, start=1):
        held = _GUARDED.sub(r"\1", text)[:LONGEST_WORDS]
        if held.strip():
            cells[column] = TableCell(address_of(row, column), held, text.startswith("="))
    return cells


def _decoded(content: bytes) -> str:
    encoding = "utf-16" if content.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig"
    try:
        return content.decode(encoding).replace("\0", "")
    except UnicodeDecodeError:
        raise TableUnreadable("is not text in UTF-8; save it as CSV in UTF-8") from None
