"""SP034 function-used-wrongly

Severity  error
Checks    functions such as `nearest( )`, rates, loops, and values with a k such as `after(k)` are used for what they
          are, each with what it needs in its brackets.
Matters   a rate, such as 5 sts per 2 ribs, is not yet a number, and `nearest( )` with nothing in it gives none: the row
          would be without.
Mend      write it as the help line shows.
Source    how formulas are written for stitchproof.

Fires:
    counts:
      body_sts: nearest()
    ---
    Row 1: Sc in each st across. — <body_sts> sc

Fires:
    counts:
      body_sts: abs(3 sts, 4 sts)

Fires:
    counts:
      body_sts: 40 sts
      after(k): body_sts - 2 * k
      last: after

Quiet:
    counts:
      body_sts: nearest(40.5 sts, 2)
      after(k): body_sts - 2 * k
      last: after(3)
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def function_used_wrongly(span: Span, what: str, help_text: str) -> Diagnostic:
    """what: the misuse, in one clause. help_text: the right form."""
    return Diagnostic(PAGE, what, Excerpt(span), help=(help_text,))
