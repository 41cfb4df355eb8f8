"""One named value: its kind, its raw value per size, its rounding, and what it comes to."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.mixed_dimensions import measures_nothing
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import PLAIN
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.units import UNITS, Unit
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.reading.pattern_source import Definition, Sizes, Words
from stitchproof.sizing.evaluated import kind_reported, value_reported
from stitchproof.sizing.faults.word_not_known import multiple_not_usable, word_not_known
from stitchproof.sizing.faults.wrong_number_of_values import wrong_number_of_sizes, wrong_number_of_values
from stitchproof.sizing.rates import length_of_one
from stitchproof.sizing.sized_pattern import PatternScope, Quantity, is_no_gauge
from stitchproof.sizing.value_kind import fits, kind_of_value


class Sizer:
    """Adds named values to a scope, one by one, each after those it uses."""

    def __init__(
        self,
        scope: PatternScope,
        sizes: tuple[str, ...],
        report: Report,
        as_given: Mapping[str, frozenset[int]] = MappingProxyType({}),
        written: Sizes | None = None,
    ) -> None:
        """written: the sizes as pattern.yaml gives them, to be shown where they are at fault."""
        self.scope = scope
        self.sizes = sizes
        self.report = report
        self.as_given = as_given
        self.written = written

    def add(self, definition: Definition, inputs: tuple[str, ...]) -> None:
        """Put the value into the scope; one whose kind cannot be found (reported) is kept silent."""
        unit, rounding = self._unit(definition.unit), self._rounding(definition.rounding)
        unknown_word = (definition.unit and not unit) or (definition.rounding and not rounding)
        kind = None if unknown_word else self._kind(definition, unit)
        if kind is None or (kind.dimension.measures_nothing and self._reported_as_nothing(definition, kind)):
            self.scope.silent.add(definition.name)
            return
        quantity = self._quantity(definition, inputs, kind, rounding)
        if definition.by_hand and len(definition.formulas) != len(self.sizes):
            quantity = self._without_values(quantity, definition)
        else:
            quantity = replace(quantity, multiples=self._multiples(definition, kind, unit))
            if not definition.parameter:
                quantity = self._with_values(quantity, unit)
        self.scope.quantities[definition.name] = quantity
        if is_no_gauge(quantity):
            self.scope.silent.add(definition.name)

    def add_bounds(self, definition: Definition) -> None:
        """Put the bounds of a value into the scope, once every name that they may use is there."""
        quantity = self.scope.quantities.get(definition.name)
        worked_out = quantity and (quantity.values or any(quantity.formulas))
        if quantity and worked_out and definition.name not in self.scope.silent:
            at_least = self._bound(definition.at_least, definition, quantity)
            at_most = self._bound(definition.at_most, definition, quantity)
            self.scope.quantities[definition.name] = replace(quantity, at_least=at_least, at_most=at_most)

    def _reported_as_nothing(self, definition: Definition, kind: Kind) -> bool:
        formula = next((each for each in definition.formulas if each), None)
        self.report.add(measures_nothing(formula.span if formula else definition.value_span, kind))
        return True

    def _quantity(
        self, definition: Definition, inputs: tuple[str, ...], kind: Kind, rounding: Direction | None
    ) -> Quantity:
        gauge = self._gauge(definition, kind, inputs)
        formulas = definition.formulas if definition.by_hand else definition.formulas * len(self.sizes)
        return Quantity(
            definition.name,
            definition.section,
            kind,
            formulas,
            definition.by_hand,
            (),
            (),
            rounding,
            (),
            (),
            (),
            inputs,
            gauge,
            length_of_one(gauge, kind, self.scope) if gauge else None,
            definition.why.text.strip() if definition.why else "",
            definition.span,
            definition.value_span,
            definition.parameter,
            definition.start,
        )

    def _without_values(self, quantity: Quantity, definition: Definition) -> Quantity:
        """A list with one number too few or too many: which size a number is for cannot be told."""
        sizes, written, values = self.sizes, self.written, len(definition.formulas)
        if written and written.values_listed == values:
            names = written.name_spans[0].to(written.name_spans[-1])
            self.report.add(wrong_number_of_sizes(names, definition.value_span, values, sizes))
        else:
            self.report.add(wrong_number_of_values(definition.name, definition.value_span, values, sizes))
        unknown: PerSize = () if definition.parameter else (Absent.UNKNOWN,) * len(sizes)
        none = (None,) * len(sizes)
        return replace(quantity, formulas=none, raw=unknown, values=unknown, multiples=none)

    def _with_values(self, quantity: Quantity, unit: Unit | None) -> Quantity:
        raw = tuple(self._raw(formula, size, unit) for size, formula in enumerate(quantity.formulas))
        given = self.as_given.get(quantity.name, frozenset())
        values = tuple(
            round_to(value, quantity.rounding, multiple or Multiple())
            if isinstance(value, Fraction) and quantity.rounding and size not in given
            else value
            for size, (value, multiple) in enumerate(zip(raw, quantity.multiples, strict=True))
        )
        return replace(quantity, raw=raw, values=values)

    def _raw(self, formula: Formula | None, size: int, unit: Unit | None) -> Value:
        if formula is None:
            return Absent.UNKNOWN
        value = value_reported(formula, self.scope, size, self.report)
        kind = kind_reported(formula, self.scope, self.report) if unit else None
        if unit and kind and kind.dimension == PLAIN and isinstance(value, Fraction):
            return value * unit.size
        return value

    def _kind(self, definition: Definition, unit: Unit | None) -> Kind | None:
        start: Kind | None = None
        if definition.start is not None:
            start = kind_reported(definition.start, self.scope, self.report)
            if start is None:
                return None
            # The formula speaks of the value at k - 1, so the value must be known by its start.
            self.scope.quantities[definition.name] = self._quantity(definition, (), start, None)
        return kind_of_value(definition, unit, start, self.scope, self.report)

    def _unit(self, words: Words | None) -> Unit | None:
        if not words:
            return None
        unit = UNITS.get(words.text.strip())
        if unit is None:
            shown = ("cm", "in", "g", "sts", "rows", "rnds", "ribs", "times", "pairs", "groups", "repeats", "balls")
            self.report.add(word_not_known(words.span, "a unit", shown))
        return unit

    def _rounding(self, words: Words | None) -> Direction | None:
        if not words:
            return None
        known = {direction.value: direction for direction in Direction}
        if words.text.strip() not in known:
            self.report.add(word_not_known(words.span, "a rounding", known))
        return known.get(words.text.strip())

    def _multiples(self, definition: Definition, kind: Kind, unit: Unit | None) -> tuple[Multiple | None, ...]:
        parts = [part for part in (definition.multiple, definition.plus) if part]
        if not definition.multiple or not all(
            fits(part, definition, kind, unit, self.scope, self.report) for part in parts
        ):
            return (None,) * len(self.sizes)
        return tuple(self._multiple(definition, kind, size, unit) for size in range(len(self.sizes)))

    def _multiple(self, definition: Definition, kind: Kind, size: int, unit: Unit | None) -> Multiple | None:
        of, plus = self._raw(definition.multiple, size, unit), Fraction(0)
        if definition.plus is not None:
            added = self._raw(definition.plus, size, unit)
            plus = added if isinstance(added, Fraction) else plus
        if not isinstance(of, Fraction) or not definition.multiple:
            return None
        parts = (of, plus) if kind.dimension.is_count and not kind.is_ratio else ()
        if of <= 0 or not all(part.denominator == 1 for part in parts):
            self.report.add(multiple_not_usable(definition.multiple.span))
            return None
        return Multiple(of, plus)

    def _bound(self, formula: Formula | None, definition: Definition, quantity: Quantity) -> PerSize:
        unit = self._unit(definition.unit)
        if formula is None or not fits(formula, definition, quantity.kind, unit, self.scope, self.report):
            return (Absent.UNKNOWN,) * len(self.sizes)
        return tuple(self._raw(formula, size, unit) for size in range(len(self.sizes)))

    def _gauge(self, definition: Definition, kind: Kind, inputs: tuple[str, ...]) -> str:
        """The gauge that a value lies at: the one it states, the only one its formula uses, or that of its inputs of its kind."""
        if definition.gauge:
            stated = definition.gauge.text.strip()
            if not any(name.startswith(f"gauges.{stated}.") for name in self.scope.quantities):
                known = sorted({name.split(".")[1] for name in self.scope.quantities if name.startswith("gauges.")})
                self.report.add(word_not_known(definition.gauge.span, "a gauge of this pattern", known))
                return ""
            return stated
        direct = {name.split(".")[1] for name in inputs if name.startswith("gauges.")}
        if not direct:
            used = [held for name in inputs if (held := self.scope.quantities.get(name))]
            direct = {held.gauge for held in used if held.gauge and held.kind.dimension == kind.dimension}
        return direct.pop() if len(direct) == 1 else ""
