"""SP074 gauge-not-plausible

Severity  warning
Checks    a gauge in plain single crochet (UK double crochet) and its hook agree with a published yarn category: the
          stitches in 10 cm lie within it, and the hook within it or within the category next above or below. Other
          stitches have no published gauge.
Matters   a slip of the pen in the gauge or the hook makes every maker's swatch fail.
Mend      correct the gauge or the hook. If your swatch is right, accept the warning with that reason: your gauge comes
          before any table.
Source    Craft Yarn Council, Standard Yarn Weight System (guidelines). That neighbours count too is common practice.

Fires:
    gauges:
      fabric: {stitches: 24, rows: 26, over: 10 cm, stitch: sc, worked: rows, hook: 8 mm, state: blocked}

Quiet:
    gauges:
      fabric: {stitches: 15, rows: 17, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}
      chunky: {stitches: 10, rows: 11, over: 10 cm, stitch: sc, worked: rows, hook: 6 mm, state: blocked}
      lace: {stitches: 24, rows: 20, over: 10 cm, stitch: shell lace, worked: rows, hook: 8 mm, state: blocked}
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import exact_text, rounded_text
from stitchproof.reading.pattern_source import Gauge
from stitchproof.sizing.sized_pattern import SizedPattern

if TYPE_CHECKING:
    from stitchproof.standards.yarn import YarnWeight

PAGE = read_page(__doc__)
_STITCH = {
    "US": LatePattern(r"(?:plain )?(?:sc|single crochet)", re.IGNORECASE, ("sc", "single crochet")),
    "UK": LatePattern(r"(?:plain )?(?:dc|double crochet)", re.IGNORECASE, ("dc", "double crochet")),
}
_MM = LatePattern(r"(\d+(?:[.,]\d+)?)\s*mm\b")


def gauges(sized: SizedPattern, report: Report) -> None:
    """Gauges in single crochet far from every published category."""
    header = sized.source.header
    for gauge in header.gauges:
        stitch = " ".join(gauge.stitch.text.split()) if gauge.stitch else ""
        hook = _MM.search(gauge.hook.text) if gauge.hook else None
        per_cm = sized.scope.value(f"gauges.{gauge.name}.stitches", 0, None)
        if hook and isinstance(per_cm, Fraction) and _STITCH[header.identity.terms].fullmatch(stitch):
            _judge(gauge, per_cm * 10, Fraction(hook[1].replace(",", ".")), report)


def _judge(gauge: Gauge, stitches: Fraction, hook: Fraction, report: Report) -> None:
    from stitchproof.standards.yarn import weights_for, yarn_weights

    if weights_for(stitches, hook):
        return
    near = _categories(stitches)
    numbers = {number + step for number in near for step in (-1, 0, 1)}
    printings = [each for weight in yarn_weights() if weight.category in numbers for each in weight.printings]
    low = min((each.hook_mm.low for each in printings if each.hook_mm.low is not None), default=Fraction(0))
    high = (
        None
        if any(each.hook_mm.high is None for each in printings)
        else max(_high(each.hook_mm.high) for each in printings)
    )
    if (low <= hook or 0 in numbers) and (high is None or hook <= high):
        return
    usual = f"from {exact_text(low)} mm" + (f" to {exact_text(high)} mm" if high is not None else "")
    report.add(
        Diagnostic(
            PAGE,
            f'the gauge "{gauge.name}" has {rounded_text(stitches)} sts in 10 cm with {exact_text(hook)} mm: no yarn is near',
            Excerpt(gauge.span, f"usual hooks for it: {usual}"),
            help=("correct the gauge or the hook, or accept this with a reason",),
        )
    )


def _high(size: Fraction | None) -> Fraction:
    return size if size is not None else Fraction(0)


def _categories(stitches: Fraction) -> list[int]:
    """The categories that print a gauge; of one between two or past the last, those next to it."""
    from stitchproof.standards.yarn import weights_for, yarn_weights

    held = [weight.category for weight in weights_for(stitches, None)]
    if held:
        return held
    in_sc = [weight for weight in yarn_weights() if weight.gauge_stitch == "sc"]
    distance = {weight.category: _distance(weight, stitches) for weight in in_sc}
    nearest = min(distance.values())
    return [category for category, each in distance.items() if each <= nearest + 1]


def _distance(weight: YarnWeight, stitches: Fraction) -> Fraction:
    gauge = weight.printings[0].gauge
    return max((gauge.low or Fraction(0)) - stitches, stitches - (gauge.high or stitches), Fraction(0))


CHECKS = (gauges,)
