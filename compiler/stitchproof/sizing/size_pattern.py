"""Works every named value out, for every size."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from msgspec.structs import replace

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

if TYPE_CHECKING:
    from stitchproof.sizing.body_table import TakenTable

NAMED_IN = ("gauges", "rates", "body", "measures", "counts")
"""The keys of pattern.yaml that give names."""
Changes = Mapping[tuple[str, int | None], str]
"""What to try instead of what the source says: (name, index of a size or None for all) → formula as text."""


def size_pattern(source: PatternSource, report: Report, changes: Changes | None = None) -> SizedPattern:
    """Every named value per size. `changes`: the one way to try other values (what-if, re-gauge, offered alternatives)."""
    sizes = source.header.sizes.names
    taken = _body_table(source, report)
    names = collect_names(source.header, report, taken.definitions if taken else ())
    definitions = changed_definitions(names, changes or {}, len(sizes), report)
    order, circular = in_order(definitions, report)
    scope = PatternScope(
        aliases=dict(definitions.aliases),
        silent=circular | definitions.refused,
        has_gaps=not source.header.unreadable.isdisjoint(NAMED_IN)
        or (taken is None and source.header.body is not None),
        watched=frozenset(row.name for row in taken.body.rows) if taken else frozenset(),
    )
    sizer = Sizer(scope, sizes, report, definitions.as_given)
    # A gauge is measured, so it needs no other name; rates need at most a gauge; everything else may need both.
    for name in order:
        if name.startswith("gauges.") and name not in circular:
            sizer.add(definitions.definitions[name], inputs_of(definitions.definitions[name], definitions))
    scope.rates = sized_rates(source.header, scope, report)
    for name in order:
        if not name.startswith("gauges.") and name not in circular:
            sizer.add(definitions.definitions[name], inputs_of(definitions.definitions[name], definitions))
    for definition in definitions.definitions.values():
        scope.asked.update(scope.watched.intersection(inputs_of(definition, definitions)))
        sizer.add_bounds(definition)
    written = [name for name in definitions.definitions if name in scope.quantities]
    scope.quantities = {name: scope.quantities[name] for name in written}
    for row in taken.body.rows if taken else ():
        # A value that is being tried is no longer the table's.
        if (
            row.name in scope.quantities
            and definitions.definitions[row.name] is names.definitions[row.name]
            and not row.own
        ):
            scope.quantities[row.name] = replace(scope.quantities[row.name], published=row.published)
    assertions = tuple(_assertions(source, scope, report))
    pieces = sized_pieces(source, scope, report)
    return SizedPattern(source, sizes, scope, assertions, pieces, taken.body if taken else None)


def _body_table(source: PatternSource, report: Report) -> TakenTable | None:
    if source.header.body is None:
        return None
    from stitchproof.sizing.body_table import taken_table  # loads the tables, which most patterns do without

    return taken_table(source.header, report)


def _assertions(source: PatternSource, scope: PatternScope, report: Report) -> list[SizedAssertion]:
    found = []
    for assertion in source.header.must_hold:
        if assertion.that is not None:
            holds = evaluated(assertion.that, scope, report, test=True)
            found.append(SizedAssertion(assertion.that, holds, assertion.why.text.strip() if assertion.why else ""))
    return found
