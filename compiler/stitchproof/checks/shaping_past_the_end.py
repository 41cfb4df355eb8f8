"""SP088 shaping-past-the-end

Severity  error
Checks    the last change of a shaping stated under `must_hold` falls within its rows (`within`), in every size.
Matters   the piece is finished before its shaping is: the seam that follows does not fit.
Mend      work the shaping faster, or over more rows; the values offered have been tried.
Source    common practice, no source.

Fires in M:
    counts:
      v_rows: 36 rows
      v_every_4th: {by_hand: [3, 7], unit: times}
      neck_sts: {is: 11 sts + v_every_4th * 1 st}
    must_hold:
      - shaping: left neck
        from: neck_sts
        to: 0 sts
        each: -1 st
        first_on: 1 row
        then: [{every: 2 rows, times: 10}, {every: 4 rows, times: v_every_4th}]
        within: v_rows

Quiet:
    counts:
      v_rows: 36 rows
    must_hold:
      - shaping: left neck
        from: 12 sts
        to: 0 sts
        each: -1 st
        first_on: 1 row
        then: [{every: 2 rows, times: 5}, {every: 4 rows, times: 6}]
        within: v_rows
"""

from __future__ import annotations

from stitchproof.checks.claim_sums import side_text
from stitchproof.checks.levers import proposals
from stitchproof.checks.shaping_sums import (
    by_schedule,
    changes_text,
    is_off_its_total,
    reaches_its_end,
    rows_text,
    runs_past_its_rows,
    shaping_formulas,
    stays_within,
)
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.scope import Scope
from stitchproof.sizing.sized_claims import SizedShaping
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def last_rows(sized: SizedPattern, report: Report) -> None:
    """Shapings whose last change falls behind their rows."""
    for group in by_schedule(sized.claims.shapings):
        for size in range(len(sized.sizes)):
            past = [claim for claim in group if runs_past_its_rows(claim, size, sized)]
            if past:
                report.add(_report(past[0], tuple(past[1:]), size, sized))


def _report(claim: SizedShaping, others: tuple[SizedShaping, ...], size: int, sized: SizedPattern) -> Diagnostic:
    def holds(scope: Scope) -> bool:
        return reaches_its_end(claim, scope, size) and stays_within(claim, scope, size)

    within = claim.within
    there = f", of {side_text(within.formula.node, sized.scope, size)}" if within else ""
    too_many = changes_text(claim, size, sized) if is_off_its_total(claim, size, sized) else ""
    formulas = [*shaping_formulas(claim), *([within.formula] if within else [])]
    return Diagnostic(
        PAGE,
        f"the shaping of the {claim.name} ends on a row that is not there",
        Excerpt(claim.span, "this shaping"),
        sizes=(sized.sizes[size],),
        related=(
            *((Excerpt(within.formula.span, "the rows there are"),) if within else ()),
            *(Excerpt(other.span, "the same numbers shape this") for other in others),
        ),
        sums=(SumLine(sized.sizes[size], f"{rows_text(claim, size, sized)}{there}", note=too_many),),
        proposals=proposals(formulas, size, sized, holds),
        help=("work more of it at the faster rate, or begin earlier",),
    )


CHECKS = (last_rows,)
