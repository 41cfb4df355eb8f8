"""SP095 cap-does-not-fit

Severity  warning
Checks    an edge that is eased into another, such as a sleeve cap into its armhole (`edge`, `meets` under `must_hold`, as
          lengths), is no more than 1 % shorter and 5 % longer in every size, or what `from` and `to` say.
Matters   a cap that is too long puckers, one that is too short pulls; both come from an armhole that was changed alone.
Mend      change the rows of the cap; the values offered have been tried.
Source    common practice, no source.

Fires in M:
    measures:
      armhole_edge: {cm: [27.6, 27.6]}
      cap_edge: {cm: [28.2, 31]}
    must_hold:
      - {edge: cap_edge, meets: armhole_edge}

Quiet:
    measures:
      armhole_edge: {cm: [27.6, 27.6]}
      cap_edge: {cm: [27.4, 29.5]}
    must_hold:
      - {edge: cap_edge, meets: armhole_edge, to: 7%}
"""

from __future__ import annotations

from stitchproof.checks.edge_fits import is_misfit, misfit
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def measured(sized: SizedPattern, report: Report) -> None:
    """Edges that are measured, and do not fit."""
    for claim in sized.claims.edges:
        for size in range(len(sized.sizes)):
            if claim.edge.is_length and is_misfit(claim, size, sized):
                report.add(misfit(PAGE, claim, size, sized))


CHECKS = (measured,)
