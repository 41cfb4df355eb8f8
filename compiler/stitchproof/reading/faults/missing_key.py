"""SP019 missing-key

Severity  error
Checks    pattern.yaml says what a pattern cannot do without: `dialect`, `title`, `sizes`, and in each group the keys it
          needs.
Matters   without them nothing can be sized or printed.
Mend      add the key that the report names.
Source    how pattern.yaml is written for stitchproof.

Fires:
    dialect: 1
    title: Hat

Quiet:
    title: Hat
    sizes: {names: [S, M]}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def missing_key(span: Span, where: str, key: str) -> Diagnostic:
    """where: the group that lacks it; "" for the whole file."""
    line = span.file.line_span(span.file.line_column(span.start)[0])
    return Diagnostic(
        PAGE,
        f"{where or 'pattern.yaml'} does not say its `{key}`",
        Excerpt(line, f"`{key}` is missing"),
        help=(f"add `{key}:` with its value",),
    )


def missing_reason(span: Span) -> Diagnostic:
    """An acceptance in a text that does not say which warning, or why."""
    return Diagnostic(
        PAGE,
        "this acceptance does not say its code and its reason",
        Excerpt(span, "code and reason are needed"),
        help=("write `::: accept CODE REASON`, for example `::: accept SP030 kept for a larger size`",),
    )
