"""SP007 unknown-name

Severity  error
Checks    every name in a formula or in a slot (a name in < > in the text) stands in pattern.yaml. Inside a block `for
          each k` the k is known too.
Matters   a slot without its number leaves a hole in the row that the maker reads.
Mend      correct the name, or add it to pattern.yaml.
Source    how formulas are written for stitchproof.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuf_rows> rows in all.

Quiet:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows> rows in all.
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def unknown_name(span: Span, name: str, known: Iterable[str]) -> Diagnostic:
    """known: the names that would have been understood here; the nearest is offered."""
    names = sorted(set(known))
    same_ending = (each for each in names if each.split(".")[-1] == name.split(".")[-1])
    near = nearest(name, names) or next(same_ending, "")
    help_text = f"write `{near}`" if near else "add it to pattern.yaml, or write a name that is there"
    label = f"the nearest known name is `{near}`" if near else "no name like it is known here"
    return Diagnostic(PAGE, f"`{name}` is not a name of this pattern", Excerpt(span, label), help=(help_text,))
