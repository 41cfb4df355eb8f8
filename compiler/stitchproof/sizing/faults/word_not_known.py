"""SP033 word-not-known

Severity  error
Checks    what stands after `round`, `unit`, `multiple`, `worked` and `gauge` in pattern.yaml is a word that has a
          meaning there.
Matters   a rounding or a way of working that is only guessed would change the maker's counts in silence.
Mend      write one of the words that the help line lists.
Source    how pattern.yaml is written for stitchproof.

Fires:
    counts:
      body_sts: {is: 40.4 sts, round: closest}

Fires:
    pieces:
      piece: {gauge: fabrik, worked: rows}

Quiet:
    counts:
      body_sts: {is: 40.4 sts, round: nearest}
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def word_not_known(span: Span, what: str, known: Iterable[str]) -> Diagnostic:
    """what: what the word should name ("a rounding", "a gauge of this pattern")."""
    names = list(known)
    near = nearest(span.text.strip(), names)
    listed = ", ".join(f"`{name}`" for name in names)
    help_text = f"write `{near}`" if near else f"it can be: {listed}"
    if not names:
        help_text = "pattern.yaml gives none yet: add it there"
    return Diagnostic(PAGE, f"`{span.text.strip()}` is not {what}", Excerpt(span), help=(help_text,))


def multiple_not_usable(span: Span) -> Diagnostic:
    """A multiple that is zero, negative, or of a count and not whole."""
    help_text = "write a whole number above 0, such as `8` or `4 plus 2`; or `even`, or `odd`"
    return Diagnostic(PAGE, f"no count is a multiple of `{span.text.strip()}`", Excerpt(span), help=(help_text,))
