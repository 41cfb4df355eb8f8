"""SP204 figure-not-known

Severity  error
Checks    what `::: photo` and `::: tutorial` put into the text is given in pattern.yaml, under `photos` or `tutorials`.
Matters   a picture without its alternative text would say nothing to a maker who does not see it.
Mend      give it there, or correct the name.
Source    how pattern.yaml is written for stitchproof.

Fires:
    tutorials:
      sc: {words: How to work a single crochet, address: https://example.org/sc}
    ---
    ::: tutorial dc
    :::

Quiet:
    tutorials:
      sc: {words: How to work a single crochet, address: https://example.org/sc}
    ---
    ::: tutorial sc
    :::
"""

from __future__ import annotations

from collections.abc import Sequence

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def figure_not_known(line: Span, kind: str, name: str, known: Sequence[str]) -> Diagnostic:
    """kind: photo or tutorial."""
    near = nearest(name, known)
    listed = ", ".join(f"`{each}`" for each in known)
    help_text = f"write `{near}`" if near else f"pattern.yaml has {listed}" if known else f"give it under `{kind}s`"
    return Diagnostic(PAGE, f"no {kind} of the name `{name}` is given", Excerpt(line, "not known"), help=(help_text,))
