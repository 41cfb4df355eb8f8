"""What a formula consists of. Every part keeps its span, so that a fault points at the smallest text that shows it."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.kind import Kind
from stitchproof.once import once
from stitchproof.source import Span


class _Part(Struct, frozen=True, dict=True):
    """A part of a formula. What it holds is asked for over and over, in every size, and looked up once."""

    @property
    def parts(self) -> tuple[Node, ...]:
        """The parts right inside it, in the order written."""
        return ()

    @once
    def names(self) -> tuple[Name | Call, ...]:
        """Every name it speaks of, functions of the language among them, in the order written."""
        return tuple([name for part in self.parts for name in part.names])

    @once
    def calls(self) -> tuple[Call, ...]:
        """Every function and value with a parameter among them; most formulas have none."""
        return tuple([name for name in self.names if isinstance(name, Call)])


class Amount(_Part, frozen=True):
    """A number, with the unit it was written with. `value` is in cm, g, stitches, rows or plain."""

    value: Fraction
    kind: Kind
    span: Span


class NotWorked(_Part, frozen=True):
    """`not worked`: this size does without."""

    span: Span


class Name(_Part, frozen=True):
    """A name of the pattern, or of a loop."""

    name: str
    span: Span

    @once
    def names(self) -> tuple[Name | Call, ...]:
        return (self,)


class Call(_Part, frozen=True):
    """A function of the language, or a named value with its parameter: `after_dec(k)`."""

    name: str
    arguments: tuple[Node, ...]
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return self.arguments

    @once
    def names(self) -> tuple[Name | Call, ...]:
        return (self, *[name for part in self.arguments for name in part.names])


class AtSize(_Part, frozen=True):
    """A value in one named size, the same for every size: `hat_sts[Adult]`. `size`: where the size is named."""

    operand: Node
    size: Span
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.operand,)


class Negative(_Part, frozen=True):
    """A value with its sign turned."""

    operand: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.operand,)


class Sum(_Part, frozen=True):
    """Addition or subtraction; `sign` is + or -."""

    sign: str
    left: Node
    right: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.left, self.right)


class Product(_Part, frozen=True):
    """Multiplication or division; `sign` is * or /."""

    sign: str
    left: Node
    right: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.left, self.right)


class Comparison(_Part, frozen=True):
    """`sign` is one of < <= > >= = !=."""

    sign: str
    left: Node
    right: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.left, self.right)


class Not(_Part, frozen=True):
    """A test turned round."""

    operand: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.operand,)


class Logic(_Part, frozen=True):
    """`word` is and or or."""

    word: str
    left: Node
    right: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.left, self.right)


class Choice(_Part, frozen=True):
    """`value if test else otherwise`."""

    value: Node
    test: Node
    otherwise: Node
    span: Span

    @property
    def parts(self) -> tuple[Node, ...]:
        return (self.value, self.test, self.otherwise)


Node = Amount | NotWorked | Name | Call | AtSize | Negative | Sum | Product | Comparison | Not | Logic | Choice


class Formula(Struct, frozen=True):
    """A formula as written and as read."""

    text: str
    node: Node
    span: Span


def inside(node: Node) -> tuple[Node, ...]:
    """The parts of a node, in the order written."""
    return node.parts


def names_in(node: Node) -> tuple[Name | Call, ...]:
    """Every name a formula speaks of, functions of the language among them, in the order written."""
    return node.names
