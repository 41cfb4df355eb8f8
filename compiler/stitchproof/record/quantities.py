"""The named values, rates and plans of a pattern as the record holds them: what is written, and what it comes to in a size."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.expansion.k_values import KsInUse
from stitchproof.formulas.evaluation import CannotWorkOut
from stitchproof.formulas.scope import NoValueThere
from stitchproof.formulas.tree import Formula
from stitchproof.measures.values import Absent, Value
from stitchproof.reading.pattern_source import Definition, PlanEntry, RateEntry, Words
from stitchproof.record.exact import as_text, unit_of
from stitchproof.record.names_used import used_in, used_in_text
from stitchproof.record.record import RecordedGiven, RecordedQuantity, SizeValue
from stitchproof.sizing.sized_pattern import PatternScope, Quantity, SizedPattern


def recorded_quantity(quantity: Quantity, sized: SizedPattern, definition: Definition | None) -> RecordedQuantity:
    """A named value as written. definition: None for a part of a plan and for an amount of yarn."""
    scope = sized.scope
    one_for_all = not quantity.by_hand and quantity.section != "body"
    late = quantity.name in scope.late
    return RecordedQuantity(
        name=quantity.name,
        section=quantity.section,
        unit=unit_of(quantity.kind),
        formula=_shared(quantity, definition)
        or (_of(quantity.formulas[0]) if one_for_all and quantity.formulas else ""),
        start=_of(quantity.start),
        by_hand=quantity.by_hand,
        rounding=quantity.rounding.value if quantity.rounding else "",
        multiple=_multiple(definition) if definition else "",
        at_least=_of(definition.at_least if definition else None),
        at_most=_of(definition.at_most if definition else None),
        should_be=_of(definition.should_be if definition else None),
        inputs=_inputs(quantity, sized, definition),
        gauge=quantity.gauge,
        cm_per_unit=str(quantity.cm_per_unit) if quantity.cm_per_unit else "",
        parameter=quantity.parameter,
        why=quantity.why,
        late=late,
    )


def _inputs(quantity: Quantity, sized: SizedPattern, definition: Definition | None) -> tuple[str, ...]:
    scope = sized.scope
    if definition or any(quantity.formulas):
        bounds = (definition.start, definition.multiple, definition.plus) if definition else ()
        formulas = (*dict.fromkeys(quantity.formulas), *bounds)
        return tuple(name for name in used_in(formulas, scope) if name != quantity.name or quantity.parameter)
    plan = quantity.name.rpartition(".")[0]
    if plan in scope.plans:
        return (plan,)
    if quantity.name in scope.late:
        return tuple(name for name in scope.quantities if name.startswith(f"{plan}.") and name not in scope.late)
    return quantity.inputs


def _shared(quantity: Quantity, definition: Definition | None) -> str:
    """The formula that serves every size but those that are set by hand beside it; "" where there is none such."""
    return _of(definition.formulas[0]) if definition and definition.in_size and definition.formulas else ""


def size_value(
    quantity: Quantity, definition: Definition | None, size: int, sized: SizedPattern, in_use: KsInUse
) -> SizeValue:
    """A named value in a size, at each k in use where it takes one."""
    formula = quantity.formulas[size] if len(quantity.formulas) > size else None
    own = quantity.by_hand or quantity.section == "body"
    written = _of(formula) if own and _of(formula) != _shared(quantity, definition) else ""
    if quantity.parameter:
        return SizeValue(written=written, at=_at(quantity, size, sized.scope, in_use))
    if not quantity.values:
        return SizeValue(written=written)
    value = as_text(quantity.values[size])
    raw = as_text(quantity.raw[size]) if len(quantity.raw) > size else value
    return SizeValue(value, raw if raw != value else "", written)


def _at(quantity: Quantity, size: int, scope: PatternScope, in_use: KsInUse) -> dict[str, str]:
    ks: tuple[Fraction, ...] = in_use.get(quantity.name, {}).get(size, ())
    if quantity.by_k:
        values = quantity.by_k[size]
        ks = tuple(Fraction(k + 1) for k in range(len(values))) if isinstance(values, tuple) else ()
    return {str(k): as_text(_value_at(quantity, size, k, scope)) for k in ks}


def _value_at(quantity: Quantity, size: int, k: Fraction, scope: PatternScope) -> Value:
    """The value at a k; of a draft it may not be possible to work it out, which is reported where it is asked for."""
    try:
        return scope.value(quantity.name, size, k)
    except (CannotWorkOut, NoValueThere, RecursionError):
        return Absent.UNKNOWN


def recorded_rate(entry: RateEntry) -> RecordedGiven:
    """A pick-up rate."""
    keys = {
        "sts": _of(entry.sts),
        "per": _of(entry.per),
        "left_over": _of(entry.left_over),
        "along": _text(entry.along),
    }
    return RecordedGiven(f"rates.{entry.name}", {key: text for key, text in keys.items() if text})


def recorded_plan(entry: PlanEntry, sized: SizedPattern) -> RecordedGiven:
    """A plan; what stands under a key for every size by itself is with the sizes."""
    keys = {
        each.key: each.word or ", ".join(_of(formula) for formula in each.formulas)
        for each in entry.inputs
        if not each.by_size
    }
    words = tuple(name for each in entry.inputs if each.word for name in used_in_text(each.word, sized.scope))
    used = (*used_in(entry.formulas, sized.scope), *words)
    return RecordedGiven(entry.name, keys, entry.kind, tuple(dict.fromkeys(used)))


def plan_in_size(entry: PlanEntry, size: int) -> dict[str, str]:
    """What a plan is given for one size alone, by plan and key."""
    return {
        f"{entry.name}.{each.key}": _of(each.formulas[size])
        for each in entry.inputs
        if each.by_size and size < len(each.formulas)
    }


def _multiple(definition: Definition) -> str:
    multiple, plus = _of(definition.multiple), _of(definition.plus)
    return f"{multiple} plus {plus}" if plus else multiple


def _of(formula: Formula | None) -> str:
    return " ".join(formula.text.split()) if formula else ""


def _text(words: Words | None) -> str:
    return words.text.strip() if words else ""


def recorded_silent(definition: Definition, sized: SizedPattern) -> RecordedQuantity:
    """A named value that could not be made out (reported): as written, with nothing that it comes to."""
    formulas = (*definition.formulas, definition.start, definition.multiple, definition.plus)
    one_for_all = not definition.by_hand and definition.section != "body"
    return RecordedQuantity(
        definition.name,
        definition.section,
        "",
        _of(definition.formulas[0]) if one_for_all and definition.formulas else "",
        _of(definition.start),
        definition.by_hand,
        rounding=_text(definition.rounding),
        multiple=_multiple(definition),
        at_least=_of(definition.at_least),
        at_most=_of(definition.at_most),
        should_be=_of(definition.should_be),
        inputs=tuple(name for name in used_in(formulas, sized.scope) if name != definition.name),
        parameter=definition.parameter,
        why=_text(definition.why),
    )


def silent_value(definition: Definition, size: int) -> SizeValue:
    """The same in a size."""
    formulas = definition.formulas if definition.by_hand or definition.section == "body" else ()
    return SizeValue(as_text(Absent.UNKNOWN), "", _of(formulas[size]) if size < len(formulas) else "")
