"""Numbers of many sizes as HTML. A page has thousands of them; put together here they cost a tenth of what a template takes."""

from __future__ import annotations

from html import escape

from stitchproof.editions.print_document import Entry, SizeRow, Vector


def by_size(vector: Vector) -> str:
    """A vector as HTML, every number in an element that says its size, counted from 1."""
    return "".join(
        escape(piece.text, False)
        if piece.size is None
        else f'<span data-size="{piece.size + 1}">{escape(piece.text, False)}</span>'
        for piece in vector.pieces
    )


def cells(row: SizeRow) -> str:
    """The cells of a measure as HTML, each with its size, counted from 1."""
    return "".join(
        f'<td data-size="{(entry.size or 0) + 1}">{_figure(entry, row.vector.written)}</td>' for entry in row.cells
    )


def first_cell(row: SizeRow) -> str:
    """What stands in its first cell, of a table for one size."""
    return _figure(row.cells[0], row.vector.written)


def _figure(entry: Entry, written: str) -> str:
    """A number in a table, with what stood there before; where it can be asked about, a button."""
    text = escape(entry.text, False)
    was = f'<span class="was"><del>{escape(entry.was, False)}</del> → </span>' if entry.was else ""
    if written:
        text = f'<span class="number" role="button" tabindex="-1" data-number="{escape(written)}">{text}</span>'
    return was + text
