"""SP088 shaping-off-its-rows

Severity  error
Checks    the last increase or decrease of a shaping under `must_hold` falls within its rows (`within`), or on the very
          row that is stated for it (`ends_on`), in every size.
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

Fires in M:
    counts:
      slower: {by_hand: [4, 3], unit: times}
      quicker: {is: 10 times - slower}
    must_hold:
      - shaping: sleeve
        from: 76 sts
        to: 56 sts
        each: -2 sts
        then: [{every: 2 rnds, times: quicker}, {every: 3 rnds, times: slower}]
        ends_on: 24 rnds

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
    fitting_rates,
    is_off_its_total,
    is_sound,
    misses_its_last_row,
    rows_text,
    runs_past_its_rows,
    shaping_formulas,
)
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_claims import SizedShaping, Term
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def last_rows(sized: SizedPattern, report: Report) -> None:
    """Shapings whose last change falls behind their rows, or on another row than stated; there a wrong total comes first."""
    for group in by_schedule(sized.claims.shapings):
        for size in range(len(sized.sizes)):
            past = [claim for claim in group if runs_past_its_rows(claim, size, sized)]
            off = [claim for claim in group if misses_its_last_row(claim, size, sized)]
            if past:
                report.add(_report(past[0], past[0].within, tuple(past[1:]), size, sized))
            elif off and not any(is_off_its_total(claim, size, sized) for claim in group):
                report.add(_report(off[0], off[0].ends_on, tuple(off[1:]), size, sized))


def _report(
    claim: SizedShaping, row: Term | None, others: tuple[SizedShaping, ...], size: int, sized: SizedPattern
) -> Diagnostic:
    """row: the rows there are, or the row that the last change should fall on."""
    is_past = row is claim.within
    there = side_text(row.formula.node, sized.scope, size) if row else ""
    notes = [changes_text(claim, size, sized)] if is_off_its_total(claim, size, sized) else []
    notes += [fitting_rates(claim, size)] if is_past else []
    formulas = [*shaping_formulas(claim), *([row.formula] if row else [])]
    label = "the rows there are" if is_past else "should be the last row of it"
    return Diagnostic(
        PAGE,
        f"the shaping of the {claim.name} ends on {'a row that is not there' if is_past else 'another row than stated'}",
        Excerpt(claim.span, "this shaping"),
        sizes=(sized.sizes[size],),
        related=(
            *((Excerpt(row.formula.span, label),) if row else ()),
            *(Excerpt(other.span, "the same numbers shape this") for other in others),
        ),
        sums=(
            SumLine(
                sized.sizes[size],
                f"{rows_text(claim, size, sized)}, {'of' if is_past else 'not'} {there}",
                note="; ".join(note for note in notes if note),
            ),
        ),
        proposals=proposals(formulas, size, sized, lambda scope: is_sound(claim, scope, size)),
        help=("work more of it at the faster rate, or begin earlier",) if is_past else ("change one of its rates",),
    )


CHECKS = (last_rows,)
