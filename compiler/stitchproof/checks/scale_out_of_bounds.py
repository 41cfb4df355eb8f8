"""SP194 scale-out-of-bounds

Severity  warning
Checks    the sample weighs about what its stitches come to: 0.9 to 1.15 times as much.
Matters   ends, seams and tension explain no more than that. Beyond it a swatch or the sample was weighed wrongly, or a count is
          wrong, and every size is scaled by the mistake.
Mend      weigh the swatches and the sample again; look whether the sample is the size, and the pieces, that are named.
Source    common practice, no source.

Fires in M:
    yarn:
      weights: {sc: 0.02 g}
      sample: {size: M, weighs: 0.5 g}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc

Quiet:
    yarn:
      weights: {sc: 0.02 g}
      sample: {size: M, weighs: 0.42 g}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.measures.values import exact_text, rounded_text
from stitchproof.measures.yarn_sum import HIGHEST_SCALE, LOWEST_SCALE, weight_of
from stitchproof.simulation.complete_pattern import CompletePattern

PAGE = read_page(__doc__)


def scales(complete: CompletePattern, report: Report) -> None:
    """Samples that weigh something else than their stitches."""
    for use, entry in zip(complete.sized.uses, complete.sized.source.header.yarns, strict=True):
        sample, scale = use.yarn.sample, use.scale
        if sample is None or use.weighed is None or scale is None or LOWEST_SCALE <= scale <= HIGHEST_SCALE:
            continue
        weight = next(each for each in entry.numbers if each.name == f"{entry.name}.sample")
        bounds = f"{exact_text(LOWEST_SCALE)} to {exact_text(HIGHEST_SCALE)}"
        size = complete.sized.sizes[sample.size]
        stitches = " + ".join(f"{each.number} {each.words} × {exact_text(each.grams)} g" for each in use.sample)
        counted = rounded_text(weight_of(use.sample))
        sum_ = f"{stitches} = {counted} g; {exact_text(use.weighed)} g ÷ {counted} g = {rounded_text(scale, 3)}"
        report.add(
            Diagnostic(
                PAGE,
                f"the sample of `{use.yarn.name}` weighs {rounded_text(scale, 2)} times what its stitches come to",
                Excerpt(weight.value_span, f"usual are {bounds} times"),
                sizes=(size,),
                sums=(SumLine(size, sum_),),
                help=("a weight or a count is wrong: weigh the swatches and the sample again",),
                about=use.yarn.name,
            )
        )


CHECKS = (scales,)
