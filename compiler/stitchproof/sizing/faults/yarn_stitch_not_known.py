"""SP191 yarn-stitch-not-known

Severity  error
Checks    what `yarn` weighs, counts as another or leaves inside the scale is a stitch of the trade or of the pattern;
          after `at` stands one of its gauges; and what a stitch counts as has a weight.
Matters   a stitch that is misspelt there is counted for nothing, and the maker runs out of yarn.
Mend      write the stitch as the rows do, without its loops; where loops change the weight, name the gauge: `sc at rib`.
Source    how pattern.yaml is written for stitchproof.

Fires:
    yarn:
      weights: {scc: 0.0236 g}

Fires:
    yarn:
      weights: {sc at fabrik: 0.0236 g}

Fires:
    yarn:
      weights: {sc: 0.0236 g}
      counts_as: {hdc2tog: hdc}

Quiet:
    yarn:
      weights: {sc at fabric: 0.0236 g, hdc: 0.0364 g}
      counts_as: {hdc2tog: hdc}
      inside_scale: [ch, sl st]
"""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def stitch_not_known(span: Span, stitch: str, known: Iterable[str]) -> Diagnostic:
    """known: the names that stitches have; the nearest is offered."""
    near = nearest(stitch, sorted(known))
    help_text = f"write `{near}`" if near else "write it as the rows do, or define it under `special_stitches`"
    return Diagnostic(PAGE, f"`{stitch}` is not a stitch of this pattern", Excerpt(span), help=(help_text,))


def gauge_not_known(span: Span, gauge: str, known: Iterable[str]) -> Diagnostic:
    """A stitch "at" a gauge that the pattern does not have."""
    names = list(known)
    near = nearest(gauge, names)
    help_text = f"write `{near}`" if near else "the gauges are: " + ", ".join(f"`{name}`" for name in names)
    return Diagnostic(PAGE, f"`{gauge}` is not a gauge of this pattern", Excerpt(span), help=(help_text,))


def target_without_weight(span: Span, stitch: str, weighed: Iterable[str]) -> Diagnostic:
    """What a stitch counts as has no weight itself."""
    names = ", ".join(f"`{name}`" for name in weighed)
    return Diagnostic(
        PAGE,
        f"a stitch counts as `{stitch}` here, and `{stitch}` has no weight",
        Excerpt(span),
        help=(f"give `{stitch}` a weight, or name one that has: {names}",),
    )


def stitch_told_twice(span: Span, stitch: str, before: Span) -> Diagnostic:
    """A stitch that is weighed, counted as another or left inside the scale, and then once more."""
    return Diagnostic(
        PAGE,
        f"`{stitch}` is told twice",
        Excerpt(span, "told again"),
        related=(Excerpt(before, "told here"),),
        help=("keep one of the two",),
    )
