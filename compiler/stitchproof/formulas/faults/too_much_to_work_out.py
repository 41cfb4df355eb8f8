"""SP023 too-much-to-work-out

Severity  error
Checks    every formula can be worked out in good time: its numbers do not grow without end, and a search for a largest
          number has not too far to go, and finds one.
Matters   a formula that grows without end is a slip, and would keep you waiting for nothing.
Mend      let the search begin or end nearer, or simplify the formula.
Source    the limits that stitchproof sets itself.

Fires in S, M:
    counts:
      ribs: largest(n, 1 ribs, 20 ribs, n > 30)

Quiet:
    counts:
      ribs: largest(n, 1 ribs, 40 ribs, n <= 30)
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def too_much_to_work_out(span: Span, why: str, help_text: str = "narrow it, or simplify the formula") -> Diagnostic:
    """why: the bound that was met, in one clause."""
    return Diagnostic(
        PAGE,
        f"`{span.text[:60]}` cannot be worked out: {why}",
        Excerpt(span, why),
        help=(help_text,),
    )
