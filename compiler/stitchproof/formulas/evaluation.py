"""Works a formula out in one size, exactly. The kind of the formula has been found first, so only numbers can go wrong here."""

from __future__ import annotations

import operator
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.faults.division_by_zero import division_by_zero
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.too_much_to_work_out import too_much_to_work_out
from stitchproof.formulas.kind import NUMBER
from stitchproof.formulas.scope import Bound, NoValueThere, Scope
from stitchproof.formulas.tree import (
    Amount,
    AtSize,
    Call,
    Choice,
    Comparison,
    Formula,
    Logic,
    Name,
    Negative,
    Node,
    Not,
    NotWorked,
    Product,
    Sum,
)
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.values import Absent, Value

MOST_STEPS = 100_000
"""Parts worked out for one formula in one size: a search of 2,000 values with a test of some ten parts stays far below."""
MOST_BITS = 256
_TOO_LONG = 2**MOST_BITS
WIDEST_SEARCH = 10_000
LONG_SEARCH = 8
"""Candidates from which on it pays to look over the test before the search."""

COMPARE: dict[str, Callable[[Fraction, Fraction], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
    "=": operator.eq,
    "!=": operator.ne,
}
WORK: dict[str, Callable[[Any, Any], Any]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}
ROUND = {"nearest": Direction.NEAREST, "up": Direction.UP, "down": Direction.DOWN}


class CannotWorkOut(Exception):
    """Carries the report of what cannot be worked out in this size."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.headline)
        self.diagnostic = diagnostic


def evaluate(formula: Formula, scope: Scope, size: int) -> Value | Diagnostic:
    """The value of a formula in one size; else the report of what cannot be worked out there."""
    return evaluate_counted(formula, scope, size)[0]


def evaluate_counted(formula: Formula, scope: Scope, size: int) -> tuple[Value | Diagnostic, int]:
    """The value as `evaluate` gives it, and the number of steps it took."""
    evaluation = _Evaluation(size)
    try:
        return evaluation.value(formula.node, scope), evaluation.steps
    except CannotWorkOut as fault:
        return fault.diagnostic, evaluation.steps
    except RecursionError:
        deep = too_much_to_work_out(formula.span, "it goes through too many values that take a number in brackets")
        return deep, evaluation.steps


def value_of(node: Node, scope: Scope, size: int) -> Value:
    """The value of a part of a formula that has been evaluated before; UNKNOWN where that failed."""
    try:
        return _Evaluation(size).value(node, scope)
    except (CannotWorkOut, RecursionError):
        return Absent.UNKNOWN


class _Evaluation:
    """One formula in one size, with a bound on the work."""

    def __init__(self, size: int) -> None:
        self.size = size
        self.steps = 0

    def value(self, node: Node, scope: Scope) -> Value:
        self.steps += 1
        if self.steps > MOST_STEPS:
            raise CannotWorkOut(too_much_to_work_out(node.span, "it needs too many steps"))
        match node:  # what stands in formulas most often is asked for first
            case Name():
                return scope.value(node.name, self.size, None)
            case Amount():
                return node.value
            case Sum() | Product() | Comparison():
                return self.pair(node, scope)
            case Call():
                return self.call(node, scope)
            case NotWorked():
                return Absent.NOT_WORKED
            case AtSize():
                return self.in_size(scope.size_index(node.size.text), node.operand, scope)
            case Choice():
                test = self.value(node.test, scope)
                return test if isinstance(test, Absent) else self.value(node.value if test else node.otherwise, scope)
            case Logic():
                return self.logic(node, scope)
            case Not():
                operand = self.value(node.operand, scope)
                return operand if isinstance(operand, Absent) else not operand
            case Negative():
                operand = self.value(node.operand, scope)
                return -operand if isinstance(operand, Fraction) else operand

    def in_size(self, size: int | None, node: Node, scope: Scope) -> Value:
        """A part of the formula in another size than the one it is worked out for."""
        if size is None:
            return Absent.UNKNOWN
        own, self.size = self.size, size
        try:
            return self.value(node, scope)
        finally:
            self.size = own

    def over_sizes(self, node: Call, scope: Scope) -> Value:
        """The smallest or largest over all sizes; those that do not work it are left out."""
        values = [self.in_size(size, node.arguments[0], scope) for size in range(len(scope.size_names()))]
        numbers = [value for value in values if isinstance(value, Fraction)]
        if Absent.UNKNOWN in values or not numbers:
            return _absent(*values)
        return min(numbers) if node.name == "lowest" else max(numbers)

    def logic(self, node: Logic, scope: Scope) -> Value:
        left = self.value(node.left, scope)
        if isinstance(left, Absent) or left == (node.word == "or"):
            return left
        return self.value(node.right, scope)

    def pair(self, node: Sum | Product | Comparison, scope: Scope) -> Value:
        left, right = self.value(node.left, scope), self.value(node.right, scope)
        if not isinstance(left, Fraction) or not isinstance(right, Fraction):
            return _absent(left, right)
        if isinstance(node, Comparison):
            return COMPARE[node.sign](left, right)
        if node.sign == "/" and not right:
            raise CannotWorkOut(division_by_zero(node.span, node.right.span))
        if node.sign != "/" and left.denominator == 1 == right.denominator:  # most are whole, and then quick
            return self.kept(node, Fraction(WORK[node.sign](left.numerator, right.numerator)))
        return self.kept(node, WORK[node.sign](left, right))

    def kept(self, node: Node, number: Fraction) -> Fraction:
        if not (-_TOO_LONG < number.numerator < _TOO_LONG and number.denominator < _TOO_LONG):
            raise CannotWorkOut(too_much_to_work_out(node.span, "the number grows too long"))
        return number

    def call(self, node: Call, scope: Scope) -> Value:
        if node.name == "largest":
            return self.largest(node, scope)
        if node.name in ("picked_up", "edge_for"):
            return self.rate_function(node, scope)
        if node.name in ("lowest", "highest"):
            return self.over_sizes(node, scope)
        values = [self.value(argument, scope) for argument in node.arguments]
        numbers = [value for value in values if isinstance(value, Fraction)]
        if len(numbers) < len(values):
            return _absent(*values)
        if node.name in ROUND:
            step = numbers[1] if len(numbers) > 1 else Fraction(1)
            if step <= 0:
                raise CannotWorkOut(division_by_zero(node.span, node.arguments[1].span))
            return round_to(numbers[0], ROUND[node.name], Multiple(step))
        if node.name in ("min", "max"):
            return min(numbers) if node.name == "min" else max(numbers)
        if node.name == "abs":
            return abs(numbers[0])
        try:
            return scope.value(node.name, self.size, numbers[0])
        except NoValueThere as none:
            raise CannotWorkOut(function_used_wrongly(node.span, none.why, none.help_text)) from None

    def rate_function(self, node: Call, scope: Scope) -> Value:
        rate_node, amount_node = node.arguments
        rate = scope.rate(rate_node.name) if isinstance(rate_node, Name) else None
        amount = self.value(amount_node, scope)
        if not rate or not isinstance(amount, Fraction):
            return _absent(amount)
        if node.name == "picked_up":
            return rate.picked_up(amount)
        if amount > WIDEST_SEARCH:
            raise CannotWorkOut(too_much_to_work_out(node.span, f"the edge is for more than {WIDEST_SEARCH} stitches"))
        return rate.edge_for(amount)

    def largest(self, node: Call, scope: Scope) -> Value:
        variable, low_node, high_node, test = node.arguments
        low, high = self.value(low_node, scope), self.value(high_node, scope)
        if not isinstance(low, Fraction) or not isinstance(high, Fraction) or not isinstance(variable, Name):
            return _absent(low, high)
        first, last = -(-low // 1), high // 1
        if last - first > WIDEST_SEARCH:
            raise CannotWorkOut(too_much_to_work_out(node.span, f"the search is wider than {WIDEST_SEARCH} values"))
        if last - first >= LONG_SEARCH:
            test = self.worked_before(test, variable.name, scope)
        for candidate in range(last, first - 1, -1):
            holds = self.value(test, Bound(scope, variable.name, NUMBER, Fraction(candidate)))
            if isinstance(holds, Absent):
                return holds
            if holds:
                return Fraction(candidate)
        why = f"no value from {first} to {last} passes the test"
        raise CannotWorkOut(too_much_to_work_out(node.span, why, "widen the bounds, or loosen the test"))

    def worked_before(self, node: Node, variable: str, scope: Scope) -> Node:
        """A part of a test with its sums put in as numbers where they do not speak of the variable: worked out once, not for
        each candidate. Only where every candidate asks for them; what does not come to a number stays as it is."""
        if isinstance(node, Sum | Product | Comparison):
            if any(name.name == variable for name in node.names):
                left = self.worked_before(node.left, variable, scope)
                return replace(node, left=left, right=self.worked_before(node.right, variable, scope))
        elif not isinstance(node, Name | Call) or any(name.name == variable for name in node.names):
            return node
        try:
            found = self.value(node, scope)
        except (CannotWorkOut, NoValueThere):
            return node
        return Amount(found, NUMBER, node.span) if isinstance(found, Fraction) else node


def _absent(*values: Value) -> Absent:
    """What is left when one of several values is absent: unknown, if any is, since its reason is already reported."""
    return Absent.NOT_WORKED if Absent.UNKNOWN not in values and Absent.NOT_WORKED in values else Absent.UNKNOWN
