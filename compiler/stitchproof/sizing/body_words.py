"""What a body table gives, as a designer reads it."""

from __future__ import annotations

from stitchproof.measures.published import figure_text
from stitchproof.standards.body import BodyRow
from stitchproof.standards.provenance import Column
from stitchproof.standards.ranges import Range


def given_words(row: BodyRow, place: int) -> str:
    """What a row gives in a size of the table, the primary column first: "36–38 in / 91.5–96.5 cm"; "" for nothing."""
    columns = sorted(Column, key=lambda column: column is not row.primary)
    return " / ".join(
        f"{_range_text(cell, column.value)} {column.value}"
        for column in columns
        if (cell := row.figures(column)[place])
    )


def _range_text(cell: Range, unit: str) -> str:
    low, high = (figure_text(end, unit) if end is not None else "" for end in (cell.low, cell.high))
    return low if low == high else f"{low}–{high}" if low and high else f"{low or high} and {'more' if low else 'less'}"
