"""Where the worked rows come back to the numbers: the amounts of yarn get their values, and with them all that hangs on these.

Nothing that the proof reads hangs on them (a rule sees to that), so that no row has to be worked again.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec import Struct
from msgspec.structs import asdict, replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.late_value_too_early import late_value_too_early
from stitchproof.formulas.tree import Formula, names_in
from stitchproof.reading.pattern_source import Header
from stitchproof.sizing.evaluated import in_all
from stitchproof.sizing.quantities import Sizer
from stitchproof.sizing.sized_claims import SizedClaims
from stitchproof.sizing.sized_pattern import PatternScope, SizedPattern
from stitchproof.sizing.sized_yarns import YarnUse, late_values


def with_late_values(sized: SizedPattern, uses: tuple[YarnUse, ...], report: Report) -> SizedPattern:
    """The pattern with what its rows make of each yarn. Only what hangs on the amounts is worked out again."""
    scope = replace(
        sized.scope, quantities=dict(sized.scope.quantities), found_wrong={}, all_sound=None, _at_parameter={}
    )
    for use in uses:
        for name, values in late_values(use).items():
            if name in scope.quantities:
                held = scope.quantities[name]
                scope.quantities[name] = replace(held, raw=values, values=values)
    sizer = Sizer(scope, sized.sizes, report, written=sized.source.header.sizes)
    for definition, inputs in sized.late:
        sizer.add(definition, inputs)
        sizer.add_bounds(definition)
    return replace(sized, scope=_in_their_order(scope, sized.scope), uses=uses)


def late_part(sized: SizedPattern) -> SizedPattern | None:
    """The pattern for rules that judge its numbers, with those alone that hang on the worked rows; None where none does."""
    if not sized.late:
        return None
    late = frozenset(definition.name for definition, _ in sized.late)
    return replace(sized, judged=late, claims=SizedClaims(), pieces=(), body=None)


def _in_their_order(scope: PatternScope, before: PatternScope) -> PatternScope:
    scope.quantities = {name: scope.quantities[name] for name in before.quantities}
    return scope


def report_too_early(header: Header, scope: PatternScope, report: Report) -> None:
    """Report every late value in what has to be known before the rows can be worked, or is judged before they are."""
    for where, formula in _needed_before(header):
        for each in names_in(formula.node):
            if scope.full_name(each.name) in scope.late:
                report.add(in_all(late_value_too_early(each.span, each.name, where), report))


def _needed_before(header: Header) -> Iterator[tuple[str, Formula]]:
    """Each formula that may speak of nothing late, and what it stands in."""
    places: tuple[tuple[str, object], ...] = (
        ("a gauge", header.gauges),
        ("a pick-up rate", header.rates),
        ("a plan", header.plans),
        ("`must_hold`", header.must_hold),
        ("a piece", header.pieces),
        ("`yarn`", tuple(yarn.numbers for yarn in header.yarns)),
        *((f"a bound of `{each.name}`", (each.at_least, each.at_most, each.should_be)) for each in header.definitions),
    )
    for where, held in places:
        yield from ((where, formula) for formula in _formulas(held))


def _formulas(held: object) -> Iterator[Formula]:
    """Every formula in an entry, or in a list of entries."""
    if isinstance(held, Formula):
        yield held
    elif isinstance(held, tuple):
        for item in held:
            yield from _formulas(item)
    elif isinstance(held, Struct):
        fields: dict[str, Any] = asdict(held)
        for value in fields.values():
            yield from _formulas(value)
