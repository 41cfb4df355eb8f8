"""SP223 cell-not-usable

Severity  error
Checks    each cell of a grading sheet that was changed holds a number for a value and a size of the pattern, in its unit.
Matters   a cell that is guessed at would put a number into the pattern that nobody chose.
Mend      write a number into the cell, in the unit that stands in its row.
Source    the form of grading sheets in stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def cell_not_usable(
    span: Span, address: str, about: str, message: str, help_text: str, sizes: tuple[str, ...] = ()
) -> Diagnostic:
    """span: the cell. address: "C7". about: the name it belongs to, or "". message: what stands there, as a sentence."""
    of = f" ({about})" if about else ""
    return Diagnostic(
        PAGE, f"cell {address}{of}: {message}", Excerpt(span), sizes=sizes, help=(help_text,) if help_text else ()
    )
