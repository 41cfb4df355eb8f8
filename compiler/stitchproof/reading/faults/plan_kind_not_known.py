"""SP082 plan-kind-not-known

Severity  error
Checks    the `kind` of each plan is one that stitchproof can make, such as `crown` or `buttonholes`.
Matters   the kind decides which numbers a plan needs and which it gives; without it there is nothing to print in the
          rows.
Mend      write one of the kinds that the help line lists.
Source    how pattern.yaml is written for stitchproof.

Fires:
    counts:
      hat_sts: 64 sts
    plans:
      crown_dec: {kind: crowns, from: hat_sts, sections: 8}
    ---
    Row 1: Sc in each st to the last <crown_dec.end> sts, turn.

Quiet:
    counts:
      hat_sts: 64 sts
    plans:
      crown_dec: {kind: crown, from: hat_sts, sections: 8}
    ---
    Row 1: Sc in each st to the last <crown_dec.end> sts, turn.
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def plan_kind_not_known(span: Span, kind: str, known: Iterable[str]) -> Diagnostic:
    """known: the kinds there are; the one that was most likely meant is offered."""
    names = list(known)
    near = nearest(kind.lower(), names) or next((name for name in names if kind and name.startswith(kind.lower())), "")
    listed = ", ".join(f"`{name}`" for name in names)
    help_text = f"write `{near}`; the kinds are {listed}" if near else f"the kinds are {listed}"
    return Diagnostic(PAGE, f"`{kind}` is no kind of plan", Excerpt(span, "not known here"), help=(help_text,))
