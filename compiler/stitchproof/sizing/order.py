"""The order in which named values can be worked out: each after those it uses."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from graphlib import CycleError, TopologicalSorter

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.tree import Amount, Call, Formula, Name, Node, Sum, names_in
from stitchproof.reading.pattern_source import Definition
from stitchproof.sizing.faults.circular_definition import circular_definition
from stitchproof.sizing.names import Names


def inputs_of(definition: Definition, names: Names) -> tuple[str, ...]:
    """The full names that a definition uses, in the order written, each once."""
    return _used_in((*definition.formulas, definition.start), names)


def _needed_by(definition: Definition, names: Names) -> tuple[str, ...]:
    """The names that have to be worked out first: those it uses, and those in its multiple."""
    return _used_in((*definition.formulas, definition.start, definition.multiple, definition.plus), names)


def _used_in(formulas: Iterable[Formula | None], names: Names) -> tuple[str, ...]:
    used: dict[str, None] = {}
    for formula in formulas:
        if formula is None:
            continue
        for node in names_in(formula.node):
            full = names.aliases.get(node.name, node.name)
            if full in names.definitions:
                used[full] = None
    return tuple(used)


def in_order(names: Names, report: Report) -> tuple[list[str], set[str]]:
    """Full names, each after those it uses; and the names of circles (reported), which have no value."""
    # Lists, not sets: which circle is found first must not change from run to run.
    uses = {name: list(_needed_by(definition, names)) for name, definition in names.definitions.items()}
    for name, definition in names.definitions.items():
        if name in uses[name] and _steps_back(definition, name, names):
            uses[name].remove(name)
    circular: set[str] = set()
    while True:
        try:
            order = list(TopologicalSorter(uses).static_order())
        except CycleError as error:
            circle = tuple(dict.fromkeys(reversed(error.args[1])))
            _report_circle(circle, names.definitions, report)
            circular.update(circle)
            uses = {name: used for name, used in uses.items() if name not in circle}
            uses = {name: [each for each in used if each not in circular] for name, used in uses.items()}
            continue
        return order, circular


def _report_circle(circle: tuple[str, ...], definitions: Mapping[str, Definition], report: Report) -> None:
    first = min(range(len(circle)), key=lambda index: definitions[circle[index]].span.start)
    turned = circle[first:] + circle[:first]
    spans = tuple(definitions[name].span for name in turned)
    report.add(circular_definition((*turned, turned[0]), spans, _way_out(turned, definitions)))


def _way_out(circle: tuple[str, ...], definitions: Mapping[str, Definition]) -> str:
    """What to do about a circle. A hyphen without blanks beside one of its names was most likely meant as part of a name."""
    for name in circle:
        texts = [formula.text for formula in definitions[name].formulas if formula]
        short = re.escape(name.rpartition(".")[2])
        hyphenated = re.search(rf"(?<![\w.-])(?:{short}(?:-[^\W\d]\w*)+|[^\W\d]\w*-{short})(?![\w-])", " ".join(texts))
        if hyphenated:
            joined = hyphenated[0].replace("-", "_")
            return f"if `{hyphenated[0]}` is meant as one name, join it by underscores: `{joined}`"
    if len(circle) == 1:
        return (
            "give it a `start`, its value at 0"
            if definitions[circle[0]].parameter
            else "work it out from other numbers"
        )
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
