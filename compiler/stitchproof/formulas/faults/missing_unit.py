"""SP009 missing-unit

Severity  error
Checks    every length, weight and count in pattern.yaml says its unit.
Matters   38 may be centimetres or inches, stitches or rows, and a wrong guess would make another garment.
Mend      write the unit after the number, such as `38 cm`, `15 in`, `8 sts`, `12 rows`. A plain number that scales
          others, such as a stretch of 1.15, goes under `ratios`.
Source    common practice, no source.

Fires in S, M:
    measures:
      body_length: 38

Fires in S, M:
    measures:
      bust: 96 cm
      width: bust + 2

Fires in S, M:
    counts:
      edge: 12

Fires in S, M:
    counts:
      edge: {by_hand: [not worked, not worked]}

Quiet:
    ratios:
      stretch: 1.15
    measures:
      body_length: 38 cm
    counts:
      edge: 12 sts
      twice: edge * 2 + 1
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import WEIGHT
from stitchproof.source import Span

PAGE = read_page(__doc__)


def missing_unit_beside(span: Span, other: Kind) -> Diagnostic:
    """A bare number is added to, or compared with, a length or a weight."""
    number = span.text
    units = f"`{number} g`" if other.dimension == WEIGHT else f"`{number} cm` or `{number} in`"
    return Diagnostic(
        PAGE,
        f"`{number}` stands beside a {other.in_words()} and needs a unit: {number} what?",
        Excerpt(span, f"{number} what?"),
        help=(f"write {units}",),
    )


def missing_unit_of(name: str, span: Span, is_measure: bool) -> Diagnostic:
    """A named value of pattern.yaml comes out as a bare number."""
    text = span.text.strip()
    if is_measure:
        headline, units = f"{name} needs a unit: {text} what?", f"write `{text} cm`, `{text} in` or `{text} g`"
        if "." in text:
            units += f"; or put `{name.rpartition('.')[2]}: {text}` under `ratios`"
    else:
        headline, units = (
            f"{name} needs a unit: {text} what?",
            f"write `{text} sts` or `{text} rows`, or add `unit: rnds` to it",
        )
    if not text.replace(".", "").isdigit():
        headline = f"{name} needs a unit: `{text}` is a plain number"
        units = (
            "multiply it by a unit, such as `1 cm`; a plain number that scales others stands under `ratios`"
            if is_measure
            else "add `unit: sts`, `unit: rnds`, `unit: times` or another"
        )
    return Diagnostic(PAGE, headline, Excerpt(span, "no unit"), help=(units,))


def unit_not_known(name: str, span: Span) -> Diagnostic:
    """A named value is `not worked` in every size and states no unit: what it would be cannot be told."""
    return Diagnostic(
        PAGE,
        f"{name} is not worked in any size, and has no unit",
        Excerpt(span, "of what?"),
        help=("add its unit, such as `unit: sts` or `unit: cm`, or take the value out",),
    )
