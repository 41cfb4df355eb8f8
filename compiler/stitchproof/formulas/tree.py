"""What a formula consists of. Every part keeps its span, so that a fault points at the smallest text that shows it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.kind import Kind
from stitchproof.source import Span


class Amount(Struct, frozen=True):
    """A number, with the unit it was written with. `value` is in cm, g, stitches, rows or plain."""

    value: Fraction
    kind: Kind
    span: Span


class NotWorked(Struct, frozen=True):
    """`not worked`: this size does without."""

    span: Span


class Name(Struct, frozen=True):
    """A name of the pattern, or of a loop."""

    name: str
    span: Span


class Call(Struct, frozen=True):
    """A function of the language, or a named value with its parameter: `after_dec(k)`."""

    name: str
    arguments: tuple[Node, ...]
    span: Span


class AtSize(Struct, frozen=True):
    """A value in one named size, the same for every size: `hat_sts[Adult]`. `size`: where the size is named."""

    operand: Node
    size: Span
    span: Span


class Negative(Struct, frozen=True):
    """A value with its sign turned."""

    operand: Node
    span: Span


class Sum(Struct, frozen=True):
    """Addition or subtraction; `sign` is + or -."""

    sign: str
    left: Node
    right: Node
    span: Span


class Product(Struct, frozen=True):
    """Multiplication or division; `sign` is * or /."""

    sign: str
    left: Node
    right: Node
    span: Span


class Comparison(Struct, frozen=True):
    """`sign` is one of < <= > >= = !=."""

    sign: str
    left: Node
    right: Node
    span: Span


class Not(Struct, frozen=True):
    """A test turned round."""

    operand: Node
    span: Span


class Logic(Struct, frozen=True):
    """`word` is and or or."""

    word: str
    left: Node
    right: Node
    span: Span


class Choice(Struct, frozen=True):
    """`value if test else otherwise`."""

    value: Node
    test: Node
    otherwise: Node
    span: Span


Node = Amount | NotWorked | Name | Call | AtSize | Negative | Sum | Product | Comparison | Not | Logic | Choice


class Formula(Struct, frozen=True):
    """A formula as written and as read."""

    text: str
    node: Node
    span: Span


def inside(node: Node) -> tuple[Node, ...]:
    """The parts of a node, in the order written."""
    match node:
        case Call():
            return node.arguments
        case Negative() | Not() | AtSize():
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
