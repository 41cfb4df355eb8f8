"""SP083 loop-does-not-fit-plan

Severity  error
Checks    a block `for each … of …` names a plan that has rounds, rows or holes to go through, and calls them what they
          are: `dec rnd`, `inc row`, `hole`, or any of them by a letter such as `k`.
Matters   a maker who reads “Inc Rnd” and ends with fewer stitches doubts her work.
Mend      write the word that the help line shows, or `for each k of` the plan.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    counts:
      hat_sts: 24 sts
    plans:
      crown_dec: {kind: crown, from: hat_sts, sections: 8}
    ---
    ::: for each inc rnd of crown_dec
    Dec Rnd <k>: [Sc in next st, sc2tog] 8 times. — <crown_dec.after(k)> sc
    :::

Fires:
    counts:
      hat_sts: 24 sts
    plans:
      crown_dec: {kind: crown, from: hat_sts, sections: 8}
    ---
    Row 1: Sc in each st across. — <hat_sts> sc
    ::: for each k of crown
    Row <k + 1>: Sc in each st across. — <hat_sts> sc
    :::

Quiet:
    counts:
      hat_sts: 24 sts
    plans:
      crown_dec: {kind: crown, from: hat_sts, sections: 8}
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    ::: for each dec rnd of crown_dec
    Dec Rnd <k>:
      sizes with crown_dec.before(k) > 0: [Sc in next st, sc2tog] 8 times. — <crown_dec.after(k)> sc
      other sizes: [Sc2tog] 8 times. — <crown_dec.after(k)> sc
    :::
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def no_such_plan(span: Span, known: Iterable[str]) -> Diagnostic:
    """known: the plans that could be named here; none in a shared text, which sees no names of the pattern."""
    names = list(known)
    near = nearest(span.text, names) or next((name for name in names if name.startswith(span.text)), "")
    help_text = f"write `{near}`" if near else f"the plans are {', '.join(f'`{name}`' for name in names)}"
    if not names:
        help_text = "add it under `plans:` in pattern.yaml, or count to a number: `for each k in 1 to …`"
    return Diagnostic(PAGE, f"`{span.text}` is no plan of this pattern", Excerpt(span), help=(help_text,))


def plan_counts_nothing(span: Span, kind: str) -> Diagnostic:
    """A plan without rounds, rows or holes of its own: it is worked once."""
    help_text = "name its parts in one row, without a loop"
    headline = f"`{span.text}` has nothing to count: {kind} is one row"
    return Diagnostic(PAGE, headline, Excerpt(span), help=(help_text,))


def another_word(span: Span, plan: str, words: tuple[str, ...]) -> Diagnostic:
    """The plan makes something else than the loop says."""
    help_text = " or ".join(f"`for each {word} of {plan}`" for word in (*words, "k"))
    headline = f"{plan} has no `{span.text}`"
    return Diagnostic(PAGE, headline, Excerpt(span, "not in this plan"), help=(f"write {help_text}",))
