"""What a formula can speak of: the names of a pattern, and the names bound by a loop or by `largest`."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import Protocol

from msgspec import Struct

from stitchproof.formulas.kind import Kind
from stitchproof.measures.rate import Rate
from stitchproof.measures.values import Value


class NoKind(Enum):
    """Why a name has no kind."""

    MISSING = "there is no such name"
    SILENT = "it could not be determined, and the reason is already reported"


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
