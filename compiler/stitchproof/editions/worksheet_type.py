"""A tester's worksheet set in type: what she is asked for, without the answers."""

from __future__ import annotations

from stitchproof.editions.print_worksheet import PrintCheckpoint, PrintWorksheet
from stitchproof.worksheets.checkpoints import Worksheet


def set_worksheet(worksheet: Worksheet) -> PrintWorksheet:
    """The worksheet as it stands on the page."""
    points = [
        PrintCheckpoint(point.line, point.piece, point.words, point.asks_count, point.asks_cm)
        for point in worksheet.checkpoints
    ]
    return PrintWorksheet(tuple(points), tuple((gauge.name, gauge.rows_noun) for gauge in worksheet.gauges))
