"""SP203 photo-not-printed

Severity  error
Checks    each photo can be opened and shown when the page is made: the file is whole, and no larger than 60 million
          dots when it is unpacked.
Matters   a picture that is cut off shows grey, and one that unpacks to thousands of times its size fills the memory.
Mend      save the picture again from the camera's file, smaller if need be.
Source    common practice, no source.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def photo_not_printed(file: Span, what: str) -> Diagnostic:
    """what: why it cannot be shown."""
    return Diagnostic(
        PAGE,
        f"the photo `{file.text.strip()}` {what}",
        Excerpt(file, "this file"),
        help=("save the picture again, at most 6000 dots wide and high",),
    )
