"""SP037 name-not-usable

Severity  error
Checks    a name in pattern.yaml is made of letters, digits and underscores ( _ ), and does not mean something else in a
          formula already.
Matters   no formula could use such a name, and no row could print its number.
Mend      join the words by underscores, or choose another name.
Source    how formulas are written for stitchproof.

Fires:
    counts:
      cuff rows: 12 rows

Quiet:
    counts:
      cuff_rows: 12 rows
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def name_not_usable(span: Span, why: str, help_text: str) -> Diagnostic:
    """why: what a name must be, or what this one means already."""
    return Diagnostic(PAGE, f"`{span.text}` cannot be used as a name: {why}", Excerpt(span, why), help=(help_text,))
