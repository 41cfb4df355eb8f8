"""The worksheet as tables of a spreadsheet, one row for each number in each size, so that a filter finds what she looks for."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.editor_sheet.sheet import EditorSheet, SheetQuantity
from stitchproof.spreadsheets.workbook import Cell, Sheet

NUMBER_HEAD = (
    *("Name", "Section", "Came by", "Size", "k", "Unit", "Before rounding", "Value", "Deviation", "Deviation, cm"),
    *("How it comes about", "Formula", "Worked out from", "Rounding", "Gauge", "Why", "Printed in"),
)


def sheet_tables(sheet: EditorSheet) -> tuple[Sheet, ...]:
    """Numbers, sizes side by side, lines, findings, proof and checklist."""
    return (
        _numbers(sheet),
        _sizes(sheet),
        _lines(sheet),
        _findings(sheet),
        _proof(sheet),
        _stitches(sheet),
        _checks(sheet),
    )


def _numbers(sheet: EditorSheet) -> Sheet:
    rows = (row for group in sheet.groups for each in group.quantities for row in _number_rows(group.title, each))
    return Sheet("Numbers", NUMBER_HEAD, tuple(rows))


def _number_rows(section: str, quantity: SheetQuantity) -> Iterator[tuple[Cell, ...]]:
    for each in quantity.values:
        yield (
            *(quantity.name, section, quantity.came_by, each.size, _number_or_words(each.k), quantity.unit),
            *(
                each.raw if each.raw is not None else each.raw_shown,
                each.value if each.value is not None else each.shown,
            ),
            *(each.deviation, each.deviation_cm),
            *(quantity.sentence, quantity.formula, ", ".join(quantity.inputs), quantity.rounding, quantity.gauge),
            *(quantity.why, "; ".join(quantity.printed)),
        )


def _number_or_words(text: str) -> Cell:
    return int(text) if text.isdecimal() else text or None


def _sizes(sheet: EditorSheet) -> Sheet:
    """A row a number, a column a size: to see whether the sizes grow evenly."""
    sizes = sheet.record.sizes
    rows: list[tuple[Cell, ...]] = []
    for group in sheet.groups:
        for quantity in group.quantities:
            for k in quantity.by_k or ("",):
                found = [quantity.at(size, k) for size in sizes]
                cells = (None if each is None else each.shown if each.value is None else each.value for each in found)
                rows.append((quantity.name, _number_or_words(k), quantity.unit, *cells))
    return Sheet("Sizes side by side", ("Name", "k", "Unit", *sizes), tuple(rows), 3)


def _lines(sheet: EditorSheet) -> Sheet:
    rows = tuple(
        (line.block.under, line.label, line.block.kind, line.block.proof, line.block.counts or None, *line.read_by_size)
        for line in sheet.lines
    )
    sizes = tuple(f"Size {size}" for size in sheet.record.sizes)
    return Sheet("Lines", ("Part", "Line", "Kind", "Proof", "Counts held", *sizes), rows, 2)


def _findings(sheet: EditorSheet) -> Sheet:
    head = (
        "Code",
        "Name",
        "Severity",
        "What",
        "Sizes",
        "Piece",
        "Row",
        "Where",
        "Sum",
        "Nearest values",
        "Accepted because",
    )
    rows = tuple(
        (
            *(
                each.code,
                each.name,
                each.severity,
                each.headline,
                ", ".join(each.sizes),
                each.piece,
                each.row,
                each.where,
            ),
            *("\n".join(each.sums), "\n".join(each.nearest), each.accepted),
        )
        for each in sheet.record.findings
    )
    return Sheet("Findings", head, rows)


def _proof(sheet: EditorSheet) -> Sheet:
    head = ("Piece", "Rows proved", "From a stated count", "With a fault", "On trust", "Not proved", "Counts held")
    rows = tuple(
        (p.title, p.proved, p.from_stated, p.at_fault, p.on_trust, p.not_proved, p.counts_held)
        for p in sheet.record.pieces
    )
    return Sheet("Proof", head, rows)


def _stitches(sheet: EditorSheet) -> Sheet:
    by_size = sheet.record.by_size
    kinds = dict.fromkeys(kind for size in by_size.values() for kind in size.stitches)
    rows = tuple((kind, *(by_size[size].stitches.get(kind) for size in sheet.record.sizes)) for kind in kinds)
    return Sheet("Stitches", ("Stitch", *sheet.record.sizes), rows)


def _checks(sheet: EditorSheet) -> Sheet:
    rows = tuple((c.id, c.group, c.catches, ", ".join(c.codes), c.outcome, c.note) for c in sheet.checks)
    return Sheet("Checklist", ("Check", "Group", "What it catches", "Rules", "Outcome", "Note"), rows)
