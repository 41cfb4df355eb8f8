"""Slips in formulas, found on their trees: a sign, a number, a name, a function, a comparison."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.scope import NoKind
from stitchproof.formulas.tree import Amount, Call, Comparison, Formula, Name, Product, Sum
from stitchproof.source import Span
from tests.machine_made_faults.clean_pattern import CleanPattern, Leaf, parts_of
from tests.machine_made_faults.planted_fault import PlantedFault

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
OTHER_SIGN = {"+": "-", "-": "+", "*": "/", "/": "*"}
TURNED = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "!="}
NEXT_EDGE = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
OTHER_FUNCTION = {"min": "max", "max": "min", "down": "up", "up": "down", "abs": "nearest"}


def signs(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """+ for −, × for ÷, and the other way."""
    for leaf, formula in _formulas(pattern):
        for node in parts_of(formula):
            if isinstance(node, Sum | Product):
                span = _sign_span(node)
                kind = "plus and minus" if isinstance(node, Sum) else "times and divided by"
                yield PlantedFault(pattern.name, kind, leaf.name, ((span, OTHER_SIGN[span.text]),))


def numbers(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """Another number: one more, one less. A value that is a number alone is a fixed one."""
    for leaf, formula in _formulas(pattern):
        for node in parts_of(formula):
            number = _NUMBER.search(node.span.text) if isinstance(node, Amount) else None
            if number is None:
                continue
            place = node.span.part(number.start(), number.end())
            whole, point, part = number[0].partition(".")
            kind = "fixed number" if node is formula.node else "number in a formula"
            step = f"{whole}{point}{int(part) + 1:0{len(part)}}" if part else str(int(whole) + 1)
            yield PlantedFault(pattern.name, kind, leaf.name, ((place, step),))
            if int(part or whole):
                step = f"{whole}{point}{int(part) - 1:0{len(part)}}" if part else str(int(whole) - 1)
                yield PlantedFault(pattern.name, kind, leaf.name, ((place, step),))


def names(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A name for one that stands near it and is of the same kind; and a name with two letters the wrong way round."""
    for leaf, formula in _formulas(pattern):
        for node in parts_of(formula):
            if not isinstance(node, Name):
                continue
            for other in _near(pattern, node.name):
                yield PlantedFault(pattern.name, "name beside it", leaf.name, ((node.span, other),))
            misspelt = f"{node.name[:-2]}{node.name[:-3:-1]}"
            if len(node.name) > 2 and misspelt != node.name:
                yield PlantedFault(pattern.name, "name misspelt", leaf.name, ((node.span, misspelt),))


def _near(pattern: CleanPattern, name: str) -> Iterator[str]:
    scope = pattern.sized.scope
    kind = scope.kind(name)
    if isinstance(kind, NoKind) or scope.rate(name) or scope.full_name(name) not in scope.quantities:
        return
    alike = [
        each.name
        for each in pattern.sized.quantities
        if each.kind.dimension == kind.dimension and each.kind.noun == kind.noun and not each.parameter
    ]
    place = alike.index(scope.full_name(name))
    for other in (place - 1, place + 1):
        if 0 <= other < len(alike):
            yield alike[other].removeprefix("gauges.").removeprefix("body.")


def functions(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """The largest for the smallest, up for down."""
    for leaf, formula in _formulas(pattern):
        for node in parts_of(formula):
            if isinstance(node, Call) and node.name in OTHER_FUNCTION:
                place = Span(node.span.file, node.span.start, node.span.start + len(node.name))
                yield PlantedFault(pattern.name, "function", leaf.name, ((place, OTHER_FUNCTION[node.name]),))


def comparisons(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A comparison turned round, or with its edge in or out; `and` for `or`."""
    for leaf, formula in _formulas(pattern):
        where = "in must_hold" if leaf.path[0] == "must_hold" else "in a formula"
        for node in parts_of(formula):
            if isinstance(node, Comparison):
                span = _sign_span(node)
                yield PlantedFault(pattern.name, f"comparison turned {where}", leaf.name, ((span, TURNED[span.text]),))
                if span.text in NEXT_EDGE:
                    yield PlantedFault(
                        pattern.name, f"edge of a comparison {where}", leaf.name, ((span, NEXT_EDGE[span.text]),)
                    )


def _formulas(pattern: CleanPattern) -> Iterator[tuple[Leaf, Formula]]:
    for leaf in pattern.leaves:
        if leaf.is_formula and isinstance(formula := read_formula(leaf.scalar.span), Formula):
            yield leaf, formula


def _sign_span(node: Sum | Product | Comparison) -> Span:
    between = Span(node.span.file, node.left.span.end, node.right.span.start)
    sign = re.search(r"[-+*/]|[<>!]?=|[<>]", between.text)
    assert sign is not None, node.span.text
    return between.part(sign.start(), sign.end())
