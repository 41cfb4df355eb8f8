"""SP227 size-still-named

Severity  error
Checks    a size that is added or taken away leaves no place behind that cannot be brought along.
Matters   a place that names a size which is gone would print nothing, or something else.
Mend      change the place that the report shows, then run the command again.
Source    how pattern.yaml is written for stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def size_still_named(span: Span, size: str, why: str, help_text: str) -> Diagnostic:
    """why: what stands in the way, as a sentence about the size."""
    first_line = span.text.split("\n")[0]
    return Diagnostic(PAGE, why, Excerpt(span.part(0, len(first_line))), sizes=(size,), help=(help_text,))
