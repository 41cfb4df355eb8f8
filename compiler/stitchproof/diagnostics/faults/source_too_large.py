"""SP016 source-too-large

Severity  error
Checks    the source stays within sensible bounds: size of files, nesting, number of values and references, text after loops.
Matters   a file that unfolds without end would take the machine down before it said anything.
Mend      split the pattern, or take out the loop or reference that repeats too often.
Source    the bounds of this compiler.

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
