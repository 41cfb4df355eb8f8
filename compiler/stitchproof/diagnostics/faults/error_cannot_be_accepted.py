"""SP041 error-cannot-be-accepted

Severity  error
Checks    only warnings are accepted (`accept`), never errors.
Matters   an error means that the pattern cannot be worked as written, or that the page would state something untrue.
Mend      mend the error, and take the acceptance out.
Source    how warnings are accepted in stitchproof.

Fires:
    accept:
      - {code: SP038, reason: it looks fine to me}
    counts:
      rest: {by_hand: [4 sts, -2 sts]}

Quiet:
    counts:
      rest: {by_hand: [4 sts, 2 sts]}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def error_cannot_be_accepted(span: Span, found: Diagnostic) -> Diagnostic:
    """span: where the acceptance stands. found: the error it means."""
    return Diagnostic(
        PAGE,
        f"{found.page.code} {found.page.name} is an error and cannot be accepted",
        Excerpt(span, "accepted here"),
        related=(Excerpt(found.primary.span, "the error"),),
        help=("mend the error, and take the acceptance out",),
    )
