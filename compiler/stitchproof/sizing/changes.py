"""What to try instead of what the source says. What-if, re-gauge and the test of offered values all come through here."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.unknown_name import unknown_name
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Amount, Formula, Product
from stitchproof.measures.dimension import PLAIN, ROWS, STITCHES
from stitchproof.reading.pattern_source import Definition
from stitchproof.sizing.names import Names, with_kind
from stitchproof.source import SourceFile, Span


def changed_definitions(
    names: Names, changes: Mapping[tuple[str, int | None], str], sizes: int, report: Report
) -> Names:
    """The definitions with the changes in place. A changed value is taken as given by hand: it is not rounded again."""
    if not changes:
        return names
    definitions = dict(names.definitions)
    as_given: dict[str, frozenset[int]] = {}
    plan_changes: dict[tuple[str, str, int], Formula] = {}
    for (name, size), text in changes.items():
        full = names.aliases.get(name, name)
        plan, key = _plan_key(full, names)
        file = SourceFile(f"the change {name}={text}", text)
        written = Span(file, 0, len(text))
        if full not in definitions and not plan:
            report.add(unknown_name(written, name, (*definitions, *names.aliases)))
            continue
        formula = read_formula(written)
        if not isinstance(formula, Formula):
            report.add(formula)
            continue
        if plan:
            plan_changes |= {(plan, key, each): formula for each in (range(sizes) if size is None else (size,))}
            continue
        definitions[full] = _changed(definitions[full], formula, size, sizes)
        if size is not None:
            as_given[full] = as_given.get(full, frozenset()) | {size}
    return replace(names, definitions=definitions, as_given=as_given, plan_changes=plan_changes)


def _plan_key(name: str, names: Names) -> tuple[str, str]:
    """The plan and the key that `plans.crown_dec.sections` names; "" where it names none."""
    section, _, rest = name.partition(".")
    plan, _, key = rest.partition(".")
    entry = names.plans.get(plan) if section == "plans" else None
    return (plan, key) if entry and any(each.key == key for each in entry.inputs) else ("", "")


def _changed(definition: Definition, formula: Formula, size: int | None, sizes: int) -> Definition:
    formula = _at_gauge(definition, formula)
    if size is None:
        return replace(definition, formulas=(formula,), by_hand=False, rounding=None)
    held = definition.formulas if definition.by_hand else definition.formulas * sizes
    formulas = tuple(formula if index == size else each for index, each in enumerate(held))
    return replace(definition, formulas=formulas, by_hand=True)


def _at_gauge(definition: Definition, formula: Formula) -> Formula:
    """A new gauge number keeps the length it is counted over: `gauges.crown.stitches=17`. One with a length is whole."""
    held = next(iter(definition.formulas), None)
    if definition.section != "gauges" or held is None:
        return formula
    counted = with_kind(formula, Kind(STITCHES, "sts") if definition.name.endswith(".stitches") else Kind(ROWS, "rows"))
    if not isinstance(held.node, Product) or (
        isinstance(formula.node, Amount) and formula.node.kind.dimension not in (PLAIN, STITCHES, ROWS)
    ):
        return counted
    return Formula(formula.text, Product("/", counted.node, held.node.right, formula.span), formula.span)
