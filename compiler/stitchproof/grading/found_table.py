"""The table of a grading sheet among those of a file: its head found, its columns told apart, its cells as places."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.size_names import size_index
from stitchproof.grading.faults.sheet_not_readable import sheet_not_readable
from stitchproof.grading.sheet import BEHIND, NAME, SIZE, UNIT
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.spreadsheets.table import Table, TableCell, address_of

BETWEEN = " | "
LONGEST_SHOWN = 60


class FoundTable(Struct, frozen=True, eq=False):
    """rows: the numbers of those below the head. size_columns: for each size of the pattern. told: columns that only tell.

    places: of each cell, where it stands in a text that shows the table, a line for each row.
    """

    table: Table
    rows: tuple[int, ...]
    name_column: int
    unit_column: int
    size_columns: tuple[int, ...]
    told: dict[str, int]
    places: dict[str, Span]
    file: SourceFile

    def cell(self, row: int, column: int) -> TableCell | None:
        return self.table.rows.get(row, {}).get(column)

    def address(self, row: int, column: int) -> str:
        return address_of(row, column)

    def span(self, address: str) -> Span:
        """Where a cell stands in the text; of an empty one, its row."""
        if address in self.places:
            return self.places[address]
        row = int("".join(sign for sign in address if sign.isdigit()))
        return self.file.line_span(min(row, len(self.file.line_starts)))


def found_table(tables: tuple[Table, ...], shown: str, sized: SizedPattern) -> FoundTable | Diagnostic:
    """The first table with a head; or the report of what its head lacks, or has too much."""
    for table in tables:
        for number, cells in table.rows.items():
            names = [column for column, cell in cells.items() if _is(cell, NAME)]
            if names and any(_size_said(cell) is not None for cell in cells.values()):
                file, places = _as_text(table, shown)
                return _columns(table, number, names, places, file, sized)
    return sheet_not_readable(shown, f"has no row with `{NAME}` and the sizes, such as `{SIZE}{sized.sizes[0]}`")


def _columns(
    table: Table, head: int, names: list[int], places: dict[str, Span], file: SourceFile, sized: SizedPattern
) -> FoundTable | Diagnostic:
    sizes: dict[int, int] = {}
    for column, cell in table.rows[head].items():
        said = _size_said(cell)
        if said is None:
            continue
        size = size_index(said, sized.sizes, bool(sized.scope.sizes and sized.scope.sizes.called_by_number))
        here = places[cell.address]
        if size is None:
            known = ", ".join(sized.sizes)
            help_text = f"the sizes are {known}; a size is added by `stitchproof regauge PATTERN --add-size NAME`"
            return sheet_not_readable(here, f"has a column for `{said}`, which is no size of this pattern", help_text)
        if size in sizes:
            return sheet_not_readable(here, f"has two columns for size {sized.sizes[size]}", "delete one of them")
        sizes[size] = column
    missing = [name for index, name in enumerate(sized.sizes) if index not in sizes]
    line = file.line_span(min(head, len(file.line_starts)))
    if missing:
        return sheet_not_readable(line, f"has no column for {', '.join(missing)}")
    if len(names) > 1:
        return sheet_not_readable(line, f"has two columns called `{NAME}`", "delete one of them")
    cells = table.rows[head].items()
    unit = next((column for column, cell in cells if _is(cell, UNIT)), 0)
    told = {word: column for word in BEHIND for column, cell in cells if _is(cell, word)}
    rows = tuple(number for number in table.rows if number > head)
    columns = tuple(sizes[index] for index in range(len(sized.sizes)))
    return FoundTable(table, rows, names[0], unit, columns, told, places, file)


def _is(cell: TableCell, word: str) -> bool:
    return cell.words.casefold() == word.casefold()


def _size_said(cell: TableCell) -> str | None:
    words, begins = cell.words, SIZE.strip().casefold()
    first, _, rest = words.partition(" ")
    return rest if first.casefold() == begins and rest else None


def _as_text(table: Table, shown: str) -> tuple[SourceFile, dict[str, Span]]:
    """The table as a text, its rows as lines with their numbers, and where each cell stands in it."""
    lines: list[str] = []
    at: dict[str, tuple[int, int]] = {}
    start = 0
    for number in range(1, max(table.rows, default=0) + 1):
        line = ""
        for address, words in _shown(table.rows.get(number, {})):
            line += BETWEEN if line else ""
            at[address] = (start + len(line), start + len(line) + len(words))
            line += words
        lines.append(line)
        start += len(line) + 1
    file = SourceFile(f"{shown} ({table.title})" if table.title else shown, "\n".join(lines))
    return file, {address: Span(file, begin, end) for address, (begin, end) in at.items()}


def _shown(cells: dict[int, TableCell]) -> Iterator[tuple[str, str]]:
    for _, cell in sorted(cells.items()):
        words = "".join(sign if sign.isprintable() else " " for sign in cell.words)
        yield cell.address, words[:LONGEST_SHOWN] or " "
