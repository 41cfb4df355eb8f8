"""Body tables: what bodies measure, size by size, in centimetres and in inches as published. No ease is included."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.shipped_data import read_shipped
from stitchproof.source import Span
from stitchproof.standards.provenance import Column, Memory, read_keys, read_memory
from stitchproof.standards.ranges import Range, read_range

_FILES = {
    "women": "women",
    "women_european": "women",
    "men": "men",
    "men_european": "men",
    "babies": "children",
    "children": "children",
    "youth": "children",
    "head": "head",
    "head_girls": "head",
    "hand": "hand",
    "foot_children": "foot",
    "foot_women": "foot",
    "foot_men": "foot",
}

Figures = tuple[Range | None, ...]
"""One cell per size of the table, in its order; None where the table gives none."""


class BodyRow(Struct, frozen=True):
    """One measure of a body table. cm, inches: one cell per size; a column that is not published is all None.

    source: key of the document it comes from, "" for the designer's own. how: how to take the measure, or "".
    primary: the column that formulas work with. places: where the cells of that column are written, () in a shipped table.
    """

    measure: str
    cm: Figures
    inches: Figures
    memory: Memory = Memory.NONE
    source: str = ""
    confirmed_by: tuple[str, ...] = ()
    how: str = ""
    primary: Column = Column.CM
    places: tuple[Span, ...] = ()

    def figures(self, column: Column) -> Figures:
        """The cells of one column."""
        return self.cm if column is Column.CM else self.inches


class BodyTable(Struct, frozen=True):
    """Measures of bodies by size.

    source: key of the document, "" for the designer's own table. size_names: the sizes' printed names, in order.
    size_aliases: per size the other labels it is known by. remarks: what may surprise a designer, in sentences.
    """

    key: str
    title: str
    source: str
    sizes: tuple[str, ...]
    size_names: tuple[str, ...]
    size_aliases: tuple[tuple[str, ...], ...]
    rows: tuple[BodyRow, ...]
    remarks: tuple[str, ...] = ()

    def row(self, measure: str) -> BodyRow | None:
        """The row of a measure, None where the table has none."""
        return next((row for row in self.rows if row.measure == measure), None)

    def place_of(self, size: str) -> int | None:
        """Where a size stands, from 0, by its label, its printed name or another label; capitals do not matter."""
        wanted = size.strip().casefold()
        for place, labels in enumerate(zip(self.sizes, self.size_names, self.size_aliases, strict=True)):
            label, name, others = labels
            if wanted in {known.casefold() for known in (label, name, *others)}:
                return place
        return None

    def with_rows(self, rows: Iterable[BodyRow]) -> BodyTable:
        """The table with rows of the designer's own put over those of the same measure; new measures come last.

        Raises ValueError for a row that does not have one cell per size.
        """
        own = {row.measure: row for row in rows}
        for row in own.values():
            if not len(row.cm) == len(row.inches) == len(self.sizes):
                raise ValueError(f"{row.measure} does not have one cell for each of {len(self.sizes)} sizes")
        kept = tuple(own.pop(row.measure, row) for row in self.rows)
        return replace(self, rows=(*kept, *own.values()))


def body_table_keys() -> tuple[str, ...]:
    """The names of the shipped tables. Reads no file."""
    return tuple(_FILES)


@cache
def body_table(key: str) -> BodyTable:
    """A shipped table. Raises KeyError for a name that is not among `body_table_keys()`."""
    data = _tables(_FILES[key])[key]
    sizes = read_keys(data, "sizes")
    names, aliases = data.get("size_names", {}), data.get("size_aliases", {})
    source, primary = str(data["source"]), Column(data["primary"])
    return BodyTable(
        key,
        str(data["title"]),
        source,
        sizes,
        tuple(str(names.get(size, size)) for size in sizes),
        tuple(read_keys(aliases, size) for size in sizes),
        tuple(_row(measure, row, sizes, source, primary) for measure, row in data["measurements"].items()),
        read_keys(data, "remarks"),
    )


@cache
def _tables(file: str) -> dict[str, dict[str, Any]]:
    tables: dict[str, dict[str, Any]] = read_shipped(Path(__file__).with_name(f"{file}.yaml"))["tables"]
    return tables


def _row(measure: str, row: dict[str, Any], sizes: tuple[str, ...], source: str, primary: Column) -> BodyRow:
    def column(name: str) -> Figures:
        cells = row.get(name, {})
        return tuple(read_range(cells.get(size)) for size in sizes)

    return BodyRow(
        measure,
        column("cm"),
        column("in"),
        read_memory(row),
        source,
        read_keys(row, "confirmed_by"),
        str(row.get("how", "")),
        primary,
    )
