"""SP024 slot-not-closed

Severity  error
Checks    a slot, the place of a number in the text, opens with <, holds a name, and closes with > on the same line. A
          comparison in it stands in round brackets, since its > would close the slot.
Matters   the number would be printed as bare letters.
Mend      add the >; if a plain < is meant, write a backslash before it: `\\<`.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows rows in all.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows if cuff_rows > 3 else 3 rows> rows in all.

Fires:
    title: Hat
    ---
    Rep Row 2 until there are <> rows in all.

Quiet:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows if (cuff_rows > 3) else 3 rows> rows in all.
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


def slot_without_name(span: Span) -> Diagnostic:
    """A `<` and a `>` with nothing between them."""
    return Diagnostic(
        PAGE,
        "a slot holds no name",
        Excerpt(span, "nothing stands here"),
        help=(
            "write the name of a number, `<cuff_rows>`; if plain signs are meant, write a backslash before them: `\\<`",
        ),
    )


def comparison_in_slot(span: Span) -> Diagnostic:
    """span: the slot with what its first `>` cuts off."""
    return Diagnostic(
        PAGE,
        "this slot closes at its first `>`, in the middle of a comparison",
        Excerpt(span, "a comparison needs round brackets"),
        help=("put the comparison in round brackets: `<a if (b > c) else d>`",),
    )
