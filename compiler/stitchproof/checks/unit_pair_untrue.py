"""SP060 unit-pair-untrue

Severity  error
Checks    a length typed in centimetres and in inches says the same in both, as near as lengths are printed: to half a
          centimetre and a quarter of an inch, together never more than 0.57 cm apart. Lengths of tails and cords are
          rough, and are not judged.
Matters   a maker measures with the one tape or the other; two numbers that differ make two garments.
Mend      correct one of the two, or print the length by a slot, which makes both from the same value.
Source    the inch of 2.54 cm (international yard and pound agreement of 1959); the steps of printing are common
          practice, no source.

Fires:
    ---
    Work even until piece measures 145 cm / 59 in.

Fires:
    sizes: {names: ["S (bust 81 cm / 34 in)", "M (bust 91 cm / 36 in)"]}

Fires in M:
    sizes: {names: [S, M, L]}
    ---
    ## Notes

    The body is 85 (95, 105) cm / 33½ (39, 41¼) in around.

    ## Piece {piece}

Quiet:
    ---
    Work even until piece measures 145 cm / 57 in, or 38 cm (15 in) from hem. Leave a tail of 50 cm / 20 in.
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.parts import found_in, printed_parts
from stitchproof.checks.stretches import calls_to, excerpt
from stitchproof.checks.typed_lengths import Pair, untrue_pairs
from stitchproof.diagnostics.diagnostic import Diagnostic, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.measures.values import rounded_text

PAGE = read_page(__doc__)


def unit_pairs(expanded: ExpandedPattern, report: Report) -> None:
    """Pairs of cm and inches anywhere in what is printed."""
    names = expanded.sized.sizes
    for pair in found_in(printed_parts(expanded), untrue_pairs):
        for index, cm, inches in pair.untrue():
            report.add(_report(pair, cm, inches, names[index] if len(pair.cm) == len(names) > 1 else ""))


def _report(pair: Pair, cm: Fraction, inches: Fraction, size: str) -> Diagnostic:
    measured = inches * CM_PER_INCH
    sum_text = f"{rounded_text(inches)} in × 2.54 = {rounded_text(measured)} cm, not {rounded_text(cm)} cm"
    return Diagnostic(
        PAGE,
        f"`{pair.line.text[pair.start : pair.end]}` is not one length",
        excerpt(pair.line, pair.start, pair.end, "not the same"),
        sizes=(size,) if size else (),
        piece=pair.line.piece,
        row=pair.line.row,
        related=calls_to(pair.line, pair.start),
        sums=(SumLine(size, sum_text, left=cm, right=measured),),
        help=(
            f"write {inch_text(cm)} in for {rounded_text(cm)} cm, or {cm_text(measured)} cm for {rounded_text(inches)} in",
        ),
    )


CHECKS = (unit_pairs,)
