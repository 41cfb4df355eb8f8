"""A grading sheet that comes back: which cells hold another number than the pattern, and what about it cannot be taken."""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.nearest import nearest
from stitchproof.grading.faults.cell_not_usable import cell_not_usable
from stitchproof.grading.faults.cell_read_with_care import cell_read_with_care
from stitchproof.grading.faults.sheet_not_readable import sheet_not_readable
from stitchproof.grading.found_table import FoundTable, found_table
from stitchproof.grading.put_out import MADE_FROM
from stitchproof.grading.sheet import FORMULA, GradeRow, Held, grade_rows, rounded, state_of
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import Absent
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.spreadsheets.read_table import read_tables
from stitchproof.spreadsheets.table import TableCell, TableUnreadable, decimal_text

LARGEST = 1_000_000
_NUMBER = re.compile(
    r"(?P<number>[-+\N{MINUS SIGN}]?[0-9]{1,9}(?:[.,][0-9]{1,9})?|[-+\N{MINUS SIGN}]?[.,][0-9]{1,9})\s*(?P<unit>[^\W\d]\w*)?"
)
NOT_WORKED = ("not worked", "-", "\N{EN DASH}", "\N{EM DASH}")


class ChangedCell(Struct, frozen=True):
    """A cell with another number. size: its index. old, new: in the row's unit, as text."""

    name: str
    size: int
    size_name: str
    unit: str
    old: str
    new: str
    address: str


class ReadBack(Struct, frozen=True):
    """What a sheet says. values: by name and size, the text of each value that is to change."""

    changed: tuple[ChangedCell, ...]
    values: dict[tuple[str, int], str]
    findings: tuple[Diagnostic, ...]


def read_back(content: bytes, shown: str, sized: SizedPattern) -> ReadBack:
    """shown: the file as the user sees it; its ending says what it is."""
    try:
        tables = read_tables(content, shown)
    except TableUnreadable as error:
        return ReadBack((), {}, (sheet_not_readable(shown, str(error), "save it anew as .xlsx or .csv"),))
    table = found_table(tables, shown, sized)
    if isinstance(table, Diagnostic):
        return ReadBack((), {}, (table,))
    reader = _Reader(table, sized)
    for number in table.rows:
        reader.row(number)
    return ReadBack(tuple(reader.changed), reader.values(), tuple(reader.findings))


class _Reader:
    """Goes over the rows."""

    def __init__(self, table: FoundTable, sized: SizedPattern) -> None:
        self.table, self.sized = table, sized
        self.known = {(row.name, row.unit): row for row in grade_rows(sized)}
        self.names = {name for name, _ in self.known}
        self.seen: dict[tuple[str, str], str] = {}
        self.changed: list[ChangedCell] = []
        self.findings: list[Diagnostic] = []

    def row(self, number: int) -> None:
        name_cell = self.table.cell(number, self.table.name_column)
        name = name_cell.words if name_cell else ""
        if name_cell is None or not name:
            return
        if name.startswith("("):
            self.remark(name_cell)
            return
        row = self.row_called(number, name_cell)
        if row is None:
            return
        if (row.name, row.unit) in self.seen:
            before = self.seen[row.name, row.unit]
            self.refuse(name_cell, name, f"`{name}` stands in {before} already", "keep one of the two rows")
            return
        self.seen[row.name, row.unit] = name_cell.address
        self.told_columns(number, row)
        for size, column in enumerate(self.table.size_columns):
            cell = self.table.cell(number, column)
            self.value(row, size, cell, number, column)

    def row_called(self, number: int, name_cell: TableCell) -> GradeRow | None:
        """The row of the pattern that a name and its unit mean; None where there is none (reported)."""
        name = name_cell.words
        unit_cell = self.table.cell(number, self.table.unit_column) if self.table.unit_column else None
        unit = unit_cell.words if unit_cell else ""
        units = [each for known, each in self.known if known == name]
        if not units:
            near = nearest(name, sorted(self.names))
            help_text = f"write `{near}`" if near else "write the names as they stand in pattern.yaml"
            self.refuse(name_cell, "", f"`{name}` is no number of this pattern that a grading sheet holds", help_text)
            return None
        if unit in units or (not unit and len(units) == 1):
            return self.known[name, unit if unit in units else units[0]]
        if not unit and unit_cell is None:
            return self.known[name, units[0]]
        what = f"the unit is `{unit}` here and `{units[0] or 'none'}` in the pattern"
        help_text = "leave the unit, and write the numbers in it; change the unit itself in pattern.yaml"
        self.refuse(unit_cell or name_cell, name, what, help_text)
        return None

    def remark(self, cell: TableCell) -> None:
        state = re.search(r"state (\w+)\)", cell.words)
        if cell.words.startswith(MADE_FROM) and state and state[1] != state_of(self.sized):
            what = "the pattern has changed since this sheet was written"
            help_text = "look at each change below: it may be a number of the older state"
            self.findings.append(cell_read_with_care(self.table.span(cell.address), cell.address, "", what, help_text))

    def told_columns(self, number: int, row: GradeRow) -> None:
        """A formula that was changed in the sheet is not read, and that is said."""
        column = self.table.told.get(FORMULA)
        cell = self.table.cell(number, column) if column else None
        if cell and cell.words and cell.words.lstrip("'") != row.formula:
            what = "a formula is not read from a sheet"
            self.care(cell, row.name, what, "change the formula in pattern.yaml")

    def value(self, row: GradeRow, size: int, cell: TableCell | None, number: int, column: int) -> None:
        old, name = rounded(row.held[size]), self.sized.sizes[size]
        about = f"{row.name}, {name}"
        if (
            cell is None
            or (cell.value is None and not cell.is_formula and not cell.is_merged)
            or not (cell.words or cell.is_formula or cell.is_merged)
        ):
            if old is not None:
                address = self.table.address(number, column)
                where = self.table.span(address)
                what = "the cell is empty; the value stays as it is"
                help_text = "write `not worked` where this size does without"
                self.findings.append(cell_read_with_care(where, address, about, what, help_text, (name,)))
            return
        if cell.is_merged:
            self.refuse(cell, about, "it is merged with others", "take the cells apart, one number in each", (name,))
            return
        new = self.number(row, cell, about, name)
        if new is None or new == old:
            return
        if cell.is_formula:
            what = f"it holds a formula; {_text(new)}, what it last came to, is taken"
            self.care(cell, about, what, "write the number itself where another is meant", (name,))
        self.changed.append(ChangedCell(row.name, size, name, row.unit, _text(old), _text(new), cell.address))

    def number(self, row: GradeRow, cell: TableCell, about: str, size: str) -> Held:
        """What a cell says, in the row's unit; None where that is no value (reported)."""
        if isinstance(cell.value, Fraction):
            return self.bounded(rounded(cell.value), cell, about, size)
        if cell.is_date:
            self.refuse(
                cell, about, "the spreadsheet has made a date of it", "write the number as words, `'3.5`", (size,)
            )
            return None
        if (cell.is_formula and not (cell.value or "").strip()) or cell.words.startswith("#"):
            self.refuse(cell, about, "its formula has no number", "write the number itself", (size,))
            return None
        if cell.words.lower() in NOT_WORKED:
            return Absent.NOT_WORKED.value
        typed = _NUMBER.fullmatch(cell.words)
        if typed is None:
            self.refuse(cell, about, f"`{cell.words[:40]}` is no number", "write a number, or `not worked`", (size,))
            return None
        number = Fraction(typed["number"].replace("\N{MINUS SIGN}", "-").replace(",", ".").lstrip("+"))
        unit = typed["unit"]
        if unit and not _same(unit, row.unit):
            what = f"`{cell.words[:40]}` is not in {row.unit or 'plain numbers'}"
            self.refuse(cell, about, what, f"write it in {row.unit}" if row.unit else "leave the unit out", (size,))
            return None
        return self.bounded(rounded(number), cell, about, size)

    def bounded(self, number: Held, cell: TableCell, about: str, size: str) -> Held:
        if isinstance(number, Fraction) and abs(number) > LARGEST:
            self.refuse(cell, about, f"{_text(number)} is too large", f"write a number up to {LARGEST}", (size,))
            return None
        return number

    def values(self) -> dict[tuple[str, int], str]:
        """What is to change, by name and size; of a measure in cm and in inches both columns where the second was changed."""
        found: dict[tuple[str, int], str] = {}
        columns = {name for name, unit in self.known if unit == "in" and (name, "cm") in self.known}
        new = {(each.name, each.size, each.unit): each.new for each in self.changed}
        for each in self.changed:
            key = each.name, each.size
            if each.name not in columns or each.new == Absent.NOT_WORKED.value:
                found[key] = f"{each.new} {each.unit}".strip() if each.new != Absent.NOT_WORKED.value else each.new
                continue
            cm = new.get((*key, "cm"))
            inches = new.get((*key, "in"))
            held = _text(rounded(self.known[each.name, "cm"].held[each.size]))
            found[key] = f"{cm} cm" if inches is None else f"{cm or held} cm, {inches} in"
        return found

    def refuse(self, cell: TableCell, about: str, message: str, help_text: str, sizes: tuple[str, ...] = ()) -> None:
        span = self.table.span(cell.address)
        self.findings.append(cell_not_usable(span, cell.address, about, message, help_text, sizes))

    def care(self, cell: TableCell, about: str, message: str, help_text: str, sizes: tuple[str, ...] = ()) -> None:
        span = self.table.span(cell.address)
        self.findings.append(cell_read_with_care(span, cell.address, about, message, help_text, sizes))


def _text(held: Held) -> str:
    return decimal_text(held) if isinstance(held, Fraction) else held or "?"


def _same(one: str, other: str) -> bool:
    return one == other or (one in UNITS and other in UNITS and UNITS[one] == UNITS[other])
