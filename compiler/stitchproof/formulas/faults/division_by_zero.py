"""SP022 division-by-zero

Severity  error
Checks    in every size that is worked nothing is divided by zero, no gauge is counted over no length, and no number is
          rounded to steps of zero or less.
Matters   the number cannot be worked out in that size, nor anything that follows from it.
Mend      keep the number that you divide by above zero, or say what a size without it gets: `40 sts / groups if groups
          > 0 else not worked`.
Source    arithmetic.

Fires in M:
    counts:
      groups: [2 groups, 0 groups]
      gap: {is: 40 sts / groups, round: down}

Quiet:
    counts:
      groups: [2 groups, 0 groups]
      gap: {is: 40 sts / groups if groups > 0 else not worked, round: down}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def counted_over_nothing(over: Span) -> Diagnostic:
    """A gauge that is counted over a length of zero or less."""
    return Diagnostic(
        PAGE,
        "this gauge is counted over no length",
        Excerpt(over, "no length"),
        help=("write the length that the stitches and rows were counted over, such as `over: 10 cm`",),
    )


def division_by_zero(span: Span, divisor: Span) -> Diagnostic:
    """span: the whole quotient. divisor: what comes out as zero."""
    choose = f"choose what a size without it gets: `… if {divisor.text} > 0 else not worked`"
    written = divisor.text[:1].isdigit()
    return Diagnostic(
        PAGE,
        f"`{span.text}` divides by zero",
        Excerpt(divisor, "is 0" if written else "comes out as 0 here"),
        help=("divide by something else",) if written else (choose,),
    )
