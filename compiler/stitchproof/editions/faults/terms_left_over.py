"""SP181 terms-left-over

Severity  note
Checks    an edition in other terms than the pattern is written in has no word of the old terms left.
Matters   a word that means something else in the other terms misleads the maker, and one that she does not know stops her.
Mend      say the thing in words that both have, or read the sentence and leave it if it is clear.
Source    common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile

PAGE = read_page(__doc__)


def terms_left_over(terms: str, left: Sequence[tuple[str, str]]) -> Diagnostic:
    """terms: the new ones. left: words of the old terms, each with what it would be, or ""."""
    words = ", ".join(f'"{word}" ({terms}: {new})' if new else f'"{word}"' for word, new in left)
    written = f"build --terms {terms.lower()}"
    span = SourceFile("the command line", written).whole
    return Diagnostic(
        PAGE,
        f"the edition in {terms} terms still says {words}",
        Excerpt(span, "these words are not turned, because they may be plain English"),
        help=("use words that both have, or leave them where the sentence is clear",),
    )
