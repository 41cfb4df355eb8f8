"""SP017 unknown-key

Severity  error
Checks    every key of pattern.yaml, the word before a colon, is one that stitchproof knows.
Matters   a misspelt key would be passed over, and what it says would be missing from the pattern.
Mend      correct the key; `notes` and other texts belong in the text files.
Source    how pattern.yaml is written for stitchproof.

Fires:
    titel: Hat

Fires:
    gauges:
      fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, state: blocked, hok: 4 mm}

Quiet:
    title: Hat
    gauges:
      fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, state: blocked, hook: 4 mm}
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def unknown_key(span: Span, key: str, where: str, known: Iterable[str]) -> Diagnostic:
    """known: the keys that this group may have."""
    names = sorted(known)
    near = nearest(key, names)
    help_text = f"write `{near}`" if near else "the keys here are: " + ", ".join(names)
    return Diagnostic(
        PAGE, f"`{key}` is not a key of {where or 'pattern.yaml'}", Excerpt(span, "not known here"), help=(help_text,)
    )
