"""SP038 count-out-of-bounds

Severity  error
Checks    a named value stays within the bounds stated for it (`at_least`, `at_most`), and no count is negative.
Matters   a count below zero cannot be worked; one past its bound does what the designer wanted to rule out.
Mend      change an input of the sum, or the bound.
Source    common practice, no source.

Fires in S:
    counts:
      plain_rows: {by_hand: [2 rows, 6 rows], at_least: 3 rows}

Fires in M:
    counts:
      rest: {by_hand: [4 sts, -2 sts]}

Quiet:
    counts:
      plain_rows: {by_hand: [3 rows, 6 rows], at_least: 3 rows}
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.wrong_counts import follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import amount_text
from stitchproof.formulas.sums import worked
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)


def bounds(sized: SizedPattern, report: Report) -> None:
    """Named values outside their bounds; counts below zero."""
    for quantity in sized.quantities:
        for size, value in enumerate(quantity.values):
            if not isinstance(value, Fraction):
                continue
            low, high = quantity.at_least[size], quantity.at_most[size]
            if isinstance(low, Fraction) and value < low:
                report.add(_report(quantity, size, value, f"below {amount_text(low, quantity.kind)}", sized))
            elif isinstance(high, Fraction) and value > high:
                report.add(_report(quantity, size, value, f"above {amount_text(high, quantity.kind)}", sized))
            elif value < 0 and quantity.section == "counts" and not _negative_input(quantity, size, sized):
                report.add(_report(quantity, size, value, "below zero", sized))


def _negative_input(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a count that it is worked out from is negative already, and reported for itself."""
    for name in quantity.inputs:
        held = sized.scope.quantities.get(name)
        value = held.values[size] if held and held.values and held.section == "counts" else None
        if isinstance(value, Fraction) and value < 0:
            return True
    return follows_from_wrong(quantity, size, sized)


def _report(quantity: Quantity, size: int, value: Fraction, where: str, sized: SizedPattern) -> Diagnostic:
    formula = quantity.formulas[size]
    text = amount_text(value, quantity.kind)
    expression = f"{worked(formula, sized.scope, size)} = {text}" if formula and not quantity.by_hand else text
    return Diagnostic(
        PAGE,
        f"{quantity.name} comes out {where}",
        Excerpt(quantity.value_span),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], expression, note=where),),
        help=("change an input of this sum, or the bound",),
    )


CHECKS = (bounds,)
