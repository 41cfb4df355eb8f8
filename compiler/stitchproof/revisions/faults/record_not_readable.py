"""SP230 record-not-readable

Severity  error
Checks    what `stitchproof compare` is given is a record that this stitchproof wrote: `record.json`, or the folder of a build.
Matters   a damaged record would be compared as if the pattern had changed.
Mend      build the pattern again, or name the folder with its pattern.yaml: it is checked on the spot.
Source    the form of records, `record.schema.json`.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile

PAGE = read_page(__doc__)


def record_not_readable(shown: str, why: str) -> Diagnostic:
    """shown: the file as the user sees it. why: what is wrong with it, as a clause."""
    return Diagnostic(
        PAGE,
        f"{shown} cannot be read as a record: {why}",
        Excerpt(SourceFile(shown, "").whole),
        help=("build the pattern again, or name its folder with pattern.yaml",),
    )
