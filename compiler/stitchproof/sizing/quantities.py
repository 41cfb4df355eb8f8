"""One named value: its kind, its raw value per size, its rounding, and what it comes to."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.faults.missing_unit import missing_unit_of
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.scope import Bound, Scope
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import LENGTH, PLAIN, WEIGHT
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.units import UNITS, Unit
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.reading.pattern_source import Definition, Words
from stitchproof.sizing.evaluated import in_all, kind_reported, value_reported
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.faults.wrong_number_of_values import wrong_number_of_values
from stitchproof.sizing.rates import length_of_one
from stitchproof.sizing.sized_pattern import PatternScope, Quantity


class Sizer:
    """Adds named values to a scope, one by one, each after those it uses."""

    def __init__(self, scope: PatternScope, sizes: tuple[str, ...], report: Report) -> None:
        self.scope = scope
        self.sizes = sizes
        self.report = report

    def add(self, definition: Definition, inputs: tuple[str, ...]) -> None:
        """Put the value into the scope; one whose kind cannot be found (reported) is kept silent."""
        unit = self._unit(definition.unit)
        kind = self._kind(definition, unit)
        if kind is None:
            self.scope.silent.add(definition.name)
            return
        rounding = self._rounding(definition.rounding)
        if definition.rounding and rounding is None:
            self.scope.silent.add(definition.name)
            return
        quantity = self._quantity(definition, inputs, kind, rounding)
        if not definition.parameter:
            quantity = self._with_values(quantity, definition, unit)
        self.scope.quantities[definition.name] = quantity

    def _quantity(
        self, definition: Definition, inputs: tuple[str, ...], kind: Kind, rounding: Direction | None
    ) -> Quantity:
        gauge = self._gauge(definition, inputs)
        formulas = (
            definition.formulas if definition.by_hand or definition.parameter else definition.formulas * len(self.sizes)
        )
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

    def _with_values(self, quantity: Quantity, definition: Definition, unit: Unit | None) -> Quantity:
        every = range(len(self.sizes))
        if definition.by_hand and len(definition.formulas) != len(self.sizes):
            self.report.add(
                wrong_number_of_values(definition.name, definition.value_span, len(definition.formulas), self.sizes)
            )
            unknown: PerSize = (Absent.UNKNOWN,) * len(self.sizes)
            return replace(
                quantity,
                formulas=(None,) * len(self.sizes),
                raw=unknown,
                values=unknown,
                multiples=(None,) * len(self.sizes),
                at_least=unknown,
                at_most=unknown,
            )
        raw = tuple(self._raw(quantity.formulas[size], size, unit) for size in every)
        multiples = tuple(self._multiple(definition, size) for size in every)
        values = tuple(
            round_to(value, quantity.rounding, multiple or Multiple())
            if isinstance(value, Fraction) and quantity.rounding
            else value
            for value, multiple in zip(raw, multiples, strict=True)
        )
        return replace(
            quantity,
            raw=raw,
            values=values,
            multiples=multiples,
            at_least=self._bound(definition.at_least),
            at_most=self._bound(definition.at_most),
        )

    def _raw(self, formula: Formula | None, size: int, unit: Unit | None) -> Value:
        if formula is None:
            return Absent.UNKNOWN
        value = value_reported(formula, self.scope, size, self.report)
        kind = kind_reported(formula, self.scope, self.report)
        if unit and kind and kind.dimension == PLAIN and isinstance(value, Fraction):
            return value * unit.size
        return value

    def _kind(self, definition: Definition, unit: Unit | None) -> Kind | None:
        """The kind that all formulas of a value share, its stated unit applied; None where there is none (reported)."""
        scope: Scope = self.scope
        if definition.parameter:
            scope = Bound(scope, definition.parameter, Kind(PLAIN), Fraction(0))
        if definition.start is not None:
            start = kind_reported(definition.start, self.scope, self.report)
            if start is None:
                return None
            self.scope.quantities[definition.name] = self._quantity(definition, (), start, None)
        found: Kind | None = None
        spans = [formula.span for formula in definition.formulas if formula]
        for formula in definition.formulas:
            kind = kind_reported(formula, scope, self.report) if formula else None
            if kind is None:
                return None
            if found and not kind.is_bare and not found.is_bare and kind.dimension != found.dimension and not kind.zero:
                self.report.add(
                    in_all(
                        mixed_dimensions(
                            formula.span if formula else definition.span, spans[0], found, spans[-1], kind
                        ),
                        self.report,
                    )
                )
                return None
            found = kind if found is None or (found.is_bare and not kind.is_bare) else found
        return self._with_unit(definition, found, unit) if found else None

    def _with_unit(self, definition: Definition, kind: Kind, unit: Unit | None) -> Kind | None:
        if unit and kind.dimension in (PLAIN, unit.dimension):
            return Kind(unit.dimension, unit.noun)
        if unit:
            span = definition.unit.span if definition.unit else definition.span
            self.report.add(
                in_all(
                    mixed_dimensions(definition.value_span, definition.value_span, kind, span, Kind(unit.dimension)),
                    self.report,
                )
            )
            return None
        measure = definition.section in ("measures", "body")
        wanted = kind.dimension in (LENGTH, WEIGHT) or (not measure and not kind.is_bare)
        all_absent = all(formula and _is_absent(formula) for formula in definition.formulas)
        if definition.section == "gauges" or wanted or definition.parameter or all_absent:
            return kind
        if kind.is_bare:
            self.report.add(self._missing_unit(definition, measure))
            return None
        return kind

    def _missing_unit(self, definition: Definition, measure: bool) -> Diagnostic:
        bare = next(formula for formula in definition.formulas if formula and not _is_absent(formula))
        return in_all(missing_unit_of(definition.name, bare.span, measure), self.report)

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

    def _multiple(self, definition: Definition, size: int) -> Multiple | None:
        if definition.multiple is None:
            return None
        of, plus = value_of(definition.multiple.node, self.scope, size), Fraction(0)
        if definition.plus is not None:
            added = value_of(definition.plus.node, self.scope, size)
            plus = added if isinstance(added, Fraction) else Fraction(0)
        if not isinstance(of, Fraction) or of <= 0:
            self.report.add(
                word_not_known(
                    definition.multiple.span, "a multiple", ("2 for even", "2 plus 1 for odd", "8", "4 plus 2")
                )
            )
            return None
        return Multiple(of, plus)

    def _bound(self, formula: Formula | None) -> PerSize:
        if formula is None or kind_reported(formula, self.scope, self.report) is None:
            return (Absent.UNKNOWN,) * len(self.sizes)
        return tuple(value_reported(formula, self.scope, size, self.report) for size in range(len(self.sizes)))

    def _gauge(self, definition: Definition, inputs: tuple[str, ...]) -> str:
        """The gauge that a value lies at: the one it states, the only one its formula uses, or that of its only input."""
        if definition.gauge:
            stated = definition.gauge.text.strip()
            if not any(name.startswith(f"gauges.{stated}.") for name in self.scope.quantities):
                known = sorted({name.split(".")[1] for name in self.scope.quantities if name.startswith("gauges.")})
                self.report.add(word_not_known(definition.gauge.span, "a gauge of this pattern", known))
                return ""
            return stated
        direct = {name.split(".")[1] for name in inputs if name.startswith("gauges.")}
        if not direct:
            direct = {held.gauge for name in inputs if (held := self.scope.quantities.get(name)) and held.gauge}
        return direct.pop() if len(direct) == 1 else ""


def _is_absent(formula: Formula) -> bool:
    return formula.text == "not worked"
