"""SP002 count-off-its-multiple

Severity  error
Checks    a count that must be a multiple (`multiple: 8`, `multiple: 4 plus 2`) is one in every size.
Matters   the stitch repeat would break off in the middle, and the maker would find it out at the end of the round.
Mend      take one of the nearest counts that fit, or state a rounding so that it always fits.
Source    common practice, no source.

Fires in M, L:
    sizes: {names: [S, M, L]}
    counts:
      body_sts: {by_hand: [96 sts, 98 sts, 102 sts], multiple: 8}
    ---
    Row 1: Sc in each st across. — <body_sts> sc

Fires in M:
    counts:
      neck_sts: [80 sts, 84 sts]
      after_inc(k): {is: neck_sts + 8 * k, multiple: 8}
    ---
    ::: for each k in 1 to 3
    Row <k>: Ch 1, [2 sc in next st] 8 times, sc in each st to end, turn. — <after_inc(k)> sc
    :::

Fires in L:
    sizes: {names: [S, L]}
    measures:
      yarn_length: {by_hand: [200, 215], unit: m, multiple: 10 m}

Quiet:
    sizes: {names: [S, M, L]}
    counts:
      body_sts: {by_hand: [94 sts, 98 sts, 102 sts], multiple: 4 plus 2}
    ---
    Row 1: Sc in each st across. — <body_sts> sc
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.k_values import faults_at_k
from stitchproof.checks.wrong_counts import follows_from_wrong, is_off_its_multiple
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, Proposal, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.rounding import Multiple
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import exact_text
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)
OFFERED = 3


def multiples(sized: SizedPattern, report: Report) -> None:
    """Named counts whose value is not one of their multiples. A fraction is another fault."""
    for quantity in sized.quantities:
        for size, (value, multiple) in enumerate(zip(quantity.values, quantity.multiples, strict=False)):
            wrong = is_off_its_multiple(quantity, size) and not follows_from_wrong(quantity, size, sized)
            if multiple and isinstance(value, Fraction) and wrong:
                unit = _unit(quantity)
                report.add(
                    _report(quantity, size, value / unit, Multiple(multiple.of / unit, multiple.plus / unit), sized)
                )


def _unit(quantity: Quantity) -> Fraction:
    """Of a length or weight, how much of the base unit one of its own is: a multiple of 10 m is told and tried in m."""
    is_measured = quantity.kind.dimension in (LENGTH, WEIGHT) and quantity.kind.noun in UNITS
    return UNITS[quantity.kind.noun].size if is_measured else Fraction(1)


def _report(quantity: Quantity, size: int, value: Fraction, multiple: Multiple, sized: SizedPattern) -> Diagnostic:
    """value and multiple: in the unit of the quantity."""
    formula = quantity.formulas[size]
    below = multiple.below(value)
    definition = sized.definition(quantity.name)
    related = (
        (Excerpt(definition.multiple.span, "must keep this multiple"),) if definition and definition.multiple else ()
    )
    return Diagnostic(
        PAGE,
        f"{quantity.name} is not {_words(quantity, multiple)}",
        Excerpt(quantity.value_span if formula is None or quantity.by_hand else formula.span),
        sizes=(sized.sizes[size],),
        related=related,
        sums=(_sum(value, multiple, sized.sizes[size], quantity.kind.noun),),
        proposals=(
            Proposal(
                quantity.name,
                size,
                quantity.kind.noun,
                value,
                tuple(below - multiple.of * step for step in range(OFFERED) if below - multiple.of * step > 0),
                tuple(multiple.above(value) + multiple.of * step for step in range(OFFERED)),
                quantity.cm_per_unit,
                by_rows=quantity.by_hand,  # of one that is worked out it is the aim: what it is made of changes the rows too
                if_none="change the rows as well: as they are written they come out with none of these counts",
            ),
        ),
        help=("take one of these counts, or state a rounding such as `round: nearest`",),
    )


def _words(quantity: Quantity, multiple: Multiple) -> str:
    if quantity.kind.dimension in (LENGTH, WEIGHT):
        plus = f" plus {exact_text(multiple.plus)} {quantity.kind.noun}" if multiple.plus else ""
        return f"a multiple of {exact_text(multiple.of)} {quantity.kind.noun}{plus}"
    return f"{'a ' if ' ' in multiple.in_words() else ''}{multiple.in_words()}"


def _sum(value: Fraction, multiple: Multiple, size: str, noun: str) -> SumLine:
    below = multiple.below(value)
    times = (below - multiple.plus) / multiple.of
    plus = f" + {exact_text(multiple.plus)}" if multiple.plus else ""
    expression = (
        f"{exact_text(value)} = {exact_text(times)} × {exact_text(multiple.of)}{plus} + {exact_text(value - below)}"
    )
    return SumLine(size, expression, value, below, _over(value - below, noun))


def _over(number: Fraction, noun: str) -> str:
    word = noun.removesuffix("s") if number == 1 else noun
    return f"{exact_text(number)} {word or 'left'} over"


def multiples_at_k(expanded: ExpandedPattern, report: Report) -> None:
    """Values such as `after_inc(k)` that leave their multiple at a k in use."""

    def fault(quantity: Quantity, size: int, value: Fraction) -> str:
        multiple = quantity.multiples[size] if quantity.multiples else None
        if not multiple or value.denominator != 1 or multiple.fits(value):
            return ""
        words = multiple.in_words()
        return f"not {words}" if " " not in words else f"not a {words}"

    help_text = "change an input of this sum, or state a rounding such as `round: nearest`"
    report.extend(faults_at_k(expanded, PAGE, fault, "%s leaves its multiple", help_text))


CHECKS = (multiples, multiples_at_k)
