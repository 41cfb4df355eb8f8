"""SP122 gauge-of-heading-not-known

Severity  error
Checks    a heading inside a piece that names a gauge in braces, `### Hem {gauge: rib}`, names one of `gauges` in pattern.yaml.
Matters   the rows below it are worked at that gauge; with another one, their lengths in cm would be wrong, and the
          maker's piece another size.
Mend      correct the name in braces, or add the gauge to pattern.yaml.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    pieces:
      piece: {gauge: fabric, worked: rows}
    ---
    ### Hem {gauge: fabrik}
    Row 1: Sc in each st across.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: rows}
    ---
    ### Hem {gauge: fabric}
    Row 1: Sc in each st across.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def gauge_of_heading_not_known(span: Span, name: str, known: tuple[str, ...]) -> Diagnostic:
    """span: the heading. known: the gauges of pattern.yaml."""
    near = nearest(name, known)
    help_text = f"write `{{gauge: {near}}}`" if near else f"the gauges are: {', '.join(known)}"
    return Diagnostic(PAGE, f"`{name}` is not a gauge of this pattern", Excerpt(span), help=(help_text,))
