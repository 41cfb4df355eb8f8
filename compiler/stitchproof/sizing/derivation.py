"""How a number came about, per size, as text: formula, inputs, the worked sum, the rounding and what it did."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.faults.unknown_name import unknown_name
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.sums import rate_words, worked
from stitchproof.measures.dimension import STITCHES
from stitchproof.measures.rate import Rate
from stitchproof.measures.rounding import Multiple
from stitchproof.measures.units import SINGULAR
from stitchproof.measures.values import PerSize
from stitchproof.sizing.body_derivation import place_text, replaced_lines, row_text, table_text, used_by_lines
from stitchproof.sizing.derivation_sums import KsBySize, sum_lines, sums_at_k
from stitchproof.sizing.dotted_name import DottedName, read_dotted
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import Span

NONE_IN_USE: Mapping[str, KsBySize] = {}
NO_K: KsBySize = {}


def derivation(sized: SizedPattern, asked: Span, in_use: Mapping[str, KsBySize] = NONE_IN_USE) -> str | Diagnostic:
    """The derivation of a named value, of one size or at one k where the name says so; else the report of what is not known.

    in_use: by full name and size, the k at which values that take one are worked with.
    """
    named = read_dotted(asked)
    if named is None:
        return function_used_wrongly(asked, f"`{asked.text}` is not a name", "write for example `ease` or `head[M]`")
    scope = sized.scope
    full = scope.full_name(named.name.text)
    rate = full if full in scope.rates else full.removeprefix("rates.").rpartition(".")[0]
    if rate in scope.rates and full not in scope.quantities:
        return _rate_text(rate, scope.rates[rate])
    quantity = scope.quantities.get(full)
    plan = scope.plans.get(full) or (scope.plans.get(full.rpartition(".")[0]) if quantity else None)
    row = sized.body.row(full) if sized.body else None
    if sized.body and asked.text.strip() == "body" and quantity is None and plan is None:
        return table_text(sized.body)
    if quantity is None and plan is None and row is None:
        return unknown_name(named.name, named.name.text, (*scope.names(), *scope.plans))
    sizes = _sizes(named, asked, sized, takes_k=quantity is not None and bool(quantity.parameter))
    if isinstance(sizes, Diagnostic):
        return sizes
    if plan:
        from stitchproof.sizing.plan_derivation import part_text, plan_text  # only the plans need it

        return part_text(sized, plan, quantity, sizes, named.k) if quantity else plan_text(sized, plan, sizes)
    if quantity and full in scope.late and sized.uses:
        from stitchproof.sizing.yarn_derivation import use_of, yarn_text  # only the amounts of yarn need it

        use = use_of(full, sized)
        if use:
            return yarn_text(quantity, use, sized, sizes)
    if sized.body and row and not row.own:
        return row_text(row, sized.body, sized, sizes)
    return _quantity_text(quantity, sized, sizes, in_use.get(full, NO_K), named.k) if quantity else ""


def _sizes(named: DottedName, asked: Span, sized: SizedPattern, takes_k: bool) -> tuple[int, ...] | Diagnostic:
    """The sizes a name is asked for in, or the report of brackets that do not fit it."""
    if named.k is not None and not takes_k:
        name = sized.scope.full_name(named.name.text)
        return function_used_wrongly(asked, f"`{name}` takes nothing in brackets", f"write `{name}`")
    if named.size is None:
        return tuple(range(len(sized.sizes)))
    index = sized.scope.size_index(named.size.text)
    return size_not_in_pattern(named.size, sized.sizes) if index is None else (index,)


def _rate_text(name: str, rate: Rate) -> str:
    more = ""
    if rate.left_over is not None:
        each = amount_text(rate.left_over, Kind(STITCHES, "sts"))
        more = f", and {each} for each {SINGULAR.get(rate.noun, rate.noun)} beyond whole groups"
    return f"{name} is a pick-up rate: {rate_words(rate)}{more}\n"


def _quantity_text(
    quantity: Quantity, sized: SizedPattern, sizes: tuple[int, ...], ks: KsBySize, k: Fraction | None
) -> str:
    name = f"{quantity.name}({quantity.parameter})" if quantity.parameter else quantity.name
    sums = sums_at_k(quantity, sized, sizes, ks, k) if quantity.parameter else sum_lines(quantity, sized, sizes)
    lines = [f"{name}  {quantity.kind.in_words()}", *_facts(quantity, sized, sizes), "", *sums]
    row = sized.body.row(quantity.name) if sized.body else None
    if sized.body and row:
        lines += ["", *replaced_lines(row, sized.body, sized.sizes, sizes)]
    lines += used_by_lines(quantity.name, sized)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _facts(quantity: Quantity, sized: SizedPattern, sizes: tuple[int, ...]) -> list[str]:
    facts = [("written", place_text(quantity.value_span))]
    formula = next((each for each in quantity.formulas if each), None)
    set_by_hand = _set_by_hand(quantity, sized)
    if set_by_hand:
        facts += set_by_hand
    elif quantity.by_hand:
        facts.append(("by hand", "one value per size"))
    elif formula:
        is_gauge = quantity.section == "gauges"
        text = worked(formula, sized.scope, 0).replace(" ÷ ", " per ") if is_gauge else " ".join(formula.text.split())
        facts.append(("formula", text))
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
            facts.append(("from", f"{name}  {_vector(used, sizes)}{'  (from memory)' if recalled else ''}"))
    for title, bounds in (("at least", quantity.at_least), ("at most", quantity.at_most)):
        if any(isinstance(bound, Fraction) for bound in bounds):
            facts.append((title, _shared(_of(bounds, sizes), quantity.kind)))
    if quantity.gauge:
        facts.append(("gauge", quantity.gauge))
    if quantity.why:
        facts.append(("why", quantity.why))
    return [f"{title:<9} {text}" for title, text in facts]


def _set_by_hand(quantity: Quantity, sized: SizedPattern) -> list[tuple[str, str]]:
    """Of a value that a formula gives, except in some sizes: the formula, and those sizes with what stands there."""
    written = sized.definition(quantity.name.removeprefix("body."))
    if written is None or not written.in_size:
        return []
    formula = written.formulas[0]
    said = ", ".join(f"{size.text.strip()} {value.text}" for size, value in written.in_size if value)
    return [("formula", " ".join(formula.text.split()) if formula else "–"), ("by hand", said)]


def _multiple_words(multiple: Multiple | None, quantity: Quantity) -> str:
    if multiple is None:
        return "a whole number"
    if quantity.kind.dimension.is_count:
        words = multiple.in_words()
        return f"an {words} number" if " " not in words else f"a {words}"
    return f"a multiple of {amount_text(multiple.of, quantity.kind)}"


def _of(values: PerSize, sizes: tuple[int, ...]) -> PerSize:
    return tuple(values[size] for size in sizes)


def _vector(quantity: Quantity, sizes: tuple[int, ...]) -> str:
    """The values of some sizes, a unit that they share written once."""
    if not quantity.values:
        return f"for each {quantity.parameter}"
    return _shared(_of(quantity.values, sizes), quantity.kind)


def _shared(values: PerSize, kind: Kind) -> str:
    texts = [amount_text(value, kind) for value in values]
    if len(set(texts)) == 1:
        return texts[0]
    units = {text.partition(" ")[2] for text in texts}
    if len(units) == 1 and all(isinstance(value, Fraction) for value in values):
        return ", ".join(text.partition(" ")[0] for text in texts) + f" {units.pop()}"
    return ", ".join(texts)
