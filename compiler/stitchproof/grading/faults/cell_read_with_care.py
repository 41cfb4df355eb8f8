"""SP224 cell-read-with-care

Severity  warning
Checks    what a grading sheet says is taken as it stands there.
Matters   a formula in a cell, an emptied cell or a sheet of an older state can mean something else than what is read.
Mend      look at the cell that the report names; write the number itself where it is meant.
Source    the form of grading sheets in stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def cell_read_with_care(
    span: Span, address: str, about: str, message: str, help_text: str, sizes: tuple[str, ...] = ()
) -> Diagnostic:
    """span: the cell. message: what stands there and how it is taken, as a sentence."""
    of = f" ({about})" if about else ""
    return Diagnostic(PAGE, f"cell {address}{of}: {message}", Excerpt(span), sizes=sizes, help=(help_text,))
