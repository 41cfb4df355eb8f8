"""What a formula can speak of: the names of a pattern, and the names bound by a loop or by `largest`."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import Protocol

from msgspec import Struct

from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import Dimension
from stitchproof.measures.values import Value


class NoKind(Enum):
    """Why a name has no kind."""

    MISSING = "there is no such name"
    SILENT = "it could not be determined, and the reason is already reported"


class Rate(Struct, frozen=True):
    """A pick-up rate: `sts` stitches per `per` of the edge (ribs, rows). `left_over`: stitches for each one beyond whole groups.

    Without `left_over` the rate is exact, and a total that is not whole is a fault. Source: common practice, no source.
    """

    name: str
    sts: Fraction
    per: Fraction
    dimension: Dimension
    noun: str
    left_over: Fraction | None
    cm_per_unit: Fraction | None

    def picked_up(self, edge: Fraction) -> Fraction:
        """Stitches picked up along `edge`: whole groups, then the left-over rate; or the exact product."""
        if self.left_over is None:
            return edge * self.sts / self.per
        groups = edge // self.per
        return groups * self.sts + (edge - groups * self.per) * self.left_over

    def edge_for(self, stitches: Fraction) -> Fraction:
        """The longest whole edge along which no more than `stitches` are picked up. `per` is whole, left_over not negative."""
        if self.left_over is None:
            return Fraction(stitches * self.per // self.sts)
        groups, rest = divmod(stitches, self.sts)
        beyond = min(self.per - 1, Fraction(rest // self.left_over)) if self.left_over else self.per - 1
        return groups * self.per + beyond


class NoValueThere(Exception):
    """A value such as `after_dec(k)` has none at the k asked for. `why` in one clause; `help_text`: what to ask for."""

    def __init__(self, why: str, help_text: str) -> None:
        super().__init__(why)
        self.why = why
        self.help_text = help_text


class Scope(Protocol):
    """Looks names up. Values are per size; `parameter` is the k of a value that takes one.

    With a parameter, `value` raises NoValueThere, or CannotWorkOut with the report of the named value's own fault.
    """

    def names(self) -> tuple[str, ...]: ...

    def kind(self, name: str) -> Kind | NoKind: ...

    def takes_parameter(self, name: str) -> bool: ...

    def rate(self, name: str) -> Rate | None: ...

    def size_names(self) -> tuple[str, ...]: ...

    def size_index(self, words: str) -> int | None: ...

    def value(self, name: str, size: int, parameter: Fraction | None) -> Value: ...


class Bound(Struct, frozen=True):
    """A scope with one more name, which stands for a plain number or count that is the same in every size."""

    outer: Scope
    name: str
    bound_kind: Kind
    bound_value: Fraction

    def names(self) -> tuple[str, ...]:
        return (*self.outer.names(), self.name)

    def kind(self, name: str) -> Kind | NoKind:
        return self.bound_kind if name == self.name else self.outer.kind(name)

    def takes_parameter(self, name: str) -> bool:
        return name != self.name and self.outer.takes_parameter(name)

    def rate(self, name: str) -> Rate | None:
        return None if name == self.name else self.outer.rate(name)

    def size_names(self) -> tuple[str, ...]:
        return self.outer.size_names()

    def size_index(self, words: str) -> int | None:
        return self.outer.size_index(words)

    def value(self, name: str, size: int, parameter: Fraction | None) -> Value:
        return self.bound_value if name == self.name else self.outer.value(name, size, parameter)
