"""A formula as a worked sum in one size: names replaced by their values, "40 cm × 16 sts per 10 cm"."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec.structs import replace

from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.kinds import kind_of
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
    inside,
)
from stitchproof.measures.dimension import STITCHES
from stitchproof.measures.rate import Rate
from stitchproof.measures.values import exact_text
from stitchproof.source import SourceFile, Span

SIGNS = {"*": "×", "/": "÷", "-": "−", "<=": "≤", ">=": "≥", "!=": "≠"}
OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "=": "!=", "!=": "="}
DONE_FIRST = ("min", "max", "abs", "nearest", "up", "down", "lowest", "highest")
LOOSENESS = {Choice: 0, Logic: 1, Not: 2, Comparison: 3, Sum: 4, Product: 5, Negative: 6}


def worked(formula: Formula, scope: Scope, size: int) -> str:
    """The sum of a formula in one size, each name replaced by its value there."""
    return _words(formula.node, scope, size)


def worked_further(formula: Formula, scope: Scope, size: int) -> str:
    """The same sum with its roundings, smallest and largest worked out: the step between the sum and its result."""
    return _words(_functions_done(formula.node, scope, size), scope, size)


def decided_by(formula: Formula, scope: Scope, size: int) -> tuple[str, ...]:
    """What decided a value: the tests that chose, and which side of a `min` or `max` won, in the order written."""
    return tuple(_deciding(formula.node, scope, size))


def _functions_done(node: Node, scope: Scope, size: int) -> Node:
    match node:
        case Call() if node.name in DONE_FIRST:
            text = result_text(node, scope, size)
            value, span = value_of(node, scope, size), Span(SourceFile("", text), 0, len(text))
            return Amount(value, Kind(), span) if isinstance(value, Fraction) else node
        case Sum() | Product():
            left, right = _functions_done(node.left, scope, size), _functions_done(node.right, scope, size)
            return replace(node, left=left, right=right)
        case Negative():
            return replace(node, operand=_functions_done(node.operand, scope, size))
        case Choice():
            taken = node.value if value_of(node.test, scope, size) is True else node.otherwise
            return _functions_done(taken, scope, size)
        case _:
            return node


def _deciding(node: Node, scope: Scope, size: int) -> Iterator[str]:
    match node:
        case Choice():
            taken = value_of(node.test, scope, size)
            if isinstance(taken, bool):
                yield f"as {_chosen_words(node.test, scope, size, taken)}"
            yield from _deciding(node.value if taken is True else node.otherwise, scope, size)
        case Call() if node.name in ("min", "max"):
            sides = list(dict.fromkeys(_winners(node, scope, size)))
            if sides:
                yield f"decided by {' and '.join(sides)}" + (" alike" if len(sides) > 1 else "")
        case _:
            for part in inside(node):
                yield from _deciding(part, scope, size)


def _winners(node: Node, scope: Scope, size: int) -> Iterator[str]:
    """The side of a `min` or `max` that won, as written; of one within another, the innermost."""
    if not isinstance(node, Call) or node.name not in ("min", "max"):
        yield " ".join(node.span.text.split())
        return
    won = value_of(node, scope, size)
    for each in node.arguments:
        if isinstance(won, Fraction) and value_of(each, scope, size) == won:
            yield from _winners(each, scope, size)


def _chosen_words(test: Node, scope: Scope, size: int, holds: bool) -> str:
    if isinstance(test, Comparison):
        return _test_words(test, scope, size, holds)
    return f"{_words(test, scope, size)} {'holds' if holds else 'does not hold'}"


def result_text(node: Node, scope: Scope, size: int) -> str:
    """The value of a part of a formula in one size, with its unit."""
    kind = kind_of(Formula(node.span.text, node, node.span), scope)
    return amount_text(value_of(node, scope, size), kind if isinstance(kind, Kind) else Kind())


def _words(node: Node, scope: Scope, size: int) -> str:
    match node:
        case Amount():
            return _amount(node)
        case NotWorked():
            return "not worked"
        case Name():
            kind = scope.kind(node.name)
            return amount_text(scope.value(node.name, size, None), kind) if not isinstance(kind, NoKind) else node.name
        case Call():
            return _call(node, scope, size)
        case AtSize():
            index = scope.size_index(node.size.text)
            return f"{_words(node.operand, scope, size if index is None else index)} (size {node.size.text})"
        case Negative():
            return f"−{_inner(node.operand, node, scope, size)}"
        case Not():
            return f"not {_inner(node.operand, node, scope, size)}"
        case Choice():
            taken = value_of(node.test, scope, size)
            chosen = node.value if taken is True else node.otherwise
            return _words(chosen, scope, size)
        case Logic():
            return f"{_inner(node.left, node, scope, size)} {node.word} {_inner(node.right, node, scope, size)}"
        case Sum() | Product() | Comparison():
            left, right = _inner(node.left, node, scope, size), _inner(node.right, node, scope, size, right=True)
            return f"{left} {SIGNS.get(node.sign, node.sign)} {right}"


def _amount(node: Amount) -> str:
    """A number as it was written; one whose unit its place says, as in `stitches: 16`, with that unit."""
    written = node.span.text.strip("() ")
    return written if not node.kind.noun or " " in written or written[-1].isalpha() else f"{written} {node.kind.noun}"


def _inner(node: Node, outer: Node, scope: Scope, size: int, right: bool = False) -> str:
    words = _words(node, scope, size)
    own = LOOSENESS.get(type(node), 9)
    if isinstance(node, Choice):
        return words
    if isinstance(node, Name | Amount | Call) and " per " in words and isinstance(outer, Product):
        return f"({words})" if right and outer.sign == "/" else words
    looser = own < LOOSENESS[type(outer)] or (right and own == LOOSENESS[type(outer)])
    return f"({words})" if looser or (right and words.startswith("−")) else words


def _call(node: Call, scope: Scope, size: int) -> str:
    if node.name in ("picked_up", "edge_for"):
        rate_node, amount = node.arguments
        rate = scope.rate(rate_node.name) if isinstance(rate_node, Name) else None
        value = value_of(amount, scope, size)
        if rate and isinstance(value, Fraction):
            return (
                pick_up_sum(rate, value)
                if node.name == "picked_up"
                else f"edge for {exact_text(value)} sts at {rate_words(rate)}"
            )
    if node.name == "largest":
        return _largest(node, scope, size)
    over = range(len(scope.size_names())) if node.name in ("lowest", "highest") else (size,)
    arguments = ", ".join(_words(argument, scope, each) for each in over for argument in node.arguments)
    if not isinstance(scope.kind(node.name), NoKind):
        return result_text(node, scope, size)
    return f"{node.name}({arguments})"


def rate_words(rate: Rate) -> str:
    """A rate as written: "5 sts per 2 ribs"."""
    return f"{exact_text(rate.sts)} sts per {exact_text(rate.per)} {rate.noun}"


def pick_up_sum(rate: Rate, edge: Fraction) -> str:
    """Stitches picked up along an edge as a sum: "12 × 5 sts + 1 × 2 sts"."""
    if rate.left_over is None:
        noun = Kind(noun=rate.noun)
        sts, per = amount_text(rate.sts, Kind(STITCHES, "sts")), amount_text(rate.per, noun)
        return f"{amount_text(edge, noun)} × {sts} ÷ {per}"
    groups = edge // rate.per
    rest = edge - groups * rate.per
    whole = f"{groups} × {exact_text(rate.sts)} sts"
    return f"{whole} + {exact_text(rest)} × {exact_text(rate.left_over)} sts" if rest else whole


def _largest(node: Call, scope: Scope, size: int) -> str:
    """The last value that passes, and the first that does not: "at 25 ribs 62 sts ≤ 64 sts; at 26 ribs 65 sts > 64 sts"."""
    variable, _, high, test = node.arguments
    found, top = value_of(node, scope, size), value_of(high, scope, size)
    kind = kind_of(Formula(node.span.text, node, node.span), scope)
    if not isinstance(variable, Name) or not isinstance(found, Fraction) or not isinstance(kind, Kind):
        return "no value passes the test"
    tried = [found, found + 1] if isinstance(top, Fraction) and found < top else [found]
    words = []
    for number in tried:
        bound = Bound(scope, variable.name, kind, number)
        words.append(f"at {amount_text(number, kind)} {_test_words(test, bound, size, holds=number == found)}")
    return "; ".join(words)


def _test_words(test: Node, scope: Scope, size: int, holds: bool) -> str:
    if not isinstance(test, Comparison):
        return "it holds" if holds else "it does not"
    sign = test.sign if holds else OPPOSITE[test.sign]
    return f"{result_text(test.left, scope, size)} {SIGNS.get(sign, sign)} {result_text(test.right, scope, size)}"
