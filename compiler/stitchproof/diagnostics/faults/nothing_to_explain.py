"""SP121 nothing-to-explain

Severity  error
Checks    `stitchproof explain` is asked for the code or the name of a fault, or for a pattern and a name in it.
Matters   nothing can be told about what is not there.
Mend      write a code as it stands in a report, such as `explain SP001`; or a fault's name; or a pattern and one of its
          names, such as `explain my_hat hat_sts`.
Source    how `stitchproof explain` is written.
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def nothing_to_explain(asked: Span, known: Iterable[str]) -> Diagnostic:
    """asked: what was asked for, alone. known: the codes and names of all faults; the nearest is offered."""
    near = nearest(asked.text, known)
    help_text = (
        f"write `{near}`"
        if near
        else "a code is SP001 to SP999; for a number of a pattern write `explain PATTERN NAME`"
    )
    return Diagnostic(PAGE, f"{asked.text} is not a fault", Excerpt(asked), help=(help_text,))
