"""SP004 pick-up-not-whole

Severity  error
Checks    stitches picked up along an edge, so many for so many rows or ribs, come out whole in every size.
Matters   a rate such as 5 stitches per 2 ribs leaves half a stitch on an odd number of ribs; the row cannot be worked as written.
Mend      take a number of ribs or rows that can be shared into such groups: for 5 per 2 ribs an even one. Or say with `left_over`
          what is picked up beyond them.
Source    common practice, no source.

Fires in S:
    rates:
      edge: {sts: 9, per: 4 ribs}
    counts:
      ribs: [42 ribs, 44 ribs]
      edge_sts: picked_up(edge, ribs)
    ---
    Row 1: Sc along the edge. — <edge_sts> sc

Quiet:
    rates:
      edge: {sts: 9, per: 4 ribs, left_over: 2 sts}
    counts:
      ribs: [42 ribs, 44 ribs]
      edge_sts: picked_up(edge, ribs)
    ---
    Row 1: Sc along the edge. — <edge_sts> sc
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd

from stitchproof.checks.wrong_counts import fractional_pick_ups, node_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, Proposal, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.sums import pick_up_sum, rate_words
from stitchproof.formulas.tree import Call, Name
from stitchproof.measures.dimension import STITCHES
from stitchproof.measures.rate import Rate
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)
OFFERED = 3


def pick_ups(sized: SizedPattern, report: Report) -> None:
    """Pick-ups in the formulas of named counts."""
    for quantity in sized.quantities:
        for size, formula in enumerate(quantity.formulas):
            if formula is None or quantity.parameter:
                continue
            for call, rate, edge in fractional_pick_ups(formula.node, sized.scope, size):
                if node_follows_from_wrong(call.arguments[1], size, sized):
                    continue
                report.add(_report(call, rate, edge, quantity, size, sized))


def _report(call: Call, rate: Rate, edge: Fraction, quantity: Quantity, size: int, sized: SizedPattern) -> Diagnostic:
    name = sized.sizes[size]
    total = amount_text(rate.picked_up(edge), Kind(STITCHES, "sts"))
    edge_node = call.arguments[1]
    edge_quantity = (
        sized.scope.quantities.get(sized.scope.full_name(edge_node.name)) if isinstance(edge_node, Name) else None
    )
    related = (Excerpt(edge_quantity.value_span, f"the {rate.noun} come from here"),) if edge_quantity else ()
    return Diagnostic(
        PAGE,
        f"{quantity.name} picks up part of a stitch at {rate_words(rate)}",
        Excerpt(call.span, "does not come out whole"),
        sizes=(name,),
        related=related,
        sums=(SumLine(name, f"{pick_up_sum(rate, edge)} = {total}"),),
        proposals=(_proposal(rate, edge, edge_quantity, size),) if edge_quantity else (),
        help=(f"take a number of {rate.noun} that holds whole groups, or add `left_over` to the rate",),
    )


def _proposal(rate: Rate, edge: Fraction, quantity: Quantity, size: int) -> Proposal:
    step = (
        Fraction(rate.per.numerator // gcd(rate.per.numerator, rate.sts.numerator))
        if rate.sts.denominator == 1
        else rate.per
    )
    low = edge // step * step
    below = tuple(low - step * number for number in range(OFFERED) if low - step * number > 0)
    above = tuple(low + step * (number + 1) for number in range(OFFERED))
    per_unit = rate.cm_per_unit or quantity.cm_per_unit
    return Proposal(quantity.name, size, rate.noun, edge, below, above, per_unit, by_rows=True)


CHECKS = (pick_ups,)
