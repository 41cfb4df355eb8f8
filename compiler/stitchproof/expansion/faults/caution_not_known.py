"""SP036 caution-not-known

Severity  error
Checks    the cautions that pattern.yaml asks for are among those that come with stitchproof.
Matters   a safety text that is misspelt would be missing from the page.
Mend      write one of the names in the help line; a caution of your own goes into the text: `::: caution`.
Source    the list of cautions that comes with stitchproof, standards/safety.yaml.

Fires:
    cautions: [small_part]

Quiet:
    cautions: [small_parts]
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def caution_not_known(span: Span, known: tuple[str, ...]) -> Diagnostic:
    """known: the rules of the shipped cautions."""
    near = nearest(span.text.strip(), known)
    help_text = f"write `{near}`" if near else f"the cautions are {', '.join(known)}"
    return Diagnostic(
        PAGE, f"`{span.text.strip()}` is not one of the shipped cautions", Excerpt(span), help=(help_text,)
    )
