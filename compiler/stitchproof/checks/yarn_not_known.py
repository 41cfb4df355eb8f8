"""SP195 yarn-not-known

Severity  error
Checks    where an amount of yarn is printed, every row that the yarn is counted from is proved.
Matters   a row that is not read, or is taken on trust, may hold any number of stitches; an amount without them is too small.
Mend      write the row in words that stitchproof reads; or take the amount out and give it by hand under `measures`.
Source    common practice, no source.

Fires in S, M:
    yarn:
      weights: {sc: 0.02 g}
    materials: ["Light (category 3) wool, 220 m per 100 g: <yarn.grams>"]
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    ::: on trust: the maker chooses her own path
    Row 2: Ch 1, wiggle across to taste, turn. — 20 sc
    :::

Quiet:
    measures:
      yarn: 5 g
    materials: ["Light (category 3) wool, 220 m per 100 g: <yarn>"]
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    ::: on trust: the maker chooses her own path
    Row 2: Ch 1, wiggle across to taste, turn. — 20 sc
    :::
"""

from __future__ import annotations

from stitchproof.checks.row_findings import step_words
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Step
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.sizing.sized_yarns import YarnUse

PAGE = read_page(__doc__)


def unknown(complete: CompletePattern, report: Report) -> None:
    """Printed amounts of yarn with a row that is not proved. Where there are errors, these are the reason."""
    if report.has_errors or not complete.worked.written.expanded.late:
        return
    for use in complete.sized.uses:
        steps = _unproved(use, complete)
        if steps:
            report.add(_report(use, steps, complete))


def _unproved(use: YarnUse, complete: CompletePattern) -> list[Step]:
    """The steps of a yarn that are not proved in some size, in the order of the pattern."""
    pieces = (*use.yarn.pieces, *use.yarn.one_of)
    worked = [piece for piece in complete.worked.pieces if piece.name in pieces]
    found = {id(finding.worked_at) for finding in complete.worked.findings}
    return [step.step for piece in worked for step in piece.steps if step.not_counted or id(step.step) in found]


def _report(use: YarnUse, steps: list[Step], complete: CompletePattern) -> Diagnostic:
    names = complete.sized.sizes
    more = f", and {len(steps) - 1} more" if len(steps) > 1 else ""
    return Diagnostic(
        PAGE,
        f"the amount of `{use.yarn.name}` is not known: {step_words(steps[0], steps[0].served)} is not proved{more}",
        Excerpt(use.yarn.span, "counted from every row"),
        sizes=tuple(names[size] for size in use.unproved),
        piece=steps[0].piece,
        row=steps[0].identity,
        related=tuple(Excerpt(step.place.span, "not proved") for step in steps),
        help=("write the row in words that can be read, or give the amount by hand under `measures`",),
        about=use.yarn.name,
    )


CHECKS = (unknown,)
