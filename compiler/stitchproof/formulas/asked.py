"""Which named values a formula takes its number from, in which size, and at which k."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.kinds import FUNCTIONS
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.tree import AtSize, Call, Choice, Comparison, Logic, Name, Node, Not, inside, names_in

CHANGE_A_VALUE = ("nearest", "up", "down", "min", "max", "abs", "largest")
"""Functions whose values may be what no row could be worked with: halves to be rounded, what lies below a limit."""


class Asked(Struct, frozen=True):
    """A named value in a size. k: of a value such as `after_dec(k)`, the k it is asked at; None where it takes or has none."""

    name: str
    size: int
    k: Fraction | None = None


def asked_in(node: Node, scope: Scope, size: int) -> Iterator[Asked]:
    """Every named value that a formula speaks of in a size, tests and searches among them."""
    match node:
        case Name():
            yield Asked(node.name, size)
        case AtSize():
            index = scope.size_index(node.size.text)
            yield from asked_in(node.operand, scope, size if index is None else index)
        case Call(name="lowest" | "highest"):
            for each in range(len(scope.size_names())):
                yield from asked_in(node.arguments[0], scope, each)
        case Call():
            yield _at_k(node, scope, size)
            for argument in node.arguments:
                yield from asked_in(argument, scope, size)
        case Choice():
            yield from asked_in(node.test, scope, size)
            taken = value_of(node.test, scope, size)
            yield from asked_in(node.value if taken is True else node.otherwise, scope, size)
            for named in names_in(node.otherwise if taken is True else node.value):
                yield Asked(named.name, size)
        case _:
            for part in inside(node):
                yield from asked_in(part, scope, size)


def worked_with(node: Node, scope: Scope, size: int) -> Iterator[Asked]:
    """The values with a k that a formula works with as they are: no test, nothing that it rounds or bounds, the branch taken."""
    match node:
        case Comparison() | Logic() | Not():
            return
        case Choice():
            yield from worked_with(
                node.value if value_of(node.test, scope, size) is True else node.otherwise, scope, size
            )
        case AtSize():
            index = scope.size_index(node.size.text)
            yield from worked_with(node.operand, scope, size if index is None else index)
        case Call(name="lowest" | "highest"):
            for each in range(len(scope.size_names())):
                yield from worked_with(node.arguments[0], scope, each)
        case Call() if node.name in CHANGE_A_VALUE:
            return
        case Call() if node.name not in FUNCTIONS:
            asked = _at_k(node, scope, size)
            if asked.k is not None:
                yield asked
        case _:
            for part in inside(node):
                yield from worked_with(part, scope, size)


def speaks_of_k_values(node: Node) -> bool:
    """Whether a formula asks for a value at some k at all."""
    return bool(node.calls) and any(each.name not in FUNCTIONS for each in node.calls)


def _at_k(node: Call, scope: Scope, size: int) -> Asked:
    """A call; with its k, where it is one of a named value and the k is known."""
    if node.name in FUNCTIONS or len(node.arguments) != 1:
        return Asked(node.name, size)
    k = value_of(node.arguments[0], scope, size)
    return Asked(node.name, size, k if isinstance(k, Fraction) else None)
