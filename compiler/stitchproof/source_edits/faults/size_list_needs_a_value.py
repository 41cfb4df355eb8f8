"""SP226 size-list-needs-a-value

Severity  error
Checks    a size that is added has a value in every list of pattern.yaml that holds one value for each size.
Matters   a list with a value too few would leave open which size each of its numbers is for.
Mend      give the values that the help lines name; those beside them are only a line drawn on from the neighbours.
Source    how pattern.yaml is written for stitchproof.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def size_list_needs_a_value(span: Span, name: str, size: str, proposal: str) -> Diagnostic:
    """span: the list. proposal: a value that goes on from its neighbours, or "" where none can be drawn."""
    drawn = f"; the neighbours, drawn on in a line, give `{name}[{size}]={proposal}`" if proposal else ""
    return Diagnostic(
        PAGE,
        f"`{name}` has one value for each size, and none for {size}",
        Excerpt(span),
        sizes=(size,),
        help=(f"give one, `{name}[{size}]=VALUE`{drawn}",),
        about=name,
    )
