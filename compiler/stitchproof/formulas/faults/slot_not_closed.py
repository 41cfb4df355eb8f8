"""SP024 slot-not-closed

Severity  error
Checks    every slot in the text that opens with < closes with > on the same line.
Matters   the number would be printed as bare letters.
Mend      add the >; if a plain < is meant, write a backslash before it: `\\<`.
Source    the slot notation of this compiler.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows rows in all.

Quiet:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows> rows in all.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def slot_not_closed(span: Span) -> Diagnostic:
    """span: from the < to the end of its line."""
    return Diagnostic(
        PAGE,
        "a slot is opened with `<` and not closed",
        Excerpt(span.part(0, min(len(span.text), 40)), "no > on this line"),
        help=("add `>` after the name",),
    )
