"""SP001 count-not-whole

Severity  error
Checks    every count of stitches, rows, rounds, ribs or times is a whole number in every size, or states its rounding.
Matters   half a stitch cannot be worked. The maker would have to guess which way to round, and every later count would
          hang on her guess.
Mend      state how it is rounded (`round: nearest`, `up` or `down`), or change the numbers that it is worked out from.
Source    common practice, no source.

Fires in M:
    measures:
      width: [50 cm, 52 cm]
    counts:
      body_sts: width * fabric.stitches
    ---
    Row 1: Sc in each st across. — <body_sts> sc

Fires in M:
    counts:
      body_sts: [40 sts, 45 sts]
    ---
    Row 1: Sc in each of next <body_sts / 2> sts, turn.

Fires in M:
    counts:
      body_sts: [40 sts, 45 sts]
      after(k): body_sts / 2 - k
    ---
    ::: for each k in 1 to 3
    Row <k>: Ch 1, sc2tog, sc in each st to end, turn. — <after(k)> sc
    :::

Quiet:
    measures:
      width: [50 cm, 52 cm]
    counts:
      body_sts: {is: width * fabric.stitches, round: nearest}
    ---
    Row 1: Sc in each st across. — <body_sts> sc
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.k_values import faults_at_k, is_wrong_in_use
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.wrong_counts import (
    follows_from_wrong,
    has_fractional_pick_up,
    is_count_at_k,
    is_fraction,
    text_follows_from_wrong,
)
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, Proposal, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Step
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.kind import Kind, amount_text, whole
from stitchproof.formulas.sums import worked
from stitchproof.measures.dimension import PLAIN
from stitchproof.measures.rounding import Multiple
from stitchproof.measures.values import Value
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)
OFFERED = 3
"""How many whole numbers on either side are tried."""


def named_counts(sized: SizedPattern, report: Report) -> None:
    """Counts of pattern.yaml that come out with a fraction."""
    for quantity in sized.quantities:
        for size, value in enumerate(quantity.values):
            if is_fraction(quantity, size) and not _caused_elsewhere(quantity, size, sized):
                report.add(_named(quantity, size, value, sized))


def counts_in_steps(expanded: ExpandedPattern, report: Report) -> None:
    """Slots of the text that come out with a fraction."""
    for step, number, size in found_in(parts_of(expanded.document), _fractions):
        if _is_told(number.written, size, expanded):
            continue
        text = amount_text(number.values[size], Kind(number.dimension, number.noun))
        report.add(
            Diagnostic(
                PAGE,
                f"`<{number.written}>` does not come out whole",
                Excerpt(number.place.span),
                sizes=(expanded.sized.sizes[size],),
                piece=step.piece,
                row=step.identity,
                related=used_from(number.place),
                sums=(SumLine(expanded.sized.sizes[size], f"{number.written} = {text}"),),
                help=("give it a name in pattern.yaml with a rounding, and print that name",),
            )
        )


def _fractions(part: Part) -> Iterator[tuple[Step, Number, int]]:
    for step, number in part.numbers_in_steps():
        if number.dimension.is_count and not number.print_as.is_share:
            yield from ((step, number, size) for size in number.served if not whole(number.values[size]))


def counts_at_k(expanded: ExpandedPattern, report: Report) -> None:
    """Values such as `after_dec(k)` that come out with a fraction at a k in use."""

    def fault(quantity: Quantity, _: int, value: Fraction) -> str:
        return "not whole" if is_count_at_k(quantity) and not whole(value) else ""

    help_text = "state a rounding, such as `round: nearest`"
    report.extend(faults_at_k(expanded, PAGE, fault, "%s does not come out whole", help_text))


def _is_told(written: str, size: int, expanded: ExpandedPattern) -> bool:
    """Whether a slot speaks of a count that is reported for itself."""
    names = re.findall(r"[^\W\d][\w.]*", written)
    return text_follows_from_wrong(written, size, expanded.sized) or any(
        is_wrong_in_use(name, size, expanded) for name in names
    )


def _caused_elsewhere(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether the fraction comes from a pick-up or from another count, which are reported for themselves."""
    formula = quantity.formulas[size]
    if formula is not None and has_fractional_pick_up(formula.node, sized.scope, size):
        return True
    return follows_from_wrong(quantity, size, sized)


def _named(quantity: Quantity, size: int, value: Value, sized: SizedPattern) -> Diagnostic:
    name, formula = sized.sizes[size], quantity.formulas[size]
    text = amount_text(value, quantity.kind)
    expression = f"{worked(formula, sized.scope, size)} = {text}" if formula else text
    proposals: tuple[Proposal, ...] = ()
    if (isinstance(value, Fraction) and quantity.kind.dimension != PLAIN) or quantity.kind.noun:
        proposals = (_proposal(quantity, size, value),) if isinstance(value, Fraction) else ()
    return Diagnostic(
        PAGE,
        f"{quantity.name} does not come out whole",
        Excerpt(formula.span if formula else quantity.value_span),
        sizes=(name,),
        sums=(SumLine(name, expression),),
        proposals=proposals,
        help=("state a rounding, such as `round: nearest`, or take one of these counts",)
        if proposals
        else ("state a rounding, such as `round: nearest`",),
    )


def _proposal(quantity: Quantity, size: int, value: Fraction) -> Proposal:
    multiple = (quantity.multiples[size] if quantity.multiples else None) or Multiple()
    low, high = multiple.below(value), multiple.above(value)
    below = tuple(low - step * multiple.of for step in range(OFFERED) if low - step * multiple.of > 0)
    above = tuple(high + step * multiple.of for step in range(OFFERED))
    return Proposal(
        quantity.name,
        size,
        quantity.kind.noun,
        value,
        below,
        above,
        quantity.cm_per_unit,
        by_rows=True,  # any number near it is whole; a rounding gives one of these
        if_none="change the counts that it is worked out from: no rounding of it suits the rows",
    )


CHECKS = (named_counts, counts_in_steps, counts_at_k)
