"""SP100 columns-of-units-differ

Severity  error
Checks    a measurement typed in two columns, `cm` and `in`, says the same in both, as near as lengths are printed: to
          half a centimetre and a quarter of an inch, together never more than 0.57 cm apart. The sizes are worked out
          from `cm`.
Matters   one of the two columns is of another garment: a slip of the column, or a number left behind.
Mend      correct one of the two, or take the column in inches out: what prints in inches is worked out.
Source    the inch of 2.54 cm (international yard and pound agreement of 1959); the steps of printing are common
          practice, no source.

Fires in M:
    measures:
      finished_bust: {cm: [94, 148], in: [37, 60.25]}

Quiet:
    measures:
      finished_bust: {cm: [94, 148], in: [37, 58.25]}
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.contradictions import WIDEST_PAIR, contradicts
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.measures.values import rounded_text
from stitchproof.sizing.sized_claims import SizedExpectation
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)


def columns(sized: SizedPattern, report: Report) -> None:
    """Sizes whose two columns differ; one whose centimetres are reported against their formula is left out."""
    for expectation in sized.claims.expectations:
        quantity = sized.scope.quantities[expectation.name]
        for size, inches in enumerate(expectation.inches):
            value = quantity.values[size]
            if not isinstance(inches, Fraction) or not isinstance(value, Fraction):
                continue
            if abs(value - inches) > WIDEST_PAIR and not contradicts(quantity, expectation, size):
                report.add(_report(quantity, expectation, value, inches, size, sized))


def _report(
    quantity: Quantity, expectation: SizedExpectation, cm: Fraction, inches: Fraction, size: int, sized: SizedPattern
) -> Diagnostic:
    measured = f"{rounded_text(inches / CM_PER_INCH)} in × 2.54 = {rounded_text(inches)} cm, not {rounded_text(cm)} cm"
    return Diagnostic(
        PAGE,
        f"{quantity.name} in inches is not what it is in centimetres",
        Excerpt(expectation.inches_span or quantity.value_span, "in inches"),
        sizes=(sized.sizes[size],),
        related=(Excerpt(quantity.value_span, "in centimetres"),),
        sums=(SumLine(sized.sizes[size], measured, inches, cm, f"{cm_text(cm)} cm is {inch_text(cm)} in"),),
        help=("correct one of the two, or take the column in inches out: what prints is worked out from `cm`",),
    )


CHECKS = (columns,)
