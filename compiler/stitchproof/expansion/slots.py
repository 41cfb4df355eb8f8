"""What the slots and conditions of the text come to: numbers with one value per size, and the sizes a passage serves."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic, used_from
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Role, Served
from stitchproof.expansion.expanded_pattern import LateSlot
from stitchproof.expansion.faults.print_form_does_not_fit import fits_its_number, print_form_does_not_fit
from stitchproof.expansion.plan_loops import count_to, sizes_with
from stitchproof.expansion.rendering import Bindings, Occurrence
from stitchproof.expansion.slot_scope import SlotScope
from stitchproof.formulas.asked import Asked, speaks_of_k_values, worked_with
from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.late_value_too_early import late_value_too_early
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions, not_a_count, not_a_test, test_for_number
from stitchproof.formulas.kind import NUMBER, Kind, amount_text, whole
from stitchproof.formulas.kinds import kind_of
from stitchproof.formulas.slot import Slot
from stitchproof.formulas.tree import Formula, names_in
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.published import Published
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.reading.pattern_source import Island
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import Place, Span

MOST_IN_A_LOOP = 20_000
"""More rounds than a text may have in all, so that a longer loop is noticed when it runs."""

MOST_KNOWN = 4096
"""Slots that are remembered while a pattern is followed; a pattern has some hundreds."""


class _CameTo(Struct, frozen=True):
    """What a slot comes to. asked: the values with a k that it asks for, by full name; rows: those of the body table."""

    kind: Kind
    values: PerSize
    published: Published | None
    asked: frozenset[Asked]
    rows: frozenset[str] = frozenset()


Known = dict[Hashable, _CameTo]


class SlotReader:
    """Evaluates the islands of a pattern where they came up. `asked`: the values with a k that slots print, by full name.

    late: the slots that only the worked rows give a value. known: what slots came to, by all that they go by but the numbers.
    """

    def __init__(self, sized: SizedPattern, occurrences: Sequence[Occurrence], report: Report, known: Known) -> None:
        self.sized = sized
        self.occurrences = occurrences
        self.report = report
        self.known = known
        self.reports = 0
        self.all: Served = tuple(range(len(sized.sizes)))
        self.asked: set[Asked] = set()
        self.late: list[LateSlot] = []

    def island(self, occurrence: int) -> Island:
        """The slot, condition or loop that came up."""
        return self.sized.source.islands[self.occurrences[occurrence].island]

    def number_in_row(self, occurrence: int, served: Served, calls: tuple[Span, ...]) -> Number | None:
        """The same in a step, where nothing may stand that only the worked rows can tell."""
        island, held = self.island(occurrence), self.occurrences[occurrence]
        if island.slot:
            scope = self._scope(held.bindings, island.shared)
            self._too_early(island.slot.formula, scope, "a row", Place(island.slot.span, calls), served)
        return self.number(occurrence, served, calls)

    def number(self, occurrence: int, served: Served, calls: tuple[Span, ...]) -> Number | None:
        """The number of a slot in the sizes that its place serves; None where the slot cannot be read (reported)."""
        held = self.occurrences[occurrence]
        island = self.island(occurrence)
        return (
            self.slot_number(island.slot, self._scope(held.bindings, island.shared), served, calls)
            if island.slot
            else None
        )

    def slot_number(self, slot: Slot, scope: SlotScope, served: Served, calls: tuple[Span, ...]) -> Number:
        """The number of a slot in a scope, evaluated in the sizes served; UNKNOWN in the others."""
        place = Place(slot.span, calls)
        late = None
        if scope.is_late(slot.formula.node):
            came_to = self._worked_out(slot, scope, served, place)
            late = len(self.late)
            self.late.append(LateSlot(slot.formula, scope, served, place))
        else:
            came_to = self._once(slot, scope, served, place)
        self.asked |= came_to.asked
        kind = came_to.kind
        role = Role.LENGTH if kind.dimension == LENGTH else Role.PLAIN
        noun = "" if kind.is_ratio else kind.noun
        text, published = slot.formula.text, came_to.published
        return Number(came_to.values, served, kind.dimension, noun, slot.print_as, role, text, place, published, late)

    def _once(self, slot: Slot, scope: SlotScope, served: Served, place: Place) -> _CameTo:
        """What a slot comes to. One that is written as another is not worked out again, unless there was something to report,
        which is told at each place."""
        numbers, handles = tuple(scope.numbers.items()), tuple(scope.handles.items())
        key = (slot.formula.text, slot.print_as, numbers, handles, scope.shared, served)
        found, pattern = self.known.get(key), self.sized.scope
        if found:
            pattern.asked |= found.rows
            return found
        asked, reports, pattern.asked = pattern.asked, self.reports, set()
        came_to = self._worked_out(slot, scope, served, place)
        rows, pattern.asked = frozenset(pattern.asked), asked | pattern.asked
        if self.reports == reports:
            if len(self.known) >= MOST_KNOWN:
                self.known.clear()
            self.known[key] = replace(came_to, rows=rows)
        return came_to

    def _worked_out(self, slot: Slot, scope: SlotScope, served: Served, place: Place) -> _CameTo:
        kind = self._kind(slot.formula, scope, place, served)
        if kind and not fits_its_number(slot.print_as, kind):
            self._report(print_form_does_not_fit(slot, kind), place, served)
            kind = None
        values: PerSize = (Absent.UNKNOWN,) * len(self.all)
        asked: frozenset[Asked] = frozenset()
        if kind:
            values = tuple(
                self._value(slot.formula, scope, size, place) if size in served else Absent.UNKNOWN for size in self.all
            )
            asked = frozenset(self._asked_by(slot.formula, scope, served))
        return _CameTo(kind or NUMBER, values, scope.published(slot.formula), asked)

    def _asked_by(self, formula: Formula, scope: SlotScope, served: Served) -> Iterator[Asked]:
        """At which k the slot asks for values that take one."""
        if speaks_of_k_values(formula.node):
            for size in served:
                for each in worked_with(formula.node, scope, size):
                    yield replace(each, name=scope.outer_name(each.name))

    def header_number(self, slot: Slot, served: Served) -> Number:
        """The number of a slot that stands in pattern.yaml."""
        return self.slot_number(slot, self._scope((), False), served, ())

    def sizes_where(self, occurrence: int, served: Served, calls: tuple[Span, ...]) -> Served:
        """The sizes, among those served, in which a condition holds or a loop is still in its bounds."""
        held = self.occurrences[occurrence]
        island = self.island(occurrence)
        if island.plan:
            return sizes_with(island, dict(held.bindings).get(island.variable), served, self.sized.scope)
        if island.slot is None:
            return served
        scope = self._scope(held.bindings, island.shared)
        place = Place(island.span, calls)
        if self._too_early(island.slot.formula, scope, "a condition", place, served):
            return served
        if island.first is not None:
            return tuple(size for size in served if self._in_bounds(island, scope, size, place))
        if not self._kind(island.slot.formula, scope, place, served, test=True):
            return served
        # A condition that cannot be judged in a size keeps the passage there: its own fault is reported, no other should follow.
        return tuple(
            size
            for size in served
            if self._value(island.slot.formula, scope, size, place) not in (False, Absent.NOT_WORKED)
        )

    def count_to(self, number: int, bindings: Bindings) -> range:
        """The numbers that a loop runs through: from the smallest first to the largest last over the sizes."""
        island = self.sized.source.islands[number]
        if island.plan:
            counted = count_to(island, self.sized.scope)
            if isinstance(counted, range):
                return counted
            self._report(counted, Place(island.span), self.all)
            return range(0)
        if island.slot is None or island.first is None:
            return range(0)
        scope = self._scope(bindings, island.shared)
        place = Place(island.span)
        formulas = (island.first, island.slot.formula)
        if any(self._too_early(formula, scope, "a loop", place, self.all) for formula in formulas):
            return range(0)
        kinds = [self._kind(formula, scope, place, self.all) for formula in formulas]
        if kinds[0] is None or kinds[1] is None:
            return range(0)
        lengths = [
            (formula, kind)
            for formula, kind in zip(formulas, kinds, strict=True)
            if kind and not kind.dimension.is_count
        ]
        for formula, kind in lengths:
            self._report(not_a_count(formula.span, kind), place, self.all)
        if lengths:
            return range(0)
        if not _count_together(kinds[0], kinds[1]):
            spans = [formula.span for formula in formulas]
            self._report(mixed_dimensions(island.span, spans[0], kinds[0], spans[1], kinds[1]), place, self.all)
            return range(0)
        bounds: list[list[int]] = []
        for formula in formulas:
            values = [self._value(formula, scope, size, place) for size in self.all]
            self._report_parts(formula, values, scope, place)
            bounds.append([int(value // 1) for value in values if isinstance(value, Fraction)])
        if not bounds[0] or not bounds[1]:
            return range(0)
        first = min(bounds[0])
        return range(first, min(max(bounds[1]), first + MOST_IN_A_LOOP) + 1)

    def _report_parts(self, formula: Formula, values: list[Value], scope: SlotScope, place: Place) -> None:
        """Report where a loop begins or ends at a fraction, unless a count that it names is reported for that already."""
        for size, value in enumerate(values):
            used = [scope.value(node.name, size, None) for node in names_in(formula.node)]
            if not whole(value) and all(whole(each) for each in used):
                text = amount_text(value, NUMBER)
                what = f"a loop counts whole rows or times, and `{formula.text}` is {text}"
                self._report(
                    function_used_wrongly(formula.span, what, "round it with `up( )` or `down( )`"), place, (size,)
                )

    def highest(self, name: str) -> int | None:
        """The largest value of a named count over the sizes, 0 where it has none; None where the name is no count."""
        kind = self.sized.scope.kind(name)
        if self.sized.scope.full_name(name) in self.sized.scope.late:
            return None  # a loop that hung on the rows would hang on itself
        if self.sized.scope.takes_parameter(name) or (isinstance(kind, Kind) and not kind.dimension.is_count):
            return None
        values = [self.sized.scope.value(name, size, None) for size in self.all]
        return max((int(value // 1) for value in values if isinstance(value, Fraction)), default=0)

    def _too_early(self, formula: Formula, scope: SlotScope, where: str, place: Place, served: Served) -> bool:
        """Whether a formula speaks of what only the worked rows can tell (reported)."""
        late = [each for each in names_in(formula.node) if scope.is_late(each)]
        for each in late:
            self._report(late_value_too_early(each.span, each.name, where), place, served)
        return bool(late)

    def _in_bounds(self, island: Island, scope: SlotScope, size: int, place: Place) -> bool:
        variable = scope.numbers.get(island.variable)
        first = self._value(island.first, scope, size, place) if island.first else Absent.UNKNOWN
        last = self._value(island.slot.formula, scope, size, place) if island.slot else Absent.UNKNOWN
        if variable is None or not isinstance(first, Fraction) or not isinstance(last, Fraction):
            return first is not Absent.NOT_WORKED and last is not Absent.NOT_WORKED and variable is not None
        return first <= variable <= last

    def _scope(self, bindings: Bindings, shared: bool) -> SlotScope:
        numbers = {name: value for name, value in bindings if isinstance(value, Fraction)}
        handles = {name: value for name, value in bindings if isinstance(value, str)}
        return SlotScope(self.sized.scope, numbers, handles, shared)

    def _kind(
        self, formula: Formula, scope: SlotScope, place: Place, served: Served, test: bool = False
    ) -> Kind | None:
        kind = kind_of(formula, scope)
        if isinstance(kind, Kind) and kind.truth != test:
            kind = not_a_test(formula.span) if test else test_for_number(formula.span)
        if isinstance(kind, Diagnostic):
            self._report(kind, place, served)
        return kind if isinstance(kind, Kind) else None

    def _value(self, formula: Formula, scope: SlotScope, size: int, place: Place) -> Value:
        value = evaluate(formula, scope, size)
        if isinstance(value, Diagnostic):
            self._report(value, place, (size,))
            return Absent.UNKNOWN
        return value

    def _report(self, diagnostic: Diagnostic, place: Place, served: Served) -> None:
        sizes = tuple(self.sized.sizes[size] for size in served)
        self.reports += 1
        self.report.add(replace(diagnostic, sizes=sizes, related=diagnostic.related + used_from(place)))


def _count_together(first: Kind, last: Kind) -> bool:
    """Whether a loop can count from one to the other: stitches or rows, a plain number beside either."""
    return len({kind.dimension for kind in (first, last) if not kind.dimension.is_plain}) <= 1
