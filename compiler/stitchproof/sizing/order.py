"""The order in which named values can be worked out: each after those it uses."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from graphlib import CycleError, TopologicalSorter

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.tree import Amount, Call, Formula, Name, Node, Sum, names_in
from stitchproof.reading.pattern_source import Definition, PlanEntry
from stitchproof.sizing.faults.circular_definition import circular_definition
from stitchproof.sizing.names import Names


def inputs_of(definition: Definition, names: Names) -> tuple[str, ...]:
    """The full names that a definition uses, parts of plans among them, in the order written, each once."""
    return _used_in((*definition.formulas, definition.start), names)


def inputs_of_plan(plan: PlanEntry, names: Names) -> tuple[str, ...]:
    """The same of a plan."""
    return _used_in(plan.formulas, names)


def _needed_by(entry: Definition | PlanEntry, names: Names) -> list[str]:
    """What has to be worked out first: the names it uses, those in its multiple, and of a part the whole plan."""
    formulas: tuple[Formula | None, ...] = entry.formulas
    if isinstance(entry, Definition):
        formulas = (*formulas, entry.start, entry.multiple, entry.plus)
    # Lists, not sets: which circle is found first must not change from run to run.
    used = (name for name in _used_in(formulas, names) if name not in names.late)
    return list(dict.fromkeys(names.plan_of(name) or name for name in used))


def _used_in(formulas: Iterable[Formula | None], names: Names) -> tuple[str, ...]:
    used: dict[str, None] = {}
    for formula in formulas:
        if formula is None:
            continue
        for node in names_in(formula.node):
            full = names.aliases.get(node.name, node.name)
            if full in names.definitions or names.plan_of(full) or full in names.late:
                used[full] = None
    return tuple(used)


def in_order(names: Names, report: Report) -> tuple[list[str], set[str]]:
    """Full names and plans, each after those it uses; and the names of circles (reported), which have no value."""
    entries: dict[str, Definition | PlanEntry] = {**names.definitions, **names.plans}
    uses = {name: _needed_by(entry, names) for name, entry in entries.items()}
    for name, definition in names.definitions.items():
        if name in uses[name] and _steps_back(definition, name, names):
            uses[name].remove(name)
    circular: set[str] = set()
    while True:
        try:
            order = list(TopologicalSorter(uses).static_order())
        except CycleError as error:
            circle = tuple(dict.fromkeys(reversed(error.args[1])))
            _report_circle(circle, entries, report)
            circular.update(circle)
            uses = {name: used for name, used in uses.items() if name not in circle}
            uses = {name: [each for each in used if each not in circular] for name, used in uses.items()}
            continue
        return order, circular


def _report_circle(circle: tuple[str, ...], entries: Mapping[str, Definition | PlanEntry], report: Report) -> None:
    first = min(range(len(circle)), key=lambda index: entries[circle[index]].span.start)
    turned = circle[first:] + circle[:first]
    spans = tuple(entries[name].span for name in turned)
    report.add(circular_definition((*turned, turned[0]), spans, _way_out(turned, entries)))


def _way_out(circle: tuple[str, ...], entries: Mapping[str, Definition | PlanEntry]) -> str:
    """What to do about a circle. A hyphen without blanks beside one of its names was most likely meant as part of a name."""
    for name in circle:
        texts = [formula.text for formula in entries[name].formulas if formula]
        short = re.escape(name.rpartition(".")[2])
        hyphenated = re.search(rf"(?<![\w.-])(?:{short}(?:-[^\W\d]\w*)+|[^\W\d]\w*-{short})(?![\w-])", " ".join(texts))
        if hyphenated:
            joined = hyphenated[0].replace("-", "_")
            return f"if `{hyphenated[0]}` is meant as one name, join it by underscores: `{joined}`"
    if len(circle) == 1:
        only = entries[circle[0]]
        if isinstance(only, Definition) and only.parameter:
            return "give it a `start`, its value at 0"
        return "work it out from other numbers"
    return "give one of them a value of its own"


def _steps_back(definition: Definition, name: str, names: Names) -> bool:
    """Whether a value with a start refers to itself at k - 1 only."""
    if not definition.parameter or definition.start is None:
        return False
    if _calls(definition.start.node, name, names):
        return False
    return all(
        formula is None or all(_is_one_back(node, definition.parameter) for node in _calls(formula.node, name, names))
        for formula in definition.formulas
    )


def _calls(node: Node, name: str, names: Names) -> list[Name | Call]:
    return [each for each in names_in(node) if names.aliases.get(each.name, each.name) == name]


def _is_one_back(node: Node, parameter: str) -> bool:
    if not isinstance(node, Call) or len(node.arguments) != 1:
        return False
    match node.arguments[0]:
        case Sum(sign="-", left=Name(name=left), right=Amount(value=one)):
            return left == parameter and one == 1
        case _:
            return False
