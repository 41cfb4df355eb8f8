"""SP027 template-cannot-run

Severity  error
Checks    every name and file that {{ }} or {% %} in a text asks for is there, and the text comes to an end when its
          loops are written out.
Matters   the rest of the text cannot be written out, and the maker would be without its rows.
Mend      correct the name, or give it a value above with {% set %}. Shared texts lie in the folder shared_text beside
          the patterns.
Source    the Jinja template language, palletsprojects.com.

Fires:
    title: Hat
    ---
    Row {{ number }}: Sc in each st across.

Fires:
    title: Hat
    ---
    {% include "missing.md" %}

Quiet:
    title: Hat
    ---
    {% set number = 1 %}
    Row {{ number }}: Sc in each st across.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def template_cannot_run(span: Span, problem: str, help_text: str = "correct it here") -> Diagnostic:
    """span: the line, or the name in it, where Jinja stopped. problem: why, in one clause."""
    return Diagnostic(
        PAGE, f"this text cannot be unfolded: {problem[:200]}", Excerpt(span, problem[:80]), help=(help_text,)
    )
