"""SP015 tag-not-allowed

Severity  error
Checks    pattern.yaml holds plain values only, without the words beginning with ! that YAML calls tags, such as
          `!include`.
Matters   a tag asks the program that reads the file to do something; a pattern folder from a stranger must not.
Mend      take the tag out; put the value in quotes if the ! belongs to it.
Source    YAML 1.2 specification, section 6.8.2 (tags).

Fires:
    title: !!str Hat

Quiet:
    title: "Hat!!"
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def tag_not_allowed(span: Span, tag: str) -> Diagnostic:
    """span: the value that carries the tag."""
    return Diagnostic(
        PAGE, "a YAML tag is not allowed here", Excerpt(span, f"the tag is `{tag[:60]}`"), help=("take the tag out",)
    )
