"""SP081 plan-number-not-whole

Severity  error
Checks    the stitches, rows and times that a plan is given are whole numbers in every size.
Matters   a plan shares out whole stitches and whole rows; a fraction would have to be rounded behind the designer's back.
Mend      give the number a name with a rounding in `counts`, and name that in the plan.
Source    common practice, no source.

Fires in M:
    counts:
      body_sts: {by_hand: [60, 63], unit: sts}
    plans:
      inc: {kind: evenly in rounds, from: body_sts / 2, times: 4, shaping: increase}

Quiet:
    counts:
      body_sts: {by_hand: [60, 64], unit: sts}
    plans:
      inc: {kind: evenly in rounds, from: body_sts / 2, times: 4, shaping: increase}
"""

from __future__ import annotations

from stitchproof.checks.wrong_counts import formula_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import amount_text, whole
from stitchproof.formulas.sums import worked
from stitchproof.formulas.tree import Formula
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.sizing.sized_plans import SizedInput, SizedPlan

PAGE = read_page(__doc__)


def numbers(sized: SizedPattern, report: Report) -> None:
    """The numbers of plans that come out with a fraction, unless a count that they name is reported for that."""
    for plan in sized.scope.plans.values():
        for number in plan.inputs:
            for size, formula in enumerate(number.formulas):
                broken = number.whole and not whole(number.values[size])
                if formula and broken and not formula_follows_from_wrong(formula, size, sized):
                    report.add(_report(plan, number, formula, size, sized))


def _report(plan: SizedPlan, number: SizedInput, formula: Formula, size: int, sized: SizedPattern) -> Diagnostic:
    name, text = sized.sizes[size], amount_text(number.values[size], number.kind)
    return Diagnostic(
        PAGE,
        f"`{number.key}` of {plan.name} does not come out whole",
        Excerpt(formula.span),
        sizes=(name,),
        sums=(SumLine(name, f"{worked(formula, sized.scope, size)} = {text}"),),
        help=("give it a name in `counts` with a rounding, such as `round: nearest`, and name that here",),
    )


CHECKS = (numbers,)
