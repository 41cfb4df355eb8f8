"""SP014 key-written-twice

Severity  error
Checks    no key, the word before a colon, stands twice in the same group of pattern.yaml.
Matters   only one of the two values could be used, and it may not be the one you look at.
Mend      take one of the two out, or give one another name.
Source    YAML 1.2 specification, section 3.2.1.3: keys are unique.

Fires:
    counts:
      cuff_rows: 12 rows
      cuff_rows: 14 rows

Quiet:
    counts:
      cuff_rows: 12 rows
      hem_rows: 14 rows
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def key_written_twice(second: Span, first: Span) -> Diagnostic:
    """The two places where the key stands."""
    return Diagnostic(
        PAGE,
        f"`{second.text}` is written twice",
        Excerpt(second, "here again"),
        related=(Excerpt(first, "here first"),),
        help=("take one of the two out, or give one another name",),
    )
