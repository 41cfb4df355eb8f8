"""SP225 change-not-understood

Severity  error
Checks    a change names a value and what it is to be: `NAME=VALUE`, or a sweep `NAME=17 to 19 in halves`.
Matters   a change that is guessed at would show, or write, what nobody asked for.
Mend      write it as the help line shows.
Source    the commands of stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def change_not_understood(span: Span, why: str, help_text: str) -> Diagnostic:
    """span: what was asked for. why: what is wrong with it, as a sentence."""
    return Diagnostic(PAGE, why, Excerpt(span), help=(help_text,))
