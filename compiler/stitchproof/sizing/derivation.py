"""How a number came about, per size, as text: formula, inputs, the worked sum, the rounding and what it did."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.nearest import nearest
from stitchproof.formulas.kind import NUMBER, Kind, amount_text
from stitchproof.formulas.scope import Bound
from stitchproof.formulas.sums import rate_words, result_text, worked
from stitchproof.formulas.tree import Amount, Call
from stitchproof.measures.dimension import LENGTH, STITCHES
from stitchproof.measures.print_grid import change_text, cm_text, inch_text
from stitchproof.measures.rounding import Multiple
from stitchproof.measures.units import SINGULAR
from stitchproof.measures.values import Absent, PerSize
from stitchproof.sizing.body_derivation import place_text, replaced_lines, row_text, table_text, used_by_lines
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern


def derivation_text(sized: SizedPattern, name: str) -> str:
    """The derivation of a named value. Raises KeyError with the nearest known name for one that the pattern does not have."""
    scope = sized.scope
    full = scope.full_name(name)
    if full in scope.rates:
        rate = scope.rates[full]
        more = ""
        if rate.left_over is not None:
            each = amount_text(rate.left_over, Kind(STITCHES, "sts"))
            more = f", and {each} for each {SINGULAR.get(rate.noun, rate.noun)} beyond whole groups"
        return f"{full} is a pick-up rate: {rate_words(rate)}{more}\n"
    row = sized.body.row(full) if sized.body else None
    if sized.body and name == "body" and name not in scope.quantities:
        return table_text(sized.body)
    if sized.body and row and not row.own:
        return row_text(row, sized.body, sized)
    quantity = scope.quantities.get(full)
    if quantity is None:
        raise KeyError(nearest(name, scope.names()))
    lines = [f"{full}  {quantity.kind.in_words()}", *_facts(quantity, sized), "", *_sums(quantity, sized)]
    if sized.body and row:
        lines += ["", *replaced_lines(row, sized.body, sized.sizes)]
    lines += used_by_lines(full, sized)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _facts(quantity: Quantity, sized: SizedPattern) -> list[str]:
    facts = [("written", place_text(quantity.value_span))]
    formula = next((each for each in quantity.formulas if each), None)
    if quantity.by_hand:
        facts.append(("by hand", "one value per size"))
    elif formula:
        facts.append(("formula", " ".join(formula.text.split())))
    if quantity.rounding:
        multiple = next((each for each in quantity.multiples if each), None)
        to = _multiple_words(multiple, quantity)
        facts.append(("rounding", f"{quantity.rounding.value}, to {to}"))
    if quantity.start:
        facts.append(("start", f"{' '.join(quantity.start.text.split())}, at {quantity.parameter} = 0"))
    for name in quantity.inputs:
        used = sized.scope.quantities.get(name)
        if used and name != quantity.name:
            recalled = used.published is not None and used.kind.noun in used.published.from_memory
            facts.append(("from", f"{name}  {_vector(used)}{'  (from memory)' if recalled else ''}"))
    for title, bounds in (("at least", quantity.at_least), ("at most", quantity.at_most)):
        if any(isinstance(bound, Fraction) for bound in bounds):
            facts.append((title, _shared(bounds, quantity.kind)))
    if quantity.gauge:
        facts.append(("gauge", quantity.gauge))
    if quantity.why:
        facts.append(("why", quantity.why))
    return [f"{title:<9} {text}" for title, text in facts]


def _multiple_words(multiple: Multiple | None, quantity: Quantity) -> str:
    if multiple is None:
        return "a whole number"
    if quantity.kind.dimension.is_count:
        words = multiple.in_words()
        return f"an {words} number" if " " not in words else f"a {words}"
    return f"a multiple of {amount_text(multiple.of, quantity.kind)}"


def _vector(quantity: Quantity) -> str:
    """The values of all sizes, a unit that they share written once."""
    if not quantity.values:
        return f"for each {quantity.parameter}"
    return _shared(quantity.values, quantity.kind)


def _shared(values: PerSize, kind: Kind) -> str:
    texts = [amount_text(value, kind) for value in values]
    if len(set(texts)) == 1:
        return texts[0]
    units = {text.partition(" ")[2] for text in texts}
    if len(units) == 1 and all(isinstance(value, Fraction) for value in values):
        return ", ".join(text.partition(" ")[0] for text in texts) + f" {units.pop()}"
    return ", ".join(texts)


def _sums(quantity: Quantity, sized: SizedPattern) -> list[str]:
    """The worked sum of each size; of a value such as `after_dec(k)` for the first k, as an example."""
    if not quantity.parameter:
        return _table(quantity, sized)
    return [f"for example at {quantity.parameter} = 1:", "", *_table(quantity, sized)]


def _table(quantity: Quantity, sized: SizedPattern) -> list[str]:
    """One line per size, or one for all where they are the same."""
    rows = [(name, _sum(quantity, size, sized), _effect(quantity, size)) for size, name in enumerate(sized.sizes)]
    if len(rows) > 1 and len({row[1:] for row in rows}) == 1:
        rows = [("all sizes", *rows[0][1:])]
    width, wide = max(len(row[0]) for row in rows), max(len(row[1]) for row in rows)
    return [f"{name:<{width}}  {text:<{wide}}  {effect}" for name, text, effect in rows]


def _sum(quantity: Quantity, size: int, sized: SizedPattern) -> str:
    formula = quantity.formulas[size]
    if quantity.parameter:
        return _at_one(quantity, size, sized)
    value, raw = quantity.values[size], quantity.raw[size]
    result, before = amount_text(value, quantity.kind), amount_text(raw, quantity.kind)
    by_hand = quantity.by_hand and formula and isinstance(formula.node, Amount)
    steps = [worked(formula, sized.scope, size)] if formula and not by_hand else []
    if formula and isinstance(formula.node, Call) and formula.node.name == "largest" and isinstance(value, Fraction):
        return f"{steps[0]}; so {result}"
    if not steps or steps[-1] != before:
        steps.append(before)
    return " = ".join(steps) + (f" → {result}" if raw != value else "")


def _at_one(quantity: Quantity, size: int, sized: SizedPattern) -> str:
    formula = quantity.formulas[size]
    if formula is None:
        return amount_text(Absent.UNKNOWN, quantity.kind)
    one = Fraction(1)
    bound = Bound(sized.scope, quantity.parameter, NUMBER, one)
    call = Call(quantity.name, (Amount(one, NUMBER, formula.span),), formula.span)
    return f"{worked(formula, bound, size)} = {result_text(call, sized.scope, size)}"


def _effect(quantity: Quantity, size: int) -> str:
    """What the rounding did, or a length as it prints."""
    if not quantity.values:
        return ""
    value, raw = quantity.values[size], quantity.raw[size]
    if not isinstance(value, Fraction) or not isinstance(raw, Fraction):
        return ""
    if value != raw:
        change = amount_text(abs(value - raw), quantity.kind)
        at_gauge = f", {change_text((value - raw) * quantity.cm_per_unit)}" if quantity.cm_per_unit else ""
        return f"rounding: {'+' if value > raw else '−'}{change}{at_gauge}"
    if quantity.kind.dimension == LENGTH and quantity.kind.noun in ("cm", "in", ""):
        return f"prints {cm_text(value)} cm / {inch_text(value)} in"
    return "exact" if quantity.rounding else ""
