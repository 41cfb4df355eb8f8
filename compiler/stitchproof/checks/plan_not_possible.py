"""SP080 plan-not-possible

Severity  error
Checks    each plan (`plans` in pattern.yaml) can be made in every size: its shapings, holes or sections fit the
          stitches and rows it is given.
Matters   the maker of that size would have no rows to work, however well the other sizes come out.
Mend      take one of the nearest numbers in the report; each makes the plan work when all others stay as they are.
Source    common practice, no source.

Fires in M:
    sizes: {names: [S, M, L]}
    counts:
      hat_sts: {by_hand: [64, 68, 80], unit: sts}
    plans:
      crown_dec: {kind: crown, from: hat_sts, sections: 8}
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    ::: for each dec rnd of crown_dec
    Dec Rnd <k>:
      sizes with crown_dec.before(k) > 0: [Sc in each of next <crown_dec.before(k)> sts, sc2tog] 8 times.
      other sizes: [Sc2tog] 8 times.
      all sizes: — <crown_dec.after(k)> sc
    :::

Fires in S:
    counts:
      band_sts: {by_hand: [16, 30], unit: sts}
    plans:
      band_holes: {kind: buttonholes, along: band_sts, holes: 5, width: 2 sts, below: 3 sts, above: 2 sts}

Quiet:
    counts:
      band_sts: {by_hand: [24, 30], unit: sts}
    plans:
      band_holes: {kind: buttonholes, along: band_sts, holes: 5, width: 2 sts, below: 3 sts, above: 2 sts}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from stitchproof.checks.wrong_counts import formula_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, Proposal, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import USUAL_NOUNS
from stitchproof.formulas.tree import Amount
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.sizing.sized_plans import SizedInput, SizedPlan

if TYPE_CHECKING:
    from stitchproof.plans.no_plan import NoPlan

PAGE = read_page(__doc__)


def plans(sized: SizedPattern, report: Report) -> None:
    """The plans that cannot be made, unless a number of theirs is reported for itself."""
    if not sized.scope.plans:
        return
    from stitchproof.plans.no_plan import NoPlan  # a pattern without plans does without

    for plan in sized.scope.plans.values():
        for size, made in enumerate(plan.plans):
            if isinstance(made, NoPlan) and not follows_from_wrong(plan, size, sized):
                report.add(_report(plan, made, size, sized))


def follows_from_wrong(plan: SizedPlan, size: int, sized: SizedPattern) -> bool:
    """Whether a number of a plan comes, in a size, from a count that has a fault of its own."""
    for number in plan.inputs:
        formula, quantity = number.formulas[size], sized.scope.quantities.get(number.name)
        value = number.values[size]
        below_0 = quantity is not None and quantity.section == "counts" and isinstance(value, Fraction) and value < 0
        if below_0 or (formula and formula_follows_from_wrong(formula, size, sized)):
            return True
    return False


def _report(plan: SizedPlan, made: NoPlan, size: int, sized: SizedPattern) -> Diagnostic:
    name = sized.sizes[size]
    numbers = {each.argument: each for each in plan.inputs}
    single = [each for each in made.nearest if [number.argument for number in plan.inputs].count(each.name) == 1]
    near = [(numbers[each.name], Fraction(each.value)) for each in single]
    return Diagnostic(
        PAGE,
        f"there is no plan for {plan.name}",
        Excerpt(plan.entry.span, f"a plan of the kind `{plan.entry.kind}`"),
        sizes=(name,),
        related=tuple(_places(plan, sized)),
        sums=(SumLine(name, made.reason),),
        proposals=tuple(_proposals(plan, near, size, sized)),
        help=("take one of these numbers, or change more than one of them",)
        if near
        else ("change a number of this plan",),
    )


def _places(plan: SizedPlan, sized: SizedPattern) -> Iterator[Excerpt]:
    """Where the numbers come from that have names of their own."""
    for name in dict.fromkeys(each.name for each in plan.inputs if each.name):
        quantity = sized.scope.quantities.get(name)
        if quantity and quantity.section != "plans":
            yield Excerpt(quantity.value_span, f"{name} comes from here")


def _proposals(
    plan: SizedPlan, near: list[tuple[SizedInput, Fraction]], size: int, sized: SizedPattern
) -> Iterator[Proposal]:
    """One for each number that the designer can change by itself: a named one, or one typed into the plan."""
    for number in dict.fromkeys(each for each, _ in near):
        now, quantity = number.values[size], sized.scope.quantities.get(number.name)
        formula = number.formulas[size]
        if quantity is None and not (formula and isinstance(formula.node, Amount)):
            continue
        if not isinstance(now, Fraction) or (quantity and quantity.section not in ("counts", "measures")):
            continue
        values = [value for each, value in near if each is number]
        yield Proposal(
            quantity.name if quantity else f"plans.{plan.name}.{number.key}",
            size,
            number.kind.noun or USUAL_NOUNS.get(number.kind.dimension, ""),
            now,
            tuple(value for value in values if value < now),
            tuple(value for value in values if value > now),
            quantity.cm_per_unit if quantity else None,
            said=quantity.name if quantity else f"{number.key} of {plan.name}",
        )


CHECKS = (plans,)
