"""A table of words set in type: a long one with two narrow columns stands in two halves side by side."""

from __future__ import annotations

from stitchproof.editions.print_document import PrintInline, PrintTable, PrintTablesAbreast, visible_text

MOST_ROWS_IN_ONE = 8
MOST_ROWS_ABREAST = 60
"""Two halves are kept on one page, which takes about forty rows."""
LONGEST_CELL = 42
"""Characters. A longer cell wants the whole width of the page."""

Row = tuple[tuple[PrintInline, ...], ...]


def set_table(head: Row, rows: tuple[Row, ...]) -> PrintTable | PrintTablesAbreast:
    """The table, or its first and second half under the same head: the rows are read down the first half, then the
    second."""
    narrow = all(len(visible_text(cell)) <= LONGEST_CELL for row in rows for cell in row)
    pairs = all(len(row) == 2 for row in rows)
    if not (pairs and narrow and MOST_ROWS_IN_ONE < len(rows) <= MOST_ROWS_ABREAST):
        return PrintTable(head, rows)
    half = (len(rows) + 1) // 2
    return PrintTablesAbreast((PrintTable(head, rows[:half]), PrintTable(head, rows[half:])))
