"""SP222 sheet-not-readable

Severity  error
Checks    a grading sheet that comes back is the one that was written: its names, its units, a column for each size.
Matters   numbers whose size or name is open would go to the wrong place.
Mend      mend what the report names, or write the sheet again with `stitchproof grade PATTERN --out FILE`.
Source    the form of grading sheets in stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile, Span

PAGE = read_page(__doc__)


def sheet_not_readable(where: Span | str, message: str, help_text: str = "") -> Diagnostic:
    """where: a cell, or the file as the user sees it. message: what is wrong, as a sentence about the sheet."""
    span = SourceFile(where, "").whole if isinstance(where, str) else where
    mend = help_text or "write the sheet again with `stitchproof grade PATTERN --out FILE`, and put the changes in"
    return Diagnostic(PAGE, f"the grading sheet {message}", Excerpt(span), help=(mend,))
