"""Works every named value out, for every size."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import Kind
from stitchproof.reading.pattern_source import Definition, PatternSource, PieceEntry, PlanEntry
from stitchproof.sizing.claims import sized_claims
from stitchproof.sizing.names import Names, collect_names
from stitchproof.sizing.order import in_order, inputs_of
from stitchproof.sizing.pieces import sized_pieces
from stitchproof.sizing.quantities import Sizer
from stitchproof.sizing.rates import sized_rates
from stitchproof.sizing.sized_pattern import MOST_STEPS_TO_TRY, PatternScope, Quantity, SizedPattern, SizedPiece
from stitchproof.sizing.sized_yarns import SizedYarn

if TYPE_CHECKING:
    from stitchproof.sizing.body_table import TakenTable
    from stitchproof.sizing.changes import Changed, Changes
    from stitchproof.sizing.sized_schematics import SizedSchematic

NAMED_IN = ("gauges", "rates", "body", "ratios", "measures", "counts", "plans", "yarn")
"""The keys of pattern.yaml that give names."""


def size_pattern(source: PatternSource, report: Report, changes: Changes | None = None) -> SizedPattern:
    """Every named value per size. `changes`: the one way to try other values (what-if, re-gauge, offered alternatives)."""
    sizes = source.header.sizes.names
    taken = _body_table(source, report)
    amounts = _late_quantities(source)
    names = collect_names(source.header, report, taken.definitions if taken else (), frozenset(amounts))
    changed = _changed(names, source, changes, report) if changes else None
    definitions, header = (changed.names, changed.header) if changed else (names, source.header)
    order, circular = in_order(definitions, report)
    scope = PatternScope(
        aliases=dict(definitions.aliases),
        silent=circular | definitions.refused,
        sizes=source.header.sizes,
        given_at=changed.given_at if changed else frozenset(),
        has_gaps=not source.header.unreadable.isdisjoint(NAMED_IN)
        or (taken is None and source.header.body is not None),
        steps_to_try=0 if changes else MOST_STEPS_TO_TRY,
        watched=frozenset(row.name for row in taken.body.rows) if taken else frozenset(),
    )
    scope.quantities.update(amounts)
    scope.late.update(amounts)
    sizer = Sizer(scope, sizes, report, definitions.as_given, source.header.sizes)
    late: list[tuple[Definition, tuple[str, ...]]] = []
    # A gauge is measured, so it needs no other name; rates need at most a gauge; everything else may need both.
    for name in order:
        if name.startswith("gauges.") and name not in circular:
            sizer.add(definitions.definitions[name], inputs_of(definitions.definitions[name], definitions))
    scope.rates = sized_rates(header, scope, report)
    for name in order:
        if name in circular or name.startswith("gauges."):
            continue
        if name in definitions.plans:
            _add_plan(definitions.plans[name], definitions, scope, report, header.pieces)
            continue
        definition = definitions.definitions[name]
        inputs = inputs_of(definition, definitions)
        sizer.add(definition, inputs)
        if _is_late(definition, scope) and name in scope.quantities:
            scope.late.add(name)
            late.append((definition, inputs))
    for definition in definitions.definitions.values():
        scope.asked.update(scope.watched.intersection(inputs_of(definition, definitions)))
        sizer.add_bounds(definition)
    _as_written(definitions, amounts, scope)
    if taken:
        _publish(taken, names, definitions, scope)
    claims, pieces = sized_claims(source, scope, report), sized_pieces(source, scope, report)
    yarns = _yarns(source, scope, report)
    drawings, body = _schematics(source, scope, pieces, report), taken.body if taken else None
    return SizedPattern(source, sizes, scope, claims, pieces, body, yarns, late=tuple(late), schematics=drawings)


def _as_written(names: Names, amounts: Iterable[str], scope: PatternScope) -> None:
    """Put the values in the order of pattern.yaml, then amounts of yarn, then the parts of plans."""
    written = [name for name in names.definitions if name in scope.quantities]
    parts = [name for plan in scope.plans for name in scope.quantities if names.plan_of(name) == plan]
    scope.quantities = {name: scope.quantities[name] for name in (*written, *amounts, *parts)}


def _late_quantities(source: PatternSource) -> dict[str, Quantity]:
    if not source.header.yarns:
        return {}
    from stitchproof.sizing.yarns import late_quantities  # a pattern that counts no yarn does without

    return {each.name: each for each in late_quantities(source.header)}


def _yarns(source: PatternSource, scope: PatternScope, report: Report) -> tuple[SizedYarn, ...]:
    if not source.header.yarns:
        return ()
    from stitchproof.sizing.late_values import report_too_early
    from stitchproof.sizing.yarns import sized_yarns

    report_too_early(source.header, scope, report)
    return sized_yarns(source.header, scope, report)


def _changed(names: Names, source: PatternSource, changes: Changes, report: Report) -> Changed:
    from stitchproof.sizing.changes import with_changes  # a pattern as it is written does without

    return with_changes(names, source.header, changes, _kinds_of(source), report)


def _is_late(definition: Definition, scope: PatternScope) -> bool:
    """Whether a value hangs on what is known once the rows are worked."""
    parts = (*definition.formulas, definition.start, definition.multiple, definition.plus)
    return any(each is not None and scope.is_late(each.node) for each in parts)


def _schematics(
    source: PatternSource, scope: PatternScope, pieces: tuple[SizedPiece, ...], report: Report
) -> tuple[SizedSchematic, ...]:
    if not source.header.schematics:
        return ()
    from stitchproof.sizing.schematics import sized_schematics  # a pattern without drawings does without

    return sized_schematics(source, scope, pieces, report)


def _body_table(source: PatternSource, report: Report) -> TakenTable | None:
    if source.header.body is None:
        return None
    from stitchproof.sizing.body_table import taken_table  # loads the tables, which most patterns do without

    return taken_table(source.header, report)


def _publish(taken: TakenTable, names: Names, changed: Names, scope: PatternScope) -> None:
    """Give the rows of a body table their figures as published; a value that is being tried is no longer the table's."""
    for row in taken.body.rows:
        untouched = row.name in scope.quantities and changed.definitions[row.name] is names.definitions[row.name]
        if untouched and not row.own:
            scope.quantities[row.name] = replace(scope.quantities[row.name], published=row.published)


def _add_plan(
    entry: PlanEntry, names: Names, scope: PatternScope, report: Report, pieces: tuple[PieceEntry, ...]
) -> None:
    from stitchproof.sizing.plans import add_plan  # knows all plans; a pattern without any does without them

    add_plan(entry, names, scope, report, pieces)


def _kinds_of(source: PatternSource) -> Callable[[str], Kind | None]:
    """The kind of each value as the source says it; worked out when it is first asked for."""
    held: list[PatternScope] = []

    def kind_as_written(full: str) -> Kind | None:
        if not held:
            held.append(size_pattern(source, Report(source.header.sizes.names)).scope)
        kind = held[0].kind(full)
        return kind if isinstance(kind, Kind) else None

    return kind_as_written
