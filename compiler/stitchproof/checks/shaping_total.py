"""SP087 shaping-total

Severity  error
Checks    a shaping comes from its first count to its last: all its increases and decreases together make up the
          difference, in every size (`shaping`, `from`, `to`, `each` and its rows or `times` under `must_hold`).
Matters   the maker ends with too many or too few stitches, at the end of a long stretch of work.
Mend      change how often the shaping is worked, or where it begins or ends; the values offered have been tried.
Source    common practice, no source.

Fires in M:
    counts:
      sleeve_top: {by_hand: [76, 78], unit: sts}
      cuff_sts: 56 sts
      slower: {by_hand: [6, 6], unit: times}
    must_hold:
      - shaping: sleeve
        from: sleeve_top
        to: cuff_sts
        each: -2 sts
        first_on: 3 rnds
        then: [{every: 2 rnds, times: 3}, {every: 3 rnds, times: slower}]

Fires in S, M:
    must_hold:
      - shaping: yoke
        from: 41 sts
        to: 85 sts
        each: +4 sts
        times: 10

Quiet:
    must_hold:
      - {shaping: yoke, from: 41 sts, to: 85 sts, each: 4 sts, times: 11}
      - shaping: cap
        from: 57 sts
        to: 40 sts
        each: -2 sts
        then: [{every: 1 row, times: 1, each: -7 sts}, {every: 2 rows, times: 5}]
"""

from __future__ import annotations

from stitchproof.checks.levers import proposals
from stitchproof.checks.shaping_sums import (
    by_schedule,
    changes_text,
    is_off_its_total,
    is_sound,
    runs_past_its_rows,
    shaping_formulas,
    total_text,
)
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_claims import SizedShaping
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def totals(sized: SizedPattern, report: Report) -> None:
    """Shapings that do not reach their end; one that also runs past its rows is reported for that."""
    for group in by_schedule(sized.claims.shapings):
        for size in range(len(sized.sizes)):
            past = any(runs_past_its_rows(claim, size, sized) for claim in group)
            wrong = [claim for claim in group if is_off_its_total(claim, size, sized)]
            if wrong and not past:
                report.add(_report(wrong[0], tuple(wrong[1:]), size, sized))


def _report(claim: SizedShaping, others: tuple[SizedShaping, ...], size: int, sized: SizedPattern) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"the shaping of the {claim.name} does not come from `{claim.start.formula.text}` to `{claim.end.formula.text}`",
        Excerpt(claim.span, "this shaping"),
        sizes=(sized.sizes[size],),
        related=tuple(Excerpt(other.span, "the same numbers shape this") for other in others),
        sums=(SumLine(sized.sizes[size], total_text(claim, size, sized), note=changes_text(claim, size, sized)),),
        proposals=proposals(shaping_formulas(claim), size, sized, lambda scope: is_sound(claim, scope, size)),
        help=("change how often it is worked, or where it begins or ends",),
    )


CHECKS = (totals,)
