"""Works every named value out, for every size."""

from __future__ import annotations

from collections.abc import Mapping

from stitchproof.diagnostics.report import Report
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.sizing.changes import changed_definitions
from stitchproof.sizing.evaluated import evaluated
from stitchproof.sizing.names import collect_names
from stitchproof.sizing.order import in_order, inputs_of
from stitchproof.sizing.pieces import sized_pieces
from stitchproof.sizing.quantities import Sizer
from stitchproof.sizing.rates import sized_rates
from stitchproof.sizing.sized_pattern import PatternScope, SizedAssertion, SizedPattern

NAMED_IN = ("gauges", "rates", "body", "measures", "counts")
"""The keys of pattern.yaml that give names."""
Changes = Mapping[tuple[str, int | None], str]
"""What to try instead of what the source says: (name, index of a size or None for all) → formula as text."""


def size_pattern(source: PatternSource, report: Report, changes: Changes | None = None) -> SizedPattern:
    """Every named value per size. `changes`: the one way to try other values (what-if, re-gauge, offered alternatives)."""
    sizes = source.header.sizes.names
    names = collect_names(source.header, report)
    definitions = changed_definitions(names, changes or {}, len(sizes), report)
    order, circular = in_order(definitions, report)
    scope = PatternScope(
        aliases=dict(definitions.aliases),
        silent=circular | definitions.refused,
        has_gaps=not source.header.unreadable.isdisjoint(NAMED_IN),
    )
    sizer = Sizer(scope, sizes, report, definitions.as_given, source.header.sizes)
    # A gauge is measured, so it needs no other name; rates need at most a gauge; everything else may need both.
    for name in order:
        if name.startswith("gauges.") and name not in circular:
            sizer.add(definitions.definitions[name], inputs_of(definitions.definitions[name], definitions))
    scope.rates = sized_rates(source.header, scope, report)
    for name in order:
        if not name.startswith("gauges.") and name not in circular:
            sizer.add(definitions.definitions[name], inputs_of(definitions.definitions[name], definitions))
    for definition in definitions.definitions.values():
        sizer.add_bounds(definition)
    written = [name for name in definitions.definitions if name in scope.quantities]
    scope.quantities = {name: scope.quantities[name] for name in written}
    assertions = tuple(_assertions(source, scope, report))
    return SizedPattern(source, sizes, scope, assertions, sized_pieces(source, scope, report))


def _assertions(source: PatternSource, scope: PatternScope, report: Report) -> list[SizedAssertion]:
    found = []
    for assertion in source.header.must_hold:
        if assertion.that is not None:
            holds = evaluated(assertion.that, scope, report, test=True)
            found.append(SizedAssertion(assertion.that, holds, assertion.why.text.strip() if assertion.why else ""))
    return found
