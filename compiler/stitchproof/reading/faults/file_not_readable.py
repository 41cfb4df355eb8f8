"""SP011 file-not-readable

Severity  error
Checks    every file of the pattern is there and can be read: plain text, saved as UTF-8, inside the pattern's own
          folders, and of a sensible size.
Matters   nothing can be said about a pattern that cannot be read.
Mend      put the file back, or save it again as plain text: your editor's “save as” offers the encoding UTF-8.
Source    the Unicode Standard, for UTF-8.

Fires:
    texts: [missing.md]

Quiet:
    texts: [text.md]
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile, Span

PAGE = read_page(__doc__)


def file_not_readable(path: str, what: str, help_text: str, asked_for: Span | None = None) -> Diagnostic:
    """path: as shown to the user. asked_for: where another file names it."""
    return Diagnostic(
        PAGE,
        f"{path} {what}",
        Excerpt(asked_for or SourceFile(path, "").whole, what if asked_for else ""),
        help=(help_text,),
    )
