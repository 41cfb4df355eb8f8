"""SP016 source-too-large

Severity  error
Checks    the files of the pattern keep to a sensible size, also when their loops are written out. They hold not too
          many values, and not too many brackets or blocks inside one another.
Matters   a loop without end would bring your computer to a stop before you saw a single report.
Mend      split the pattern, or take out what repeats too often or stands too deep inside something else.
Source    the limits that stitchproof sets itself.

Fires:
    counts: [[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]

Quiet:
    counts: {cuff: {rows: 12 rows}}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def source_too_large(span: Span, bound: str, help_text: str = "split it, or take out what repeats") -> Diagnostic:
    """bound: which bound was passed, in one clause."""
    return Diagnostic(
        PAGE, f"this source is larger than a pattern can be: {bound}", Excerpt(span, bound), help=(help_text,)
    )
