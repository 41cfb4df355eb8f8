"""SP000 internal-fault

Severity  error
Checks    nothing of yours: stitchproof itself failed while it worked on this pattern.
Matters   what it had not yet looked at was not checked, and no page was written.
Mend      send us the pattern and this report; until it is mended, take out the last thing you changed.
Source    none; this is our own mistake.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile

PAGE = read_page(__doc__)


def internal_fault(path: str, stage: str, what: str) -> Diagnostic:
    """stage: the stage that failed. what: kind and place of the exception, for whoever mends it."""
    return Diagnostic(
        PAGE,
        f"stitchproof itself failed while {stage}; this is our mistake, not yours",
        Excerpt(SourceFile(path, "").whole, what),
        help=("please send us this pattern folder and this report",),
    )
