"""SP234 revision-not-raised

Severity  error
Checks    a sheet of corrections leads from one revision to another: the new one has a `revision` of its own.
Matters   "Affected: revision 1. Corrected in revision 1." A maker cannot tell which of the two she holds.
Mend      raise `revision` in pattern.yaml first, then ask for the sheet again.
Source    common practice, no source: a corrected pattern is told from the faulty one by its revision.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile, Span

PAGE = read_page(__doc__)


def revision_not_raised(where: str, revision: str, written: Span | None) -> Diagnostic:
    """where: the new side, as it was asked for. written: its `revision` in pattern.yaml, where that is at hand."""
    return Diagnostic(
        PAGE,
        f"{where} reads otherwise and still is revision {revision}, which the corrections are for",
        Excerpt(written or SourceFile(where, "").whole, "the revision that has the fault"),
        help=("raise `revision` in pattern.yaml first, then ask for --errata again",),
    )
