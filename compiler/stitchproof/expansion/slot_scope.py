"""The names that a slot can speak of: those of the pattern, and what loops and calls hand it."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.kind import NUMBER, Kind
from stitchproof.formulas.scope import NoKind
from stitchproof.formulas.tree import AtSize, Call, Formula, Name, Node, names_in
from stitchproof.measures.published import Published
from stitchproof.measures.rate import Rate
from stitchproof.measures.values import Value
from stitchproof.sizing.sized_pattern import PatternScope


class SlotScope(Struct, frozen=True):
    """The names at a slot: loop numbers and handles it was handed, then those of the pattern, unless it is a shared text."""

    outer: PatternScope
    numbers: dict[str, Fraction]
    handles: dict[str, str]
    shared: bool

    def names(self) -> tuple[str, ...]:
        """What can be named at the slot; in a shared text only what it was handed."""
        own = (*self.numbers, *self.handles)
        return own if self.shared else (*own, *self.outer.names())

    def outer_name(self, name: str) -> str:
        """The name that a pattern has for what a slot calls by a name it was handed."""
        return self.handles.get(name, "" if self.shared else name)

    def kind(self, name: str) -> Kind | NoKind:
        return NUMBER if name in self.numbers else self.outer.kind(self.outer_name(name))

    def takes_parameter(self, name: str) -> bool:
        return name not in self.numbers and self.outer.takes_parameter(self.outer_name(name))

    def rate(self, name: str) -> Rate | None:
        return None if name in self.numbers else self.outer.rate(self.outer_name(name))

    def size_names(self) -> tuple[str, ...]:
        return self.outer.size_names()

    def size_index(self, words: str) -> int | None:
        return self.outer.size_index(words)

    def value(self, name: str, size: int, parameter: Fraction | None) -> Value:
        """A value in one size; a loop number is the same in all."""
        if name in self.numbers:
            return self.numbers[name]
        return self.outer.value(self.outer_name(name), size, parameter)

    def is_late(self, node: Node) -> bool:
        """Whether a part of a formula speaks of what is known only once the rows are worked."""
        late = self.outer.late
        return bool(late) and any(
            each.name not in self.numbers and self.outer.full_name(self.outer_name(each.name)) in late
            for each in names_in(node)
        )

    def published(self, formula: Formula) -> Published | None:
        """The figures of a body table where a formula is the name of one of its rows, or such a row in one size, and no more."""
        match formula.node:
            case Name():
                return self._published(formula.node.name)
            case AtSize(operand=Name() as row):
                held, size = self._published(row.name), self.outer.size_index(formula.node.size.text)
                return held.of_one(size) if held and size is not None else None
            case Call(name="lowest" | "highest" as which, arguments=(Name() as row,)):
                values = [(self.value(row.name, size, None), size) for size in range(len(self.size_names()))]
                worked = sorted((value, size) for value, size in values if isinstance(value, Fraction))
                held, size = self._published(row.name), worked[0 if which == "lowest" else -1][1] if worked else None
                return held.of_one(size) if held and size is not None else None
        return None

    def _published(self, name: str) -> Published | None:
        if name in self.numbers:
            return None
        quantity = self.outer.quantities.get(self.outer.full_name(self.outer_name(name)))
        return quantity.published if quantity else None
