"""How a number came about, per size, as text: formula, inputs, the worked sum, the rounding and what it did."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.nearest import nearest
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.sums import rate_words, worked
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import LENGTH, STITCHES
from stitchproof.measures.print_grid import change_text, cm_text, inch_text
from stitchproof.measures.rounding import Multiple
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import Span


def derivation_text(sized: SizedPattern, name: str) -> str:
    """The derivation of a named value. Raises KeyError with the nearest known name for one that the pattern does not have."""
    scope = sized.scope
    full = scope.full_name(name)
    if full in scope.rates:
        rate = scope.rates[full]
        more = ""
        if rate.left_over is not None:
            each = amount_text(rate.left_over, Kind(STITCHES, "sts"))
            more = f", and {each} for each one beyond whole groups"
        return f"{full} is a pick-up rate: {rate_words(rate)}{more}\n"
    quantity = scope.quantities.get(full)
    if quantity is None:
        raise KeyError(nearest(name, scope.names()))
    lines = [f"{full}  {quantity.kind.in_words()}", *_facts(quantity, sized), ""]
    lines += (
        _table(quantity, sized)
        if quantity.values
        else [f"one value for each {quantity.parameter}; ask for a name that uses it"]
    )
    used_by = [other.name for other in sized.quantities if full in other.inputs]
    if used_by:
        lines += ["", f"used by   {', '.join(used_by)}"]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _facts(quantity: Quantity, sized: SizedPattern) -> list[str]:
    facts = [("written", _place(quantity.value_span))]
    formula = next((each for each in quantity.formulas if each), None)
    if quantity.by_hand:
        facts.append(("by hand", "one value per size"))
    elif formula:
        facts.append(("formula", " ".join(formula.text.split())))
    if quantity.rounding:
        multiple = next((each for each in quantity.multiples if each), None)
        to = _multiple_words(multiple, quantity)
        facts.append(("rounding", f"{quantity.rounding.value}, to {'an ' if to[0] in 'aeio' else 'a '}{to}"))
    for name in quantity.inputs:
        used = sized.scope.quantities.get(name)
        if used:
            facts.append(("from", f"{name}  {_vector(used)}"))
    if quantity.gauge:
        facts.append(("gauge", quantity.gauge))
    if quantity.why:
        facts.append(("why", quantity.why))
    return [f"{title:<9} {text}" for title, text in facts]


def _multiple_words(multiple: Multiple | None, quantity: Quantity) -> str:
    if multiple is None:
        return "whole number"
    if quantity.kind.dimension.is_count:
        return multiple.in_words()
    return f"multiple of {amount_text(multiple.of, quantity.kind)}"


def _place(span: Span) -> str:
    line, column = span.file.line_column(span.start)
    return f"{span.file.path}:{line}:{column}"


def _vector(quantity: Quantity) -> str:
    if not quantity.values:
        return f"({quantity.parameter})"
    texts = [amount_text(value, quantity.kind) for value in quantity.values]
    return texts[0] if len(set(texts)) == 1 else ", ".join(texts)


def _table(quantity: Quantity, sized: SizedPattern) -> list[str]:
    width = max(len(name) for name in sized.sizes)
    rows = []
    for size, name in enumerate(sized.sizes):
        formula = quantity.formulas[size]
        rows.append((name, _sum(quantity, formula, size, sized), _effect(quantity, size)))
    wide = max(len(row[1]) for row in rows)
    return [f"{name:<{width}}  {text:<{wide}}  {effect}" for name, text, effect in rows]


def _sum(quantity: Quantity, formula: Formula | None, size: int, sized: SizedPattern) -> str:
    value, raw = quantity.values[size], quantity.raw[size]
    result = amount_text(value, quantity.kind)
    steps = [worked(formula, sized.scope, size)] if formula and not quantity.by_hand else []
    if quantity.rounding and raw != value:
        steps.append(amount_text(raw, quantity.kind))
        return " = ".join(steps) + f" → {result}"
    if steps and steps[-1] == result:
        return result
    return " = ".join([*steps, result])


def _effect(quantity: Quantity, size: int) -> str:
    """What the rounding did, or a length as it prints."""
    value, raw = quantity.values[size], quantity.raw[size]
    if not isinstance(value, Fraction) or not isinstance(raw, Fraction):
        return ""
    if quantity.kind.dimension == LENGTH and quantity.kind.noun in ("cm", "in", ""):
        return f"prints {cm_text(value)} cm / {inch_text(value)} in"
    if value != raw and quantity.cm_per_unit:
        return f"rounding: {change_text((value - raw) * quantity.cm_per_unit)}"
    multiple = quantity.multiples[size]
    if isinstance(multiple, Multiple) and quantity.rounding:
        return "exact"
    return ""
