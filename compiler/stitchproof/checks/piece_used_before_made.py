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

Fires:
    pieces:
      yoke: {gauge: fabric, worked: rows, starts_from: [body, sleeve]}
      body: {gauge: fabric, worked: rows}
      sleeve: {gauge: fabric, worked: rows}
      neckband: {gauge: fabric, worked: rows, starts_from: [yoke, body]}
    ---
    ## Yoke {yoke}

    Row 1: Sc in each st across.

    ## Neckband {neckband}

    Row 1: Sc in each st across.

    ## Body {body}

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
    """Pieces whose heading comes before those of pieces they need: one report for each that comes late, at its first use."""
    pieces = expanded.document.pieces
    places = {piece.name: index for index, piece in enumerate(pieces)}
    needs = {
        each.entry.name: [words.text.strip() for words in each.entry.starts_from] for each in expanded.sized.pieces
    }
    told: set[str] = set()
    for index, piece in enumerate(pieces):
        late = [name for name in needs.get(piece.name, ()) if places.get(name, index) > index and name not in told]
        if late:
            told.update(late)
            others = [each for each in pieces[index + 1 :] if _also_early(each.name, late, needs, places)]
            report.add(_report(piece, [pieces[places[name]] for name in late], others))


def _also_early(name: str, late: list[str], needs: dict[str, list[str]], places: dict[str, int]) -> bool:
    return any(needed in needs.get(name, ()) and places[name] < places[needed] for needed in late)


def _report(piece: Piece, late: list[Piece], others: list[Piece]) -> Diagnostic:
    names = " and ".join(f"`{each.name}`" for each in late)
    return Diagnostic(
        PAGE,
        f"the piece `{piece.name}` needs {names}, made after it",
        Excerpt(piece.heading.place.span, "used here"),
        piece=piece.name,
        related=(
            *(Excerpt(each.heading.place.span, "made here") for each in late),
            *(Excerpt(each.heading.place.span, "used here as well") for each in others),
        ),
        help=(f"put the section of {names} in front of that of `{piece.name}`",),
    )


CHECKS = (order,)
