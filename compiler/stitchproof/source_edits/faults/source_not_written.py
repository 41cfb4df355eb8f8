"""SP221 source-not-written

Severity  error
Checks    the pattern's files are as they were read when they are written, and can be written.
Matters   an edit over somebody else's would lose hers.
Mend      run the command again; close the file elsewhere, or give yourself the right to write it.
Source    how stitchproof keeps a designer's files.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile

PAGE = read_page(__doc__)


def source_not_written(shown: str, why: str, help_text: str) -> Diagnostic:
    """shown: the file as the user sees it. Nothing was written."""
    where = Excerpt(SourceFile(shown, "").whole, why)
    return Diagnostic(PAGE, f"{shown} was not written: {why}", where, help=(help_text,))
