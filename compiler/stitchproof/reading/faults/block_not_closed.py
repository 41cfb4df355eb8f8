"""SP028 block-not-closed

Severity  error
Checks    every block that begins with ::: is closed by a line :::, and every such line closes one that is open.
Matters   the rows below it would serve the wrong sizes.
Mend      close each block with a line of its own: `:::`.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    title: Hat
    ---
    ::: sizes S
    Row 1: Sc in each st across.

Fires:
    title: Hat
    ---
    Row 1: Sc in each st across.
    :::

Quiet:
    title: Hat
    ---
    ::: sizes S
    Row 1: Sc in each st across.
    :::
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def block_not_closed(span: Span, what: str, help_text: str) -> Diagnostic:
    """span: the line of the block."""
    return Diagnostic(PAGE, what, Excerpt(span), help=(help_text,))
