"""SP034 function-used-wrongly

Severity  error
Checks    the functions of the formula language, rates, loops, and values with a parameter are used with what they take.
Matters   a rate is not a number, and a function without its values gives none.
Mend      write the function with its values, as the help line shows.
Source    the formula language of this compiler.

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
