"""SP038 count-out-of-bounds

Severity  error
Checks    a named value stays within the bounds stated for it (`at_least`, `at_most`), no count is below zero, in
          pattern.yaml or in a row, and a gauge counts more than nothing.
Matters   a count below zero cannot be worked; one past its bound does what the designer wanted to rule out.
Mend      change a number that it is worked out from, or the bound.
Source    common practice, no source.

Fires in S:
    counts:
      plain_rows: {by_hand: [2 rows, 6 rows], at_least: 3 rows}

Fires in M:
    counts:
      rest: {by_hand: [4 sts, -2 sts]}

Fires in M:
    counts:
      rest: [4 sts, 2 sts]
    ---
    Row 1: Sc in next <rest - 3> sts, turn.

Fires in S, M:
    gauges:
      fabric: {stitches: 16, rows: 0, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}

Fires in S:
    counts:
      body_sts: [40 sts, 60 sts]
      between(k): {is: body_sts / 4 - 2 * k, at_least: 5}
    ---
    ::: for each k in 1 to 4
    Row <k>: Sc in each of next <between(k)> sts, turn.
    :::

Quiet:
    counts:
      plain_rows: {by_hand: [3 rows, 6 rows], at_least: 3 rows}
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.k_values import faults_at_k, is_wrong_in_use
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.wrong_counts import follows_from_wrong, is_out_of_bounds, text_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Step
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.sums import worked
from stitchproof.measures.values import Absent
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern, is_no_gauge

PAGE = read_page(__doc__)


def bounds(sized: SizedPattern, report: Report) -> None:
    """Named values outside their bounds; counts below zero."""
    for quantity in sized.quantities:
        for size, value in enumerate(quantity.values):
            if not isinstance(value, Fraction):
                continue
            if is_no_gauge(quantity):
                report.add(_report(quantity, size, value, "as zero" if value == 0 else "below zero", sized))
                continue
            if follows_from_wrong(quantity, size, sized):
                continue
            low, high = quantity.at_least[size], quantity.at_most[size]
            if isinstance(low, Absent) and isinstance(high, Absent) and value.numerator >= 0:  # as most are
                continue
            if isinstance(low, Fraction) and value < low:
                report.add(_report(quantity, size, value, f"below {amount_text(low, quantity.kind)}", sized))
            elif isinstance(high, Fraction) and value > high:
                report.add(_report(quantity, size, value, f"above {amount_text(high, quantity.kind)}", sized))
            elif value < 0 and quantity.section == "counts":
                report.add(_report(quantity, size, value, "below zero", sized))


def slots(expanded: ExpandedPattern, report: Report) -> None:
    """Counts below zero in steps, unless a named count that they speak of is below zero itself."""
    for step, number, size, value in found_in(parts_of(expanded.document), _below_zero):
        if not _speaks_of_wrong(number.written, size, expanded):
            report.add(_in_step(number, value, size, step, expanded.sized))


def _below_zero(part: Part) -> Iterator[tuple[Step, Number, int, Fraction]]:
    for step, number in part.numbers_in_steps():
        for size in number.served if number.dimension.is_count else ():
            value = number.values[size]
            if isinstance(value, Fraction) and value.numerator < 0:
                yield step, number, size, value


def bounds_at_k(expanded: ExpandedPattern, report: Report) -> None:
    """Values such as `between(k)` that leave their bounds, or counts below zero, at a k in use."""

    def fault(quantity: Quantity, size: int, value: Fraction) -> str:
        if not is_out_of_bounds(quantity, size, value):
            return ""
        low, high = quantity.at_least[size], quantity.at_most[size]
        if isinstance(low, Fraction) and value < low:
            return f"below {amount_text(low, quantity.kind)}"
        return (
            f"above {amount_text(high, quantity.kind)}" if isinstance(high, Fraction) and value > high else "below zero"
        )

    help_text = "change an input of this sum, or the bound, or leave this round out of these sizes"
    report.extend(faults_at_k(expanded, PAGE, fault, "%s leaves its bounds", help_text))


def _speaks_of_wrong(written: str, size: int, expanded: ExpandedPattern) -> bool:
    sized = expanded.sized
    names = {sized.scope.full_name(name) for name in re.findall(r"[^\W\d][\w.]*", written)}
    below = (sized.scope.value(name, size, None) for name in names)
    return (
        text_follows_from_wrong(written, size, sized)
        or any(isinstance(each, Fraction) and each < 0 for each in below)
        or any(is_wrong_in_use(name, size, expanded) for name in names)
    )


def _in_step(number: Number, value: Fraction, size: int, step: Step, sized: SizedPattern) -> Diagnostic:
    name, text = sized.sizes[size], amount_text(value, Kind(number.dimension, number.noun))
    return Diagnostic(
        PAGE,
        f"`<{number.written}>` comes out below zero",
        Excerpt(number.place.span),
        sizes=(name,),
        piece=step.piece,
        row=step.identity,
        related=used_from(number.place),
        sums=(SumLine(name, f"{number.written} = {text}"),),
        help=("change a number of this sum, or leave the row out of these sizes",),
    )


def _report(quantity: Quantity, size: int, value: Fraction, where: str, sized: SizedPattern) -> Diagnostic:
    formula = quantity.formulas[size]
    text = amount_text(value, quantity.kind)
    expression = f"{worked(formula, sized.scope, size)} = {text}" if formula and not quantity.by_hand else text
    return Diagnostic(
        PAGE,
        f"{quantity.name} comes out {where}",
        Excerpt(quantity.value_span),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], expression, note=where),),
        help=("write what was counted on the swatch",)
        if quantity.section == "gauges"
        else ("change an input of this sum, or the bound",),
    )


CHECKS = (bounds, slots, bounds_at_k)
