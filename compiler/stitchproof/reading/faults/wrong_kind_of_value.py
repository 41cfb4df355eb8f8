"""SP018 wrong-kind-of-value

Severity  error
Checks    each key of pattern.yaml has the kind of value it takes: a text, a list, a group of keys, or one of a few words.
Matters   a value that is not understood would be missing from the page that the maker reads.
Mend      write the value as the help line says.
Source    how pattern.yaml is written for stitchproof.

Fires:
    terms: french

Fires:
    title: [Hat, Cap]

Fires:
    sizes: [S, M]

Quiet:
    terms: US
    title: Hat
    sizes: {names: [S, M]}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def wrong_kind_of_value(span: Span, what: str, wanted: str, example: str = "") -> Diagnostic:
    """what: the key or group. wanted: what it takes. example: how it is written, where that is shorter to say."""
    first_line = span.text.split("\n")[0]
    label = "this is something else" if span.text.strip() else "nothing stands here"
    help_text = f"write for example `{example}`" if example else f"give it {wanted}"
    return Diagnostic(PAGE, f"{what} takes {wanted}", Excerpt(span.part(0, len(first_line)), label), help=(help_text,))
