"""What a named value is: the kind that its formulas, its start, its multiple and its bounds share, and its stated unit."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.missing_unit import missing_unit_of, unit_not_known
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions, not_a_ratio, unit_contradicts
from stitchproof.formulas.kind import RATIO, Kind
from stitchproof.formulas.kinds import shared_kind
from stitchproof.formulas.scope import Bound, Scope
from stitchproof.formulas.tree import Amount, Formula, Name, Node, NotWorked, Product
from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension
from stitchproof.measures.units import Unit
from stitchproof.reading.pattern_source import Definition
from stitchproof.sizing.evaluated import in_all, kind_reported
from stitchproof.sizing.faults.yarn_number_not_usable import not_a_yarn_number

GAUGE_NUMBERS = {
    "stitches": STITCHES.per(LENGTH),
    "rows": ROWS.per(LENGTH),
    "rounds": ROWS.per(LENGTH),
    "rows_per_rib": ROWS,
}

YARN_NUMBERS = {
    "margin": PLAIN,
    "sample": WEIGHT,
    "round_up_to": WEIGHT,
    "ball": WEIGHT,
    "length": LENGTH.per(WEIGHT),
    "length_up_to": LENGTH,
}
STITCH_WEIGHTS = (WEIGHT, WEIGHT.per(STITCHES))


def kind_of_value(
    definition: Definition, unit: Unit | None, start: Kind | None, scope: Scope, report: Report
) -> Kind | None:
    """The kind that all formulas of a value share, its unit applied; None where there is none (reported).

    start: the kind of its value at k = 0, if it has one.
    """
    if definition.parameter:
        scope = Bound(scope, definition.parameter, Kind(PLAIN), Fraction(0))
    decides: Node = Name(definition.name, definition.span)
    found = Kind(zero=True)
    if start and definition.start:
        decides, found = definition.start.node, start
    for formula in definition.formulas:
        kind = kind_reported(formula, scope, report) if formula else None
        if formula is None or kind is None:
            return None
        if definition.parameter and unit and unit.size != 1 and kind.is_bare:
            # Its value is worked out where it is asked for, and the stated unit is not at hand there.
            report.add(in_all(missing_unit_of(definition.name, formula.span, True), report))
            return None
        own = _recounted(formula, kind, definition, unit) or _as_written(formula, kind, unit)
        joined = shared_kind(formula.span, decides, found, formula.node, own)
        if isinstance(joined, Diagnostic):
            report.add(in_all(joined, report))
            return None
        decides = decides if joined == found else formula.node
        found = joined
    return _with_unit(definition, found.as_result(), unit, report)


def fits(formula: Formula, definition: Definition, kind: Kind, unit: Unit | None, scope: Scope, report: Report) -> bool:
    """Whether a multiple or bound can stand beside its value (reported if not). A bare number takes the stated unit."""
    own = kind_reported(formula, scope, report)
    if own is None:
        return False
    named = Name(definition.name, definition.span)
    joined = shared_kind(formula.span, named, kind, formula.node, _as_written(formula, own, unit))
    if isinstance(joined, Diagnostic):
        report.add(in_all(joined, report))
        return False
    return True


def _as_written(formula: Formula, kind: Kind, unit: Unit | None) -> Kind:
    """A written 0 and `not worked` fit everything; a bare number is of the stated unit."""
    node = formula.node
    if isinstance(node, NotWorked) or (isinstance(node, Amount) and node.kind.zero):
        return replace(kind, zero=True)
    return Kind(unit.dimension, unit.noun) if unit and kind.is_bare else kind


def _recounted(formula: Formula, kind: Kind, definition: Definition, unit: Unit | None) -> Kind | None:
    """What a formula gives, beside a size that is set by hand in the stated unit: it is recounted by that unit."""
    if (
        not definition.in_size
        or unit is None
        or not unit.dimension.is_count
        or definition.start
        or isinstance(formula.node, Amount)
    ):
        return None
    plain = kind.dimension == PLAIN and not kind.is_ratio
    recounts = plain or (kind.dimension in (STITCHES, ROWS) and unit.dimension == PLAIN)
    typed = [each.node for each in definition.formulas if each and isinstance(each.node, Amount)]
    in_unit = any(node.kind.is_bare or node.kind == Kind(unit.dimension, unit.noun) for node in typed)
    return Kind(unit.dimension, unit.noun) if recounts and in_unit else None


def _with_unit(definition: Definition, kind: Kind, unit: Unit | None, report: Report) -> Kind | None:
    if definition.section == "gauges":
        return _gauge_number(definition, kind, report)
    if definition.section == "yarn":
        return _yarn_number(definition, _cast(definition, kind, unit, report) if unit else kind, report)
    if definition.section == "ratios":
        return _ratio(definition, Kind(unit.dimension, unit.noun) if unit else kind, report)
    if unit:
        return _cast(definition, kind, unit, report)
    if not definition.start and _is_never_worked(definition):
        report.add(in_all(unit_not_known(definition.name, definition.value_span), report))
        return None
    measure = definition.section in ("measures", "body")
    wanted = kind.dimension in (LENGTH, WEIGHT) or (not measure and not kind.is_bare)
    numbers = [each for each in definition.formulas if each and not isinstance(each.node, NotWorked)]
    if wanted or definition.parameter or not numbers or not kind.is_bare:
        return kind
    report.add(in_all(missing_unit_of(definition.name, numbers[0].span, measure), report))
    return None


def _cast(definition: Definition, kind: Kind, unit: Unit, report: Report) -> Kind | None:
    """A plain number becomes a number of the unit; what is counted already (ribs) becomes no length and no weight.

    Stitches and rows that are worked out are recounted by a plain noun: `is: incs(k), unit: groups`. A number that is
    written with a unit of its own is none of another, and a value with a start is what its start is.
    """
    plain = kind.dimension == PLAIN and (not kind.noun or unit.dimension.is_count)
    written = any(isinstance(each.node, Amount) for each in definition.formulas if each)
    recounts = kind.dimension in (STITCHES, ROWS) and unit.dimension == PLAIN and not written and not definition.start
    if plain or recounts or kind.dimension == unit.dimension:
        return Kind(unit.dimension, unit.noun)
    there = definition.unit.span if definition.unit else definition.span
    unit_kind = Kind(unit.dimension, unit.noun)
    report.add(in_all(unit_contradicts(definition.value_span, kind, there, unit_kind), report))
    return None


def _is_never_worked(definition: Definition) -> bool:
    return all(formula and isinstance(formula.node, NotWorked) for formula in definition.formulas)


def _ratio(definition: Definition, kind: Kind, report: Report) -> Kind | None:
    """A named ratio is a plain number: it counts and measures nothing."""
    if kind.is_bare or kind.is_ratio:
        return Kind(PLAIN, RATIO)
    report.add(in_all(not_a_ratio(definition.name, definition.value_span, kind), report))
    return None


def _yarn_number(definition: Definition, kind: Kind | None, report: Report) -> Kind | None:
    """A number of `yarn` is a weight, a length of yarn, or a part of 1. What a stitch weighs may be said "per st"."""
    key = definition.name.rpartition(".")[2]
    group = definition.name.rpartition(".")[0].rpartition(".")[2]
    wanted = STITCH_WEIGHTS if group == "weights" else (YARN_NUMBERS[key],)
    if kind is None:
        return None
    if key == "margin" and group != "weights" and (kind.is_bare or kind.is_ratio):
        return Kind(PLAIN, RATIO)
    if kind.dimension in wanted and not kind.dimension.is_plain:
        return kind
    report.add(in_all(not_a_yarn_number(definition.name, definition.value_span, Kind(wanted[0]), kind), report))
    return None


def _gauge_number(definition: Definition, kind: Kind, report: Report) -> Kind | None:
    """A gauge number counts stitches, or rows, over a length."""
    wanted: Dimension = GAUGE_NUMBERS[definition.name.rpartition(".")[2]]
    if kind.dimension == wanted:
        return kind
    formula = definition.formulas[0]
    if formula and isinstance(formula.node, Product) and kind.dimension.per(LENGTH) == wanted:
        report.add(in_all(missing_unit_of("the length of this gauge", formula.node.right.span, True), report))
        return None
    value = formula.span if formula else definition.value_span
    report.add(in_all(mixed_dimensions(value, definition.span, Kind(wanted), value, kind), report))
    return None
