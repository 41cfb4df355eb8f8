"""The numbers that a claim hangs on and that a designer can change, and the values of each at which the claim would hold."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import islice, takewhile

from msgspec import Struct, field

from stitchproof.diagnostics.diagnostic import Proposal
from stitchproof.formulas.evaluation import evaluate_counted
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.scope import Bound, NoKind, Scope
from stitchproof.formulas.tree import Amount, Formula, Negative, names_in
from stitchproof.measures.dimension import LENGTH, PLAIN
from stitchproof.measures.print_grid import CM_GRID
from stitchproof.measures.rate import Rate
from stitchproof.measures.rounding import Multiple, round_to
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import Absent, Value
from stitchproof.sizing.sized_pattern import PatternScope, Quantity, SizedPattern

MOST_LEVERS = 3
OFFERED = 3
"""How many values on either side are tried."""
WIDEST_LOOK = 60
"""How many steps away from the value as it stands a better one is looked for."""


class Tried(Struct):
    """The names of a pattern, with another value for one of them in one size, and for all that is worked out from it."""

    scope: PatternScope
    changed: str
    size: int
    to: Fraction
    _held: dict[tuple[str, int, Fraction | None], Value] = field(default_factory=dict)
    _follows: dict[str, bool] = field(default_factory=dict)

    def names(self) -> tuple[str, ...]:
        return self.scope.names()

    def kind(self, name: str) -> Kind | NoKind:
        """The kind of a name, which no change of a value changes."""
        return self.scope.kind(name)

    def takes_parameter(self, name: str) -> bool:
        return self.scope.takes_parameter(name)

    def rate(self, name: str) -> Rate | None:
        return self.scope.rate(name)

    def size_names(self) -> tuple[str, ...]:
        return self.scope.size_names()

    def size_index(self, words: str) -> int | None:
        return self.scope.size_index(words)

    def value(self, name: str, size: int, parameter: Fraction | None) -> Value:
        """The value it would have."""
        full = self.scope.full_name(name)
        if full == self.changed and size == self.size:
            return self.to
        quantity = self.scope.quantities.get(full)
        if quantity is None or not self._hangs_on_it(quantity):
            return self.scope.value(name, size, parameter)
        if (full, size, parameter) not in self._held:
            self._held[full, size, parameter] = self._worked_out(quantity, size, parameter)
        return self._held[full, size, parameter]

    def _worked_out(self, quantity: Quantity, size: int, k: Fraction | None) -> Value:
        plan = self.scope.plans.get(quantity.name.rpartition(".")[0]) if quantity.section == "plans" else None
        if plan:
            given = tuple(self._number(each.formulas[size], self, size) for each in plan.inputs)
            return plan.part_with(given, quantity.name.rpartition(".")[2], k)
        formula = quantity.start if quantity.start and k == 0 else quantity.formulas[size]
        scope: Scope = Bound(self, quantity.parameter, Kind(PLAIN), k) if k is not None else self
        value = self._number(formula, scope, size)
        if quantity.rounding and isinstance(value, Fraction):
            value = round_to(value, quantity.rounding, (quantity.multiples or (None,) * (size + 1))[size] or Multiple())
        return value

    def _number(self, formula: Formula | None, scope: Scope, size: int) -> Value:
        if formula is None:
            return Absent.UNKNOWN
        value, steps = evaluate_counted(formula, scope, size)
        self.scope.steps_to_try -= steps
        return value if isinstance(value, Fraction | bool | Absent) else Absent.UNKNOWN

    def _hangs_on_it(self, quantity: Quantity) -> bool:
        held = self._follows.get(quantity.name)
        if held is None:
            self._follows[quantity.name] = False  # a value that steps back refers to itself
            used = (self.scope.quantities.get(name) for name in quantity.inputs if name != quantity.name)
            held = self.changed in quantity.inputs or any(each is not None and self._hangs_on_it(each) for each in used)
            self._follows[quantity.name] = held
        return held


def proposals(
    formulas: Iterable[Formula], size: int, sized: SizedPattern, holds: Callable[[Scope], bool]
) -> tuple[Proposal, ...]:
    """Values worth trying in a size, for each number that some formulas hang on; none once the steps for it are used up.

    holds: the claim, judged by other values.
    """
    if sized.scope.steps_to_try <= 0:
        return ()
    found = (
        _proposal(quantity, size, sized, holds) for quantity in islice(_levers(formulas, size, sized), MOST_LEVERS)
    )
    return tuple(proposal for proposal in found if proposal.below or proposal.above)


def _levers(formulas: Iterable[Formula], size: int, sized: SizedPattern) -> Iterator[Quantity]:
    """What is typed or rounded, the nearest first: that is where a designer decides. The body and the gauge are measured."""
    scope = sized.scope
    waiting = [scope.full_name(node.name) for formula in formulas for node in names_in(formula.node)]
    seen = set()
    while waiting:
        quantity = scope.quantities.get(waiting.pop(0))
        if quantity is None or quantity.name in seen or quantity.section in ("body", "gauges"):
            continue
        seen.add(quantity.name)
        waiting += quantity.inputs
        value = quantity.values[size] if quantity.values else None
        if isinstance(value, Fraction) and _is_decided(quantity, size):
            yield quantity


def _is_decided(quantity: Quantity, size: int) -> bool:
    formula = quantity.formulas[size]
    node = formula.node if formula else None
    typed = isinstance(node, Amount) or (isinstance(node, Negative) and isinstance(node.operand, Amount))
    if quantity.kind.dimension.is_count:
        return quantity.section == "counts" and (typed or quantity.rounding is not None)
    return quantity.kind.dimension == LENGTH and typed and quantity.by_hand


def _proposal(quantity: Quantity, size: int, sized: SizedPattern, holds: Callable[[Scope], bool]) -> Proposal:
    now = quantity.values[size]
    now = now if isinstance(now, Fraction) else Fraction(0)
    multiple = (quantity.multiples[size] if quantity.multiples else None) or Multiple()
    unit = Fraction(1)
    if quantity.kind.dimension == LENGTH:
        multiple, unit = CM_GRID, UNITS[quantity.kind.noun or "cm"].size

    def working(values: Iterable[Fraction]) -> tuple[Fraction, ...]:
        positive = takewhile(lambda value: value > 0 and sized.scope.steps_to_try > 0, values)
        good = (value / unit for value in positive if holds(Tried(sized.scope, quantity.name, size, value)))
        return tuple(islice(good, OFFERED))

    below, above = multiple.below(now), multiple.above(now)
    steps = range(WIDEST_LOOK)
    return Proposal(
        quantity.name,
        size,
        quantity.kind.noun or ("cm" if quantity.kind.dimension == LENGTH else ""),
        now / unit,
        working(below - multiple.of * step for step in steps if below - multiple.of * step != now),
        working(above + multiple.of * step for step in steps if above + multiple.of * step != now),
        unit if quantity.kind.dimension == LENGTH else quantity.cm_per_unit,
        said=quantity.name,
    )
