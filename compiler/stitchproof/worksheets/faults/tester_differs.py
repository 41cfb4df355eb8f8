"""SP184 tester-differs

Severity  warning
Checks    what a tester counted, measured and weighed is what the pattern was worked out to.
Matters   the numbers may add up and the text still lead a maker elsewhere; a tester who comes to another count has read it so.
Mend      read the line as she did; ask her; make the text clearer, or correct the gauge, the length or the yarn.
Source    common practice, no source.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile
from stitchproof.worksheets.compare import Compared

PAGE = read_page(__doc__)


def tester_differs(shown: str, size: str, compared: Compared) -> Diagnostic:
    """shown: the file as the user sees it."""
    return Diagnostic(
        PAGE,
        f"{compared.where}: {compared.found or 'something'} where the pattern has {compared.expected}",
        Excerpt(SourceFile(shown, "").whole, compared.told),
        sizes=(size,),
        help=("read the line as the tester did, and make it clearer or correct it",),
    )


def other_revision(shown: str, returned: str, now: str) -> Diagnostic:
    """The tester had another revision than the pattern is now."""
    return Diagnostic(
        PAGE,
        f"the tester worked from revision {returned}; the pattern is revision {now} now",
        Excerpt(SourceFile(shown, "").whole, "lines may have other numbers, and rows other counts"),
        help=("compare with the revision that she had",),
    )
