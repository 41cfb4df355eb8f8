"""SP202 photo-not-usable

Severity  error
Checks    each photo is a picture that a page can show: a JPEG, PNG or WebP file of at most 30 MB.
Matters   the page would have a gap; and a drawing that may hold links and scripts does not pass as a photo.
Mend      save the picture as a JPEG or PNG file, and name that file.
Source    common practice, no source.

Fires:
    photos:
      front: {file: front.jpg, alt: The piece from the front}
    --- front.jpg
    no picture at all

Quiet:
    tutorials:
      sc: {words: How to work a single crochet, address: https://example.org/sc}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def photo_not_usable(file: Span, what: str) -> Diagnostic:
    """what: what it is instead, or why it cannot be shown."""
    return Diagnostic(
        PAGE,
        f"the photo `{file.text.strip()}` {what}",
        Excerpt(file, "this file"),
        help=("save the picture as a JPEG or PNG file of a few megabytes",),
    )
