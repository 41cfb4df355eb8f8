"""SP183 worksheet-not-readable

Severity  error
Checks    a returned worksheet is the file that was sent out, filled in.
Matters   what cannot be read is not compared with anything.
Mend      correct the line that the report names, or ask the tester to send the file again.
Source    the form of worksheets in stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile

PAGE = read_page(__doc__)


def worksheet_not_readable(shown: str, message: str, text: str = "", line: int = 0, mend: str = "") -> Diagnostic:
    """shown: the file as the user sees it. message: what is wrong with it. text, line: what it holds and in which line of it,
    from 1, where a line is the cause. mend: what to write there."""
    file = SourceFile(shown, text)
    return Diagnostic(
        PAGE,
        f"{shown} cannot be read: {message}",
        Excerpt(file.line_span(line) if line else file.whole, message),
        help=(mend or "send the tester the worksheet of her size again, or correct the file",),
    )
