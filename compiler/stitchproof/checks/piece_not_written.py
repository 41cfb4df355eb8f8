"""SP042 piece-not-written

Severity  warning
Checks    every piece of pattern.yaml has a heading in the text that names it in braces, such as `## Cuff {cuff}`.
Matters   the rows of the piece are missing, or stand where they belong to another piece and are checked as its rows.
Mend      begin the piece with such a heading, or take it out of `pieces`.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    pieces:
      piece: {gauge: fabric, worked: rows}
      cuff: {gauge: fabric, worked: rows}
    ---
    ## Body {piece}

    Row 1: Sc in each st across.

    ## Cuff

    Row 1: Sc in each st across.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: rows}
      cuff: {gauge: fabric, worked: rows}
    ---
    ## Body {piece}

    Row 1: Sc in each st across.

    ## Cuff {cuff}

    Row 1: Sc in each st across.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern

PAGE = read_page(__doc__)


def pieces(expanded: ExpandedPattern, report: Report) -> None:
    """Pieces that no heading names; nothing where a text is missing or a heading names a piece that nobody knows."""
    entries = [piece.entry for piece in expanded.sized.pieces]
    written = {piece.name for piece in expanded.document.pieces}
    if not expanded.whole or not written <= {entry.name for entry in entries}:
        return
    for entry in entries:
        if entry.name not in written:
            report.add(
                Diagnostic(
                    PAGE,
                    f"no heading of the text begins the piece `{entry.name}`",
                    Excerpt(entry.span, "not in the text"),
                    piece=entry.name,
                    help=(
                        f"write a heading such as `## {_title(entry.name)} {{{entry.name}}}`, or take the piece out",
                    ),
                )
            )


def _title(name: str) -> str:
    return name.replace("_", " ").capitalize()


CHECKS = (pieces,)
