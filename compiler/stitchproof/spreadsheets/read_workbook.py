"""Reads the tables of an XLSX file. Bounded before anything is unpacked; nothing in it is worked out, fetched or run."""

from __future__ import annotations

import datetime
import re
import warnings
from fractions import Fraction
from io import BytesIO
from typing import TYPE_CHECKING, Any
from zipfile import BadZipFile, ZipFile

from stitchproof.spreadsheets.table import (
    LONGEST_WORDS,
    MOST_BYTES,
    MOST_COLUMNS,
    MOST_ROWS,
    Table,
    TableCell,
    TableUnreadable,
)

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

MOST_INSIDE = 300
MOST_UNPACKED = 30_000_000
MOST_CELLS = 100_000
OLD_FORM = b"\xd0\xcf\x11\xe0"
"""How a file begins that is a compound document: the form of spreadsheets before XLSX, and of encrypted ones."""
_DECLARES = re.compile(rb"<!\s*(?:DOCTYPE|ENTITY)", re.IGNORECASE)
"""No part of a workbook declares entities (ECMA-376); they are how a short text unpacks into an endless one."""


def read_workbook(content: bytes) -> tuple[Table, ...]:
    """Every table of the file, in order. Raises TableUnreadable."""
    _soundness(content)
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of what the library leaves aside: rules for cells, pictures
            typed = load_workbook(BytesIO(content), keep_links=False)
            shown = load_workbook(BytesIO(content), data_only=True, keep_links=False)
            return tuple(_table(tab, shown[tab.title]) for tab in typed.worksheets)
    except TableUnreadable:
        raise
    except Exception:  # the library raises whatever it comes upon in a file that is no workbook
        raise TableUnreadable("is not readable as a workbook") from None


def _soundness(content: bytes) -> None:
    """Refuse what is too large, packed to burst, or made to run."""
    if len(content) > MOST_BYTES:
        raise TableUnreadable(f"is larger than {MOST_BYTES // 1_000_000} MB")
    if content.startswith(OLD_FORM):
        raise TableUnreadable("is in an older form, or locked with a password; save it as XLSX without one")
    try:
        with ZipFile(BytesIO(content)) as packed:
            inside = packed.infolist()
            if len(inside) > MOST_INSIDE or sum(each.file_size for each in inside) > MOST_UNPACKED:
                raise TableUnreadable("unpacks to more than a grading sheet can hold")
            if any(each.filename.lower().endswith("vbaproject.bin") for each in inside):
                raise TableUnreadable("holds macros; save it as XLSX without them")
            if any(each.flag_bits & 1 for each in inside):
                raise TableUnreadable("is locked with a password; save it without one")
            for each in inside:
                if _DECLARES.search(packed.read(each)):
                    raise TableUnreadable("declares entities, which no workbook does")
    except (BadZipFile, OSError, NotImplementedError, EOFError, RuntimeError, ValueError):
        raise TableUnreadable("is not readable as a workbook") from None
    except Exception as error:
        if isinstance(error, TableUnreadable):
            raise
        raise TableUnreadable("is not readable as a workbook") from None


def _table(typed: Worksheet, shown: Worksheet) -> Table:
    """A tab. typed: with its formulas; shown: with what they came to when it was saved."""
    cells: dict[tuple[int, int], Any] = getattr(typed, "_cells", {})  # those that there are, however far out
    values: dict[tuple[int, int], Any] = getattr(shown, "_cells", {})
    if len(cells) > MOST_CELLS:
        raise TableUnreadable("has more cells than a grading sheet can hold")
    merged = {
        (row, column)
        for area in typed.merged_cells.ranges
        if area.size["rows"] * area.size["columns"] <= MOST_CELLS
        for row, column in area.cells
    }
    rows: dict[int, dict[int, TableCell]] = {}
    for (row, column), cell in sorted(cells.items()):
        formula = getattr(cell, "data_type", "") == "f"
        held = values.get((row, column))
        value = getattr(held, "value", None)
        if value is None and not formula and (row, column) not in merged:
            continue
        if row > MOST_ROWS or column > MOST_COLUMNS:
            raise TableUnreadable(f"has more than {MOST_ROWS} rows or {MOST_COLUMNS} columns")
        is_date = isinstance(value, datetime.date | datetime.time | datetime.timedelta)
        rows.setdefault(row, {})[column] = TableCell(
            str(cell.coordinate), _value(value), formula, (row, column) in merged, is_date
        )
    return Table(str(typed.title), rows)


def _value(value: object) -> str | Fraction | None:
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, int):
        return Fraction(value) if abs(value) < 10**12 else str(value)[:LONGEST_WORDS]
    if isinstance(value, float):
        return Fraction(repr(value)) if abs(value) < 10**12 else repr(value)
    return None if value is None else str(value)[:LONGEST_WORDS]
