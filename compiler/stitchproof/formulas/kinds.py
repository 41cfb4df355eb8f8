"""Works out the kind of a formula before any number is known: mixed dimensions, missing units and unknown names show here."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.missing_unit import missing_unit_beside
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions, not_a_test, test_for_number
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.faults.unknown_name import unknown_name
from stitchproof.formulas.kind import NUMBER, TRUTH, USUAL_NOUNS, Kind
from stitchproof.formulas.scope import Bound, NoKind, Scope
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
from stitchproof.measures.dimension import LENGTH, PLAIN, STITCHES, WEIGHT
from stitchproof.measures.units import UNITS
from stitchproof.source import Span

FUNCTIONS = {
    "nearest": "nearest(number, step): to a whole number or to a multiple of the step, an exact half up",
    "up": "up(number, step): up to a whole number or to a multiple of the step",
    "down": "down(number, step): down to a whole number or to a multiple of the step",
    "min": "min(a, b, …): the smallest",
    "max": "max(a, b, …): the largest",
    "abs": "abs(number): without its sign",
    "picked_up": "picked_up(rate, edge): stitches picked up along an edge of so many ribs or rows",
    "edge_for": "edge_for(rate, stitches): the longest edge along which no more stitches are picked up",
    "lowest": "lowest(value): the smallest over all sizes",
    "highest": "highest(value): the largest over all sizes",
    "largest": "largest(n, low, high, test): the largest whole n for which the test holds",
}


class Faulty(Exception):
    """The kind cannot be worked out; carries the report, or None where the reason is already reported."""

    def __init__(self, diagnostic: Diagnostic | None) -> None:
        super().__init__()
        self.diagnostic = diagnostic


def kind_of(formula: Formula, scope: Scope) -> Kind | Diagnostic | None:
    """The kind of a formula; else the report of its fault; None where that fault has been reported at another name."""
    try:
        return _kind(formula.node, scope).as_result()
    except Faulty as faulty:
        return faulty.diagnostic


def shared_kind(span: Span, left: Node, one: Kind, right: Node, two: Kind) -> Kind | Diagnostic:
    """The kind that two values have in common which stand for the same thing, though in no formula together.

    span: what the report shows as mixed, if they do not fit.
    """
    try:
        return _joined(Sum("+", left, right, span), left, one, right, two)
    except Faulty as faulty:
        return faulty.diagnostic or one


def _kind(node: Node, scope: Scope) -> Kind:
    match node:
        case Amount():
            return node.kind
        case NotWorked():
            return Kind(zero=True)
        case Name():
            return _name(node, scope)
        case Call():
            return _call(node, scope)
        case AtSize():
            return _at_size(node, scope)
        case Negative():
            return _number(node.operand, scope)
        case Sum():
            return _together(node, node.left, node.right, scope)
        case Product():
            return _product(node, scope)
        case Comparison():
            _together(node, node.left, node.right, scope)
            return TRUTH
        case Not():
            return _test(node.operand, scope)
        case Logic():
            _test(node.left, scope)
            return _test(node.right, scope)
        case Choice():
            _test(node.test, scope)
            return _together(node, node.value, node.otherwise, scope)


def _name(node: Name, scope: Scope) -> Kind:
    kind = scope.kind(node.name)
    if kind is NoKind.MISSING:
        raise Faulty(unknown_name(node.span, node.name, (*scope.names(), *FUNCTIONS)))
    if isinstance(kind, NoKind):
        raise Faulty(None)
    if scope.takes_parameter(node.name):
        raise Faulty(
            function_used_wrongly(node.span, f"`{node.name}` takes a number in brackets", f"write `{node.name}(k)`")
        )
    if scope.rate(node.name):
        raise Faulty(
            function_used_wrongly(
                node.span, f"`{node.name}` is a rate, not a number", f"write `picked_up({node.name}, …)`"
            )
        )
    return kind


def _at_size(node: AtSize, scope: Scope) -> Kind:
    if scope.size_index(node.size.text) is None:
        raise Faulty(size_not_in_pattern(node.size, scope.size_names()))
    return _kind(node.operand, scope)


def _number(node: Node, scope: Scope) -> Kind:
    kind = _kind(node, scope)
    if kind.truth:
        raise Faulty(test_for_number(node.span))
    return kind


def _test(node: Node, scope: Scope) -> Kind:
    if not _kind(node, scope).truth:
        raise Faulty(not_a_test(node.span))
    return TRUTH


def _together(node: Node, left: Node, right: Node, scope: Scope) -> Kind:
    """The kind of two values that are added, compared or chosen between."""
    return _joined(node, left, _kind(left, scope), right, _kind(right, scope))


def _joined(node: Node, left: Node, one: Kind, right: Node, two: Kind) -> Kind:
    if one.truth and two.truth and isinstance(node, Choice):
        return TRUTH
    if one.truth or two.truth:
        raise Faulty(test_for_number(left.span if one.truth else right.span))
    if one.zero:
        return replace(two, zero=two.zero)
    if two.zero:
        return one
    if one.dimension == two.dimension:
        return _of_one_dimension(node, left, one, right, two)
    if one.is_bare and two.dimension.is_count:
        return two
    if two.is_bare and one.dimension.is_count:
        return one
    for bare, bare_node, other in ((one, left, two), (two, right, one)):
        if bare.is_bare and isinstance(bare_node, Amount) and other.dimension in (LENGTH, WEIGHT):
            raise Faulty(missing_unit_beside(bare_node.span, other))
    raise Faulty(mixed_dimensions(node.span, left.span, one, right.span, two))


def _of_one_dimension(node: Node, left: Node, one: Kind, right: Node, two: Kind) -> Kind:
    """A ratio stands beside plain numbers only; else the noun of the first that has one holds for both."""
    if one.is_ratio != two.is_ratio and not one.is_bare and not two.is_bare:
        raise Faulty(mixed_dimensions(node.span, left.span, one, right.span, two))
    return one if one.noun else two


def _product(node: Product, scope: Scope) -> Kind:
    left, right = _number(node.left, scope), _number(node.right, scope)
    dimension = left.dimension.times(right.dimension) if node.sign == "*" else left.dimension.per(right.dimension)
    if dimension == PLAIN:
        scaled = right.is_bare or right.is_ratio
        noun = left.noun if scaled else right.noun if (left.is_bare or left.is_ratio) and node.sign == "*" else ""
        return Kind(PLAIN, noun)
    fitting = [kind.noun for kind in (left, right) if kind.noun in UNITS and UNITS[kind.noun].dimension == dimension]
    usual = USUAL_NOUNS.get(dimension, left.noun)
    return Kind(dimension, fitting[0] if fitting else usual)


def _call(node: Call, scope: Scope) -> Kind:
    if node.name in FUNCTIONS:
        return _function(node, scope)
    kind = scope.kind(node.name)
    if kind is NoKind.MISSING:
        raise Faulty(unknown_name(node.span.part(0, len(node.name)), node.name, (*scope.names(), *FUNCTIONS)))
    if isinstance(kind, NoKind):
        raise Faulty(None)
    if not scope.takes_parameter(node.name):
        raise Faulty(
            function_used_wrongly(node.span, f"`{node.name}` takes nothing in brackets", f"write `{node.name}`")
        )
    if len(node.arguments) != 1 or not _number(node.arguments[0], scope).dimension.is_count:
        raise Faulty(
            function_used_wrongly(node.span, f"`{node.name}` takes one whole number", f"write `{node.name}(k)`")
        )
    return kind


def _function(node: Call, scope: Scope) -> Kind:
    counts = {
        "nearest": (1, 2),
        "up": (1, 2),
        "down": (1, 2),
        "min": (2, 99),
        "max": (2, 99),
        "abs": (1, 1),
        "lowest": (1, 1),
        "highest": (1, 1),
        "largest": (4, 4),
    }
    least, most = counts.get(node.name, (2, 2))
    if not least <= len(node.arguments) <= most:
        number = len(node.arguments)
        raise Faulty(
            function_used_wrongly(
                node.span,
                f"`{node.name}` has {number or 'no'} value{'' if number == 1 else 's'} in its brackets",
                FUNCTIONS[node.name],
            )
        )
    if node.name == "largest":
        return _largest(node, scope)
    if node.name in ("picked_up", "edge_for"):
        return _rate_function(node, scope)
    kind = _number(node.arguments[0], scope)
    decides = node.arguments[0]
    for other in node.arguments[1:]:
        held, kind = kind, _joined(node, decides, kind, other, _kind(other, scope))
        decides = decides if kind == held else other
    return kind


def _rate_function(node: Call, scope: Scope) -> Kind:
    rate_node, amount_node = node.arguments
    rate = scope.rate(rate_node.name) if isinstance(rate_node, Name) else None
    if not rate:
        named = scope.kind(rate_node.name) if isinstance(rate_node, Name) else None
        if isinstance(rate_node, Name) and named is NoKind.MISSING:
            raise Faulty(unknown_name(rate_node.span, rate_node.name, scope.names()))
        if named is NoKind.SILENT:
            raise Faulty(None)
        raise Faulty(
            function_used_wrongly(
                rate_node.span, f"`{rate_node.span.text}` is not a rate", "name one of the rates of pattern.yaml"
            )
        )
    kind = _number(amount_node, scope)
    edge, stitches = Kind(rate.dimension, rate.noun), Kind(STITCHES, "sts")
    wanted, result = (edge, stitches) if node.name == "picked_up" else (stitches, edge)
    if kind.dimension != wanted.dimension and not kind.is_bare:
        raise Faulty(mixed_dimensions(node.span, rate_node.span, wanted, amount_node.span, kind))
    return result


def _largest(node: Call, scope: Scope) -> Kind:
    variable, low, high, test = node.arguments
    if not isinstance(variable, Name) or "." in variable.name or scope.kind(variable.name) is not NoKind.MISSING:
        raise Faulty(
            function_used_wrongly(
                variable.span, "`largest` begins with a name of its own, such as n", FUNCTIONS["largest"]
            )
        )
    kind = _together(node, low, high, scope).as_result()
    _test(test, Bound(scope, variable.name, kind if not kind.is_bare else NUMBER, Fraction(0)))
    return kind
