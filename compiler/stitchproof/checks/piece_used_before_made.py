"""SP101 piece-used-before-made

Severity  error
Checks    a piece that is worked from, onto or with others (`starts_from` under `pieces`) comes after them in the text.
Matters   the maker is told to join sleeves that she has not made yet, and has to leaf ahead.
Mend      put the section of the other piece in front.
Source    common practice, no source.

Fires:
    pieces:
      yoke: {gauge: fabric, worked: rows, starts_from: [body, sleeve]}
      body: {gauge: fabric, worked: rows}
      sleeve: {gauge: fabric, worked: rows}
    ---
    ## Body {body}

    Row 1: Sc in each st across.

    ## Yoke {yoke}

    Row 1: Sc in each st across.

    ## Sleeves {sleeve}

    Row 1: Sc in each st across.

Quiet:
    pieces:
      yoke: {gauge: fabric, worked: rows, starts_from: [body, sleeve]}
      body: {gauge: fabric, worked: rows}
      sleeve: {gauge: fabric, worked: rows}
    ---
    ## Body {body}

    Row 1: Sc in each st across.

    ## Sleeves {sleeve}

    Row 1: Sc in each st across.

    ## Yoke {yoke}

    Row 1: Sc in each st across.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Piece
from stitchproof.expansion.expanded_pattern import ExpandedPattern

PAGE = read_page(__doc__)


def order(expanded: ExpandedPattern, report: Report) -> None:
    """Pieces whose heading comes before that of a piece they need; pieces without a heading are another fault."""
    places = {piece.name: index for index, piece in enumerate(expanded.document.pieces)}
    for sized in expanded.sized.pieces:
        for words in sized.entry.starts_from:
            here, there = places.get(sized.entry.name), places.get(words.text.strip())
            if here is not None and there is not None and here < there:
                report.add(_report(expanded.document.pieces[here], expanded.document.pieces[there]))


def _report(piece: Piece, needed: Piece) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"the piece `{piece.name}` needs the piece `{needed.name}`, which is made after it",
        Excerpt(piece.heading.place.span, "used here"),
        piece=piece.name,
        related=(Excerpt(needed.heading.place.span, "made here"),),
        help=(f"put the section of `{needed.name}` in front of that of `{piece.name}`",),
    )


CHECKS = (order,)
