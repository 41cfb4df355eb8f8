"""SP039 page-not-printed

Severity  error
Checks    every picture, font and style rule that the page was given could be used when it was made.
Matters   what it passes over is missing from the page, and nobody would notice before a buyer does.
Mend      put back the file that the report names, or correct the rule in the style folder.
Source    common practice, no source.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile

PAGE = read_page(__doc__)


def page_not_printed(edition: str, message: str) -> Diagnostic:
    """message: what the renderer said."""
    return Diagnostic(
        PAGE,
        f"the edition {edition} does not print as it should: {message[:200]}",
        Excerpt(SourceFile(f"styles/{edition}", "").whole, message[:80]),
        help=("correct the style folder of this edition",),
    )


def style_not_usable(path: str, message: str) -> Diagnostic:
    """An edition's folder is missing or broken."""
    return Diagnostic(
        PAGE,
        f"the edition cannot be printed: {message}",
        Excerpt(SourceFile(path, "").whole, message),
        help=("name an edition that is there, or correct its folder",),
    )
