"""The gauge that a count lies at, by the rows that print it."""

from __future__ import annotations

from collections.abc import Mapping

from stitchproof.expansion.document import Document, Number, inlines_of, steps_of


def gauges_in_text(document: Document) -> Mapping[str, str]:
    """Names as slots write them → the gauge of the piece or heading they stand under, where it is one and the same."""
    found: dict[str, set[str]] = {}
    for piece in document.pieces:
        for step in steps_of(piece.blocks):
            for inline in inlines_of(step):
                if isinstance(inline, Number):
                    found.setdefault(inline.written, set()).add(step.gauge)
    return {name: next(iter(gauges)) for name, gauges in found.items() if len(gauges) == 1 and "" not in gauges}
