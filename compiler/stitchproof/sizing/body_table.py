"""The rows that a pattern takes from a body table, as named values. Loaded only for a pattern that names a table.

Each size of the pattern is one size of the table; formulas work with the table's primary column, and both columns print as
published. A range gives a figure only where the designer says which: its low end, its high end or its middle.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Amount, Formula
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import CM_GRID, INCH_GRID
from stitchproof.measures.published import Figure, Published, figure_text
from stitchproof.measures.rounding import Direction, round_to
from stitchproof.measures.units import UNITS
from stitchproof.reading.pattern_source import BodySource, Definition, Header, Words
from stitchproof.sizing.body_sizes import placed_sizes
from stitchproof.sizing.body_words import given_words
from stitchproof.sizing.faults.body_file_not_readable import body_file_not_readable
from stitchproof.sizing.faults.not_in_the_body_table import row_not_known, table_not_known
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.sized_body import SizedBody, TableRow
from stitchproof.source import Span
from stitchproof.standards.body import BodyRow, BodyTable, body_table, body_table_keys
from stitchproof.standards.body_csv import read_body_csv
from stitchproof.standards.provenance import Column, memory_note
from stitchproof.standards.ranges import Range
from stitchproof.standards.sources import printable_source

LOW, MIDDLE, HIGH = "low", "middle", "high"
"""The figure to take of a range."""
GRIDS = {Column.CM: CM_GRID, Column.INCHES: INCH_GRID}


class TakenTable(Struct, frozen=True):
    """body: the table for whoever shows it. definitions: a value with one number per size for each row that is not her own."""

    body: SizedBody
    definitions: tuple[Definition, ...]


def taken_table(header: Header, report: Report) -> TakenTable | None:
    """What `body` takes from its table; None where that cannot be told (reported)."""
    taken, findings = _taken_once(header)
    report.extend(findings)
    return taken


@lru_cache(maxsize=2)
def _taken_once(header: Header) -> tuple[TakenTable | None, tuple[Diagnostic, ...]]:
    """The table and what was reported; kept, for values that are tried size the same pattern again and again."""
    report = Report(header.sizes.names)
    taken = _taken(header, report)
    return taken, report.findings()


def _taken(header: Header, report: Report) -> TakenTable | None:
    source = header.body
    table = _table(source, report) if source else None
    if source is None or table is None:
        return None
    places = placed_sizes(source, header.sizes, table, report)
    rows = _rows(source, table, report)
    take = _take(source, table, report)
    if places is None or rows is None or take is None:
        return None
    own = {definition.name for definition in header.definitions if definition.section == "body"}
    taken = tuple(
        _taken_row(row, span, places, take.get(row.measure, take.get("", "")), row.measure in own) for row, span in rows
    )
    body = SizedBody(
        table.key.rpartition("/")[2] if source.is_file else table.key,
        table.title,
        printable_source(table.source),
        tuple(table.size_names[place] for place in places),
        tuple("" if table.place_of(words.text) is not None else words.text.strip() for words in source.sizes),
        taken,
        table.remarks,
        source.named.span,
    )
    definitions = (
        _definition(row, span, places, held) for (row, span), held in zip(rows, taken, strict=True) if not held.own
    )
    return TakenTable(body, tuple(definitions))


def _table(source: BodySource, report: Report) -> BodyTable | None:
    if not source.is_file:
        key = source.named.text.strip()
        if key in body_table_keys():
            return body_table(key)
        report.add(table_not_known(source.named.span, key, body_table_keys()))
        return None
    read = read_body_csv(source.file) if source.file else None
    if read is None or isinstance(read, BodyTable):
        return read
    report.extend(body_file_not_readable(fault.span, fault.headline, fault.help) for fault in read)
    return None


def _rows(source: BodySource, table: BodyTable, report: Report) -> tuple[tuple[BodyRow, Span], ...] | None:
    """The rows she takes, in her order, each with the place that asks for it."""
    known = {row.measure: row for row in table.rows}
    if not source.rows:
        return tuple((row, row.places[0] if row.places else source.named.span) for row in table.rows)
    found = [(known[words.text.strip()], words.span) for words in source.rows if _is_row(words, known, report)]
    return tuple(dict(found).items()) if len(found) == len(source.rows) else None


def _take(source: BodySource, table: BodyTable, report: Report) -> dict[str, str] | None:
    """Which figure of a range, by row; under "" for every other row."""
    known = {row.measure: row for row in table.rows}
    found: dict[str, str] = {}
    sound = True
    for row, word in source.take:
        if word.text.strip() not in (LOW, MIDDLE, HIGH):
            report.add(word_not_known(word.span, "a figure of a range", (LOW, MIDDLE, HIGH)))
            sound = False
        if row and not _is_row(row, known, report):
            sound = False
        found[row.text.strip() if row else ""] = word.text.strip()
    return found if sound else None


def _is_row(words: Words, known: dict[str, BodyRow], report: Report) -> bool:
    if words.text.strip() in known:
        return True
    report.add(row_not_known(words.span, words.text.strip(), tuple(known)))
    return False


def _taken_row(row: BodyRow, span: Span, places: tuple[int, ...], take: str, own: bool) -> TableRow:
    figures = {column: tuple(_figure(row.figures(column)[place], take) for place in places) for column in Column}
    pairs = zip(figures[Column.CM], figures[Column.INCHES], strict=True)
    return TableRow(
        f"body.{row.measure}",
        tuple(given_words(row, place) for place in places),
        take if any(_is_range(row, place) for place in places) else "",
        tuple(size for size, pair in enumerate(pairs) if pair == (None, None)),
        Published(
            _printed(row, places, take, Column.CM),
            _printed(row, places, take, Column.INCHES),
            tuple(column.value for column in Column if row.memory.covers(column) and any(row.figures(column))),
        ),
        memory_note(row),
        row.how,
        own,
        tuple(row.places[place] if row.places else span for place in places),
    )


def _figure(cell: Range | None, take: str) -> Figure:
    """The figure of a cell, None where the table gives none or more than one and nobody says which."""
    if cell is None or cell.single is not None:
        return cell.single if cell else None
    if take == MIDDLE and cell.low is not None and cell.high is not None:
        return (cell.low + cell.high) / 2
    return {LOW: cell.low, HIGH: cell.high}.get(take)


def _printed(row: BodyRow, places: tuple[int, ...], take: str, column: Column) -> tuple[Figure, ...]:
    """The figures as they print: as published; the middle of a range, which nobody published, on the grid of lengths."""
    found: list[Figure] = []
    for place in places:
        cell = row.figures(column)[place]
        figure = _figure(cell, take)
        between = cell is not None and figure is not None and figure not in (cell.low, cell.high)
        found.append(round_to(figure, Direction.NEAREST, GRIDS[column]) if figure is not None and between else figure)
    return tuple(found)


def _is_range(row: BodyRow, place: int) -> bool:
    return any(cell is not None and cell.single is None for cell in (row.cm[place], row.inches[place]))


def _definition(row: BodyRow, span: Span, places: tuple[int, ...], held: TableRow) -> Definition:
    formulas = tuple(_formula(row, place, held, span) for place, span in zip(places, held.places, strict=True))
    return Definition(
        name=row.measure,
        section="body",
        parameter="",
        formulas=formulas,
        by_hand=True,
        unit=None,
        rounding=None,
        multiple=None,
        plus=None,
        at_least=None,
        at_most=None,
        start=None,
        gauge=None,
        why=None,
        span=span,
        value_span=held.places[0],
    )


def _formula(row: BodyRow, place: int, held: TableRow, span: Span) -> Formula | None:
    """The figure of the primary column; the other one's where the primary has none."""
    for column in sorted(Column, key=lambda column: column is not row.primary):
        figure = _figure(row.figures(column)[place], held.take)
        if figure is not None:
            unit = UNITS[column.value]
            amount = Amount(Fraction(figure * unit.size), Kind(LENGTH, unit.noun), span)
            return Formula(f"{figure_text(figure, column.value)} {column.value}", amount, span)
    return None
