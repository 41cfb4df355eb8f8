"""The plans of a pattern: their numbers in every size, the plans made of them, and their parts as named values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Amount, Formula, Name
from stitchproof.measures.dimension import PLAIN, Dimension
from stitchproof.measures.rate import Rate
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.plans.kinds import KINDS, Asked
from stitchproof.plans.loop_words import number_of_k
from stitchproof.plans.no_plan import NoPlan
from stitchproof.plans.parts import Part, PartValue, Plan, parts
from stitchproof.plans.two_rates import Worked
from stitchproof.reading.pattern_source import PieceEntry, PlanEntry, PlanInput
from stitchproof.sizing.evaluated import in_all, kind_reported, value_reported
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.faults.wrong_number_of_values import wrong_number_of_values
from stitchproof.sizing.names import Names, with_kind
from stitchproof.sizing.order import inputs_of_plan
from stitchproof.sizing.sized_pattern import PatternScope, Quantity
from stitchproof.sizing.sized_plans import SizedInput, SizedPlan, part_value

PARAMETER = "k"


def add_plan(
    entry: PlanEntry, names: Names, scope: PatternScope, report: Report, pieces: tuple[PieceEntry, ...] = ()
) -> None:
    """Put a plan and its parts into the scope; one whose numbers have a fault (reported) is kept silent.

    Where a size has no plan, its parts are UNKNOWN there; the reason is told when the numbers are judged. pieces: of the pattern,
    as a plan that does not say how it is worked is worked as its piece.
    """
    inputs = _Inputs(entry, names, scope, report, _way_of_pieces(entry, pieces)).read() if entry.kind else None
    if inputs is None:
        scope.silent.add(entry.name)
        return
    asked = SizedPlan(entry, *inputs, inputs_of_plan(entry, names))
    known: dict[tuple[object, ...], Plan | NoPlan] = {}
    made = tuple(_made(asked, size, known) for size in range(len(report.names)))
    lengths = tuple(0 if isinstance(each, NoPlan | Absent) else number_of_k(each) for each in made)
    scope.plans[entry.name] = replace(asked, plans=made, lengths=lengths)
    if all(isinstance(each, NoPlan | Absent) for each in made):
        scope.silent.add(entry.name)
    for quantity in _quantities(scope.plans[entry.name]):
        scope.quantities[quantity.name] = quantity


class _Inputs:
    """Reads the keys of one plan in every size. Each kind of number is judged before any is worked out."""

    def __init__(
        self, entry: PlanEntry, names: Names, scope: PatternScope, report: Report, worked: Worked | None
    ) -> None:
        self.entry = entry
        self.names = names
        self.scope = scope
        self.report = report
        self.worked = worked

    def read(self) -> tuple[tuple[SizedInput, ...], Mapping[str, object]] | None:
        """The numbers, and what the words stand for by argument; None where one cannot be used (reported)."""
        numbers: list[SizedInput | None] = []
        others: dict[str, object] = {}
        asked = {each.key: each for each in KINDS[self.entry.kind].asked}
        if self.worked and "worked" in asked:
            others["worked"] = self.worked
        for given in self.entry.inputs:
            key = asked[given.key]
            if key.words is not None:
                others[key.argument] = key.words[given.word]
            elif key.names_rate:
                others[key.argument] = self.rate(given)
            else:
                numbers += self.numbers(given, key)
        read = tuple(each for each in numbers if each)
        if len(read) < len(numbers) or None in others.values() or not self.along_fits(read, others):
            return None
        return read, others

    def rate(self, given: PlanInput) -> Rate | None:
        rate = self.scope.rate(given.word)
        if rate is None and self.scope.full_name(given.word) not in self.scope.silent:
            self.report.add(word_not_known(given.span, "a pick-up rate of this pattern", self.scope.rates))
        return rate

    def along_fits(self, numbers: tuple[SizedInput, ...], others: Mapping[str, object]) -> bool:
        """Whether an edge is counted in what its rate is per: ribs, or rows (reported if not)."""
        rate, edge = others.get("rate"), next((each for each in numbers if each.key == "along"), None)
        if not isinstance(rate, Rate) or edge is None or edge.kind.is_bare or edge.kind.dimension == rate.dimension:
            return True
        wanted = Kind(rate.dimension, rate.noun)
        self.report.add(in_all(mixed_dimensions(edge.span, self.entry.span, wanted, edge.span, edge.kind), self.report))
        return False

    def numbers(self, given: PlanInput, key: Asked) -> Iterator[SizedInput | None]:
        """The number of a key, or the numbers of a list one by one."""
        if not key.many:
            yield self.number(given, key, given.formulas)
            return
        for formula in given.formulas:
            yield self.number(given, key, (formula,))

    def number(self, given: PlanInput, key: Asked, written: tuple[Formula | None, ...]) -> SizedInput | None:
        sizes = self.report.names
        formulas = tuple(_counting(formula, key) for formula in written if formula)
        if given.by_size and len(formulas) != len(sizes):
            name = f"{given.key} of {self.entry.name}"
            self.report.add(wrong_number_of_values(name, given.span, len(formulas), sizes))
            return None
        each = formulas if given.by_size else formulas * len(sizes)
        tried = {
            size: _counting(formula, key)
            for (plan, name, size), formula in self.names.plan_changes.items()
            if (plan, name) == (self.entry.name, given.key)
        }
        each = tuple(tried.get(size, formula) for size, formula in enumerate(each))
        kinds = [self.kind(formula, given, key) for formula in (*formulas, *tried.values())]
        if None in kinds or not kinds or kinds[0] is None:
            return None
        values = tuple(value_reported(formula, self.scope, size, self.report) for size, formula in enumerate(each))
        node = formulas[0].node
        name = self.scope.full_name(node.name) if isinstance(node, Name) and not given.by_size else ""
        return SizedInput(given.key, key.argument, kinds[0], each, values, name, key.whole, given.span)

    def kind(self, formula: Formula, given: PlanInput, key: Asked) -> Kind | None:
        """What a number counts, judged by its key; a bare number is of the key's kind."""
        kind = kind_reported(formula, self.scope, self.report)
        if kind is None:
            return None
        written_0 = isinstance(formula.node, Amount) and formula.node.kind.zero
        if kind.dimension in key.fits:
            return kind
        if written_0 or (kind.is_bare and key.fits[0].is_count):
            return _usual_kind(key.fits[0])
        wanted = _usual_kind(key.fits[0])
        self.report.add(in_all(mixed_dimensions(formula.span, given.span, wanted, formula.span, kind), self.report))
        return None


def _way_of_pieces(entry: PlanEntry, pieces: tuple[PieceEntry, ...]) -> Worked | None:
    """In rows or in rounds: as the piece after which the plan is named, or as all pieces; None where they differ."""
    named = [piece for piece in pieces if entry.name == piece.name or entry.name.startswith(f"{piece.name}_")]
    ways = {_way(piece) for piece in named or pieces}
    return ways.pop() if len(ways) == 1 else None


def _way(piece: PieceEntry) -> Worked:
    words = piece.worked.text.lower() if piece.worked else ""
    in_rounds = any(word in words for word in ("round", "rnd", "spiral"))
    return Worked.IN_ROUNDS if in_rounds else Worked.IN_ROWS


def _usual_kind(dimension: Dimension) -> Kind:
    return Kind(dimension, "times" if dimension == PLAIN else "")


def _counting(formula: Formula, key: Asked) -> Formula:
    """A number typed without a unit counts what its key counts."""
    fits = key.fits[0]
    return with_kind(formula, Kind(fits)) if fits.is_count and fits != PLAIN else formula


def _made(asked: SizedPlan, size: int, known: dict[tuple[object, ...], Plan | NoPlan]) -> Plan | NoPlan | Absent:
    """The plan of one size; UNKNOWN where a number is missing or not whole, and the reason told elsewhere.

    known: the plans made before, as sizes often have the same numbers.
    """
    given = asked.given(tuple(each.values[size] for each in asked.inputs))
    if isinstance(given, Absent):
        return given
    key = tuple(given.items())
    if key not in known:
        known[key] = asked.made_of(given)
    return known[key]


def _quantities(plan: SizedPlan) -> Iterator[Quantity]:
    """The parts of a plan as named values; they have no formulas."""
    by_size = [None if isinstance(each, NoPlan | Absent) else parts(each) for each in plan.plans]
    some = next((each for each in by_size if each), ())
    for index, part in enumerate(some):
        held = tuple(each[index].value if each else _absent(plan.plans[size]) for size, each in enumerate(by_size))
        takes_k = isinstance(part.value, tuple)
        values = () if takes_k else tuple(_value(each) for each in held)
        by_k = tuple(_values(each) for each in held) if takes_k else ()
        yield _quantity(plan, part, values, by_k)


def _absent(plan: Plan | NoPlan | Absent) -> Absent:
    return plan if isinstance(plan, Absent) else Absent.UNKNOWN


def _value(part: PartValue | Absent) -> Value:
    return part if isinstance(part, Absent) else part_value(part, None)


def _values(part: PartValue | Absent) -> PerSize | Absent:
    if isinstance(part, Absent):
        return part
    return tuple(_value(each) for each in part) if isinstance(part, tuple) else ()


def _quantity(plan: SizedPlan, part: Part, values: PerSize, by_k: tuple[PerSize | Absent, ...]) -> Quantity:
    unit = UNITS[part.noun]
    none = (None,) * len(plan.plans)
    nothing: PerSize = (Absent.UNKNOWN,) * len(values)
    return Quantity(
        name=f"{plan.name}.{part.name}",
        section="plans",
        kind=Kind(unit.dimension, unit.noun),
        formulas=none,
        by_hand=False,
        raw=values,
        values=values,
        rounding=None,
        multiples=none,
        at_least=nothing,
        at_most=nothing,
        inputs=plan.used,
        gauge="",
        cm_per_unit=None,
        why=plan.entry.why.text.strip() if plan.entry.why else "",
        span=plan.entry.span,
        value_span=plan.entry.value_span,
        parameter=PARAMETER if by_k else "",
        by_k=by_k,
    )
