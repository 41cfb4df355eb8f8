"""SP220 not-edited-in-place

Severity  error
Checks    a value that is to be changed stands at one place of the pattern's own files, and can be changed there alone.
Matters   a value that several places share, or that is folded over lines, would change more than was asked for.
Mend      change it by hand, as the help line says, and run the command again.
Source    how stitchproof keeps a designer's files.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def not_edited_in_place(span: Span, name: str, why: str, by_hand: str, sizes: tuple[str, ...] = ()) -> Diagnostic:
    """span: where the value stands. name: what was to be changed. by_hand: what to do instead."""
    first_line = span.text.split("\n")[0]
    return Diagnostic(
        PAGE,
        f"`{name}` cannot be changed here: {why}",
        Excerpt(span.part(0, len(first_line))),
        sizes=sizes,
        help=(by_hand,),
        about=name,
    )
