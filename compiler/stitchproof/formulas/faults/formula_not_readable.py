"""SP020 formula-not-readable

Severity  error
Checks    a formula is made of numbers with units, names, + - * /, comparisons, `and`, `or`, `not`, `a if test else b`,
          and functions such as `lowest( )`.
Matters   a number that cannot be worked out cannot be graded, checked or printed.
Mend      correct the formula at the place shown. A unit follows its number (`10 cm`); a sign such as + or * stands
          between two values.
Source    how formulas are written for stitchproof.

Fires:
    counts:
      body_sts: 10 sts +
    ---
    Row 1: Sc in each st across. — <body_sts> sc

Fires:
    counts:
      body_sts: 10 sts
    ---
    Row 1: Sc in each of next <body_sts sts> sts.

Fires:
    measures:
      ease: 0,5 cm
    ---
    Row 1: Sc in each st across. The piece is <ease> wide.

Quiet:
    counts:
      body_sts: 10 sts + 2 * (3 + 1)
    ---
    Row 1: Sc in each st across. — <body_sts> sc
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def formula_not_readable(span: Span, what: str, help_text: str) -> Diagnostic:
    """span: the characters that stopped the reader. what: why, in one clause."""
    return Diagnostic(PAGE, f"this formula cannot be read: {what}", Excerpt(span, what), help=(help_text,))
