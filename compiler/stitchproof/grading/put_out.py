"""A grading sheet as a file."""

from __future__ import annotations

from stitchproof.grading.sheet import BEHIND, NAME, SIZE, UNIT, grade_rows, rounded, state_of
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.spreadsheets.csv_table import csv_text
from stitchproof.spreadsheets.workbook import Cell, Sheet, workbook

TITLE = "Grading"
MADE_FROM = "(made from"
"""How the remark below the rows begins that says what the sheet was made from."""


def grading_sheet(sized: SizedPattern) -> Sheet:
    """The table: a name, its unit, its value in each size, then how it comes about."""
    head = (NAME, UNIT, *(f"{SIZE}{size}" for size in sized.sizes), *BEHIND)
    rows: list[tuple[Cell, ...]] = [
        (row.name, row.unit, *map(rounded, row.held), row.how, row.formula, row.rounding, row.section, row.why)
        for row in grade_rows(sized)
    ]
    identity = sized.source.header.identity
    revision = f", revision {identity.revision.text.strip()}" if identity.revision else ""
    rows.append((f"{MADE_FROM} {sized.source.name}{revision}, state {state_of(sized)})",))
    return Sheet(TITLE, head, tuple(rows), fixed=2)


def sheet_file(sized: SizedPattern, name: str) -> bytes | None:
    """The bytes of the file; None where the ending of its name is none of .xlsx and .csv. The same pattern, the same bytes."""
    sheet = grading_sheet(sized)
    if name.lower().endswith(".csv"):
        return ("\ufeff" + csv_text(sheet)).encode()
    if name.lower().endswith(".xlsx"):
        identity = sized.source.header.identity
        author = identity.designer.text.strip() if identity.designer else ""
        return workbook([sheet], f"{identity.title.text.strip()}: grading", author)
    return None
