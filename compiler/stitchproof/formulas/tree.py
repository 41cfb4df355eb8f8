"""What a formula consists of. Every part keeps its span, so that a fault points at the smallest text that shows it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from stitchproof.formulas.kind import Kind
from stitchproof.source import Span


@dataclass(frozen=True, slots=True)
class Amount:
    """A number, with the unit it was written with. `value` is in cm, g, stitches, rows or plain."""

    value: Fraction
    kind: Kind
    span: Span


@dataclass(frozen=True, slots=True)
class NotWorked:
    """`not worked`: this size does without."""

    span: Span


@dataclass(frozen=True, slots=True)
class Name:
    """A name of the pattern, or of a loop."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Call:
    """A function of the language, or a named value with its parameter: `after_dec(k)`."""

    name: str
    arguments: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Negative:
    """A value with its sign turned."""

    operand: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Sum:
    """Addition or subtraction; `sign` is + or -."""

    sign: str
    left: Node
    right: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Product:
    """Multiplication or division; `sign` is * or /."""

    sign: str
    left: Node
    right: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Comparison:
    """`sign` is one of < <= > >= = !=."""

    sign: str
    left: Node
    right: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Not:
    """A test turned round."""

    operand: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Logic:
    """`word` is and or or."""

    word: str
    left: Node
    right: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Choice:
    """`value if test else otherwise`."""

    value: Node
    test: Node
    otherwise: Node
    span: Span


Node = Amount | NotWorked | Name | Call | Negative | Sum | Product | Comparison | Not | Logic | Choice


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula as written and as read."""

    text: str
    node: Node
    span: Span


def inside(node: Node) -> tuple[Node, ...]:
    """The parts of a node, in the order written."""
    match node:
        case Call():
            return node.arguments
        case Negative() | Not():
            return (node.operand,)
        case Sum() | Product() | Comparison() | Logic():
            return (node.left, node.right)
        case Choice():
            return (node.value, node.test, node.otherwise)
        case _:
            return ()


def names_in(node: Node) -> Iterator[Name | Call]:
    """Every name a formula speaks of, functions of the language among them, in the order written."""
    if isinstance(node, Name | Call):
        yield node
    for part in inside(node):
        yield from names_in(part)
