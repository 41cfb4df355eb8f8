"""What sizing hands on: every named value per size, with its derivation, and the scope in which slots are evaluated."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.evaluation import CannotWorkOut, evaluate_counted
from stitchproof.formulas.faults.too_much_to_work_out import too_much_to_work_out
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.scope import Bound, NoKind, NoValueThere
from stitchproof.formulas.size_names import size_index
from stitchproof.formulas.tree import Formula, Node, names_in
from stitchproof.measures.dimension import PLAIN
from stitchproof.measures.published import Published
from stitchproof.measures.rate import Rate
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.values import Absent, PerSize, Value, exact_text
from stitchproof.reading.pattern_source import Definition, PatternSource, PieceEntry, Sizes
from stitchproof.sizing.sized_body import SizedBody
from stitchproof.sizing.sized_claims import SizedClaims
from stitchproof.sizing.sized_plans import SizedPlan
from stitchproof.sizing.sized_yarns import SizedYarn, YarnUse
from stitchproof.source import Span

if TYPE_CHECKING:
    from stitchproof.sizing.sized_schematics import SizedSchematic

MOST_STEPS_BACK = 5_000
"""How far a value that refers to itself at k - 1 is followed."""
MOST_STEPS_AT_PARAMETERS = 1_000_000
"""Steps for all values that take a number in brackets together: a hundred of them at a hundred k in ten sizes stay below."""
MOST_STEPS_TO_TRY = 1_000_000
"""Steps for all the values that are only tried out, in search of one that works."""


class Quantity(Struct, frozen=True):
    """A named value. One entry per size in formulas, raw and values; lengths in cm, weights in g, all exact.

    raw: before rounding. multiples: what the count must be a multiple of, per size, if stated. inputs: the names it uses.
    gauge: the gauge it lies at, if known; cm_per_unit: the width or length of one unit there.
    parameter: of a value such as `after_dec(k)`; then raw, values and bounds are empty and `start` is its value at k = 0.
    by_k: of a part of a plan with a parameter, per size its values at k = 1, 2, …; it has no formulas.
    published: of a row of a body table, its figures as they print.
    """

    name: str
    section: str
    kind: Kind
    formulas: tuple[Formula | None, ...]
    by_hand: bool
    raw: PerSize
    values: PerSize
    rounding: Direction | None
    multiples: tuple[Multiple | None, ...]
    at_least: PerSize
    at_most: PerSize
    inputs: tuple[str, ...]
    gauge: str
    cm_per_unit: Fraction | None
    why: str
    span: Span
    value_span: Span
    parameter: str = ""
    start: Formula | None = None
    by_k: tuple[PerSize | Absent, ...] = ()
    published: Published | None = None


def is_no_gauge(quantity: Quantity) -> bool:
    """Whether a number of a gauge is zero or less: nothing can be worked out with it."""
    return quantity.section == "gauges" and any(isinstance(value, Fraction) and value <= 0 for value in quantity.values)


class OffsetWay(Enum):
    """How a fabric that alternates a stitch and a chain space is worked, and whether its total is odd or even."""

    JOINED_ROUNDS = ("joined rounds", 0)
    TURNED_ROUNDS = ("turned rounds", 0)
    TWO_ROW = ("rows, two-row repeat", 1)
    ONE_ROW = ("rows, one-row repeat", 0)
    SPIRAL_KEPT = ("spiral rounds, start kept in place", 1)
    SPIRAL_CHAIN = ("spiral rounds, each ending with a chain", 0)

    @property
    def words(self) -> str:
        return self.value[0]

    @property
    def remainder(self) -> int:
        """What the total leaves when halved: 0 for even, 1 for odd."""
        return self.value[1]


class SizedOffsetFabric(Struct, frozen=True):
    """An offset fabric: its total per size, and the way it is worked."""

    total: Formula
    totals: PerSize
    way: OffsetWay
    way_span: Span


class EdgeStretch(Struct, frozen=True):
    """A stretch of an edge that is picked up: so many row-ends, or so many stitches, per size."""

    row_ends: bool
    numbers: PerSize


class SizedPiece(Struct, frozen=True):
    """A piece, the sizes that work it, and its offset fabric if it has one.

    edge: what its first row is worked into, stretch by stretch: row-ends (or stitches), per size.
    """

    entry: PieceEntry
    served: tuple[int, ...]
    offset_fabric: SizedOffsetFabric | None
    edge: tuple[EdgeStretch, ...] = ()


class PatternScope(Struct):
    """Looks up the names of a pattern. `aliases`: short names, such as `head` for `body.head`.

    given_at: values at a k, by name, size and k, that are taken as they are and not rounded.
    found_wrong: whether a value in a size has a fault or follows from one, as the rules found out; all_sound: whether none has.
    has_gaps: a part of pattern.yaml could not be read (reported), so that a name may be missing through no fault of its own.
    steps_to_try: what is left for trying values out; none where values are tried out already.
    watched: the rows of the body table; asked: those of them that a formula or a text has used so far.
    late: the full names of what is known once the rows are worked, and of all that is worked out from it.
    """

    quantities: dict[str, Quantity] = field(default_factory=dict)
    rates: dict[str, Rate] = field(default_factory=dict)
    plans: dict[str, SizedPlan] = field(default_factory=dict)
    aliases: dict[str, str] = field(default_factory=dict)
    silent: set[str] = field(default_factory=set)
    has_gaps: bool = False
    sizes: Sizes | None = None
    given_at: frozenset[tuple[str, int, Fraction]] = frozenset()
    found_wrong: dict[tuple[str, int], bool] = field(default_factory=dict)
    all_sound: bool | None = None
    steps_to_try: int = MOST_STEPS_TO_TRY
    watched: frozenset[str] = frozenset()
    asked: set[str] = field(default_factory=set)
    late: set[str] = field(default_factory=set)
    _at_parameter: dict[tuple[str, int, int, int], Value | Diagnostic] = field(default_factory=dict)
    _steps: int = 0

    def fresh(self) -> PatternScope:
        """The same names and values for another run, which may ask and try for itself. A value at a k is worked out once."""
        return replace(self, asked=set(self.asked), found_wrong=dict(self.found_wrong))

    def full_name(self, name: str) -> str:
        return self.aliases.get(name, name)

    def is_late(self, node: Node) -> bool:
        """Whether a part of a formula speaks of what is known only once the rows are worked."""
        return bool(self.late) and any(self.full_name(each.name) in self.late for each in names_in(node))

    def names(self) -> tuple[str, ...]:
        return (*self.quantities, *self.rates, *self.aliases)

    def kind(self, name: str) -> Kind | NoKind:
        """The kind of a named value, or why it has none."""
        name = self.full_name(name)
        if name in self.watched:
            self.asked.add(name)
        if name in self.silent or name.rpartition(".")[0] in self.silent:  # a group with no numbers is a plan
            return NoKind.SILENT
        if name in self.rates:
            return Kind()
        quantity = self.quantities.get(name)
        if quantity:
            return quantity.kind
        return NoKind.SILENT if self.has_gaps else NoKind.MISSING

    def takes_parameter(self, name: str) -> bool:
        """Whether a value is one such as `after_dec(k)`."""
        quantity = self.quantities.get(self.full_name(name))
        return bool(quantity and quantity.parameter)

    def rate(self, name: str) -> Rate | None:
        return self.rates.get(self.full_name(name))

    def size_names(self) -> tuple[str, ...]:
        return self.sizes.names if self.sizes else ()

    def size_index(self, words: str) -> int | None:
        return size_index(words, self.size_names(), bool(self.sizes and self.sizes.called_by_number))

    def value(self, name: str, size: int, parameter: Fraction | None) -> Value:
        """The value in a size, at a k where it takes one."""
        quantity = self.quantities.get(self.full_name(name))
        if quantity is None:
            return Absent.UNKNOWN
        if parameter is None or not quantity.parameter:
            return quantity.values[size] if quantity.values else Absent.UNKNOWN
        if quantity.by_k:
            return _at_k(quantity, size, parameter)
        return self._at(quantity, size, parameter)

    def _at(self, quantity: Quantity, size: int, k: Fraction) -> Value:
        """The value at k. One that refers to itself is built up from its start, so that no k costs more than its steps."""
        if quantity.start is None or _key(quantity, size, k) in self._at_parameter:
            return self._found(quantity, size, k)
        if k.denominator != 1 or not 0 <= k <= MOST_STEPS_BACK:
            why = f"{quantity.parameter} is {exact_text(k)} here; {quantity.name} is worked out step by step from 0"
            raise NoValueThere(why, f"ask for it at a whole number from 0 to {MOST_STEPS_BACK}")
        first = int(k)
        while first > 0 and (quantity.name, size, first - 1, 1) not in self._at_parameter:
            first -= 1
        for step in range(first, int(k)):
            self._value_at(quantity, size, Fraction(step))
        return self._found(quantity, size, k)

    def _found(self, quantity: Quantity, size: int, k: Fraction) -> Value:
        value = self._value_at(quantity, size, k)
        if isinstance(value, Diagnostic):
            raise CannotWorkOut(value)
        return value

    def _value_at(self, quantity: Quantity, size: int, k: Fraction) -> Value | Diagnostic:
        """The value at k, rounded, or its fault; worked out once."""
        key = _key(quantity, size, k)
        held = self._at_parameter.get(key)
        if held is not None:
            return held
        formula = quantity.start if quantity.start and k == 0 else quantity.formulas[size]
        value: Value | Diagnostic = Absent.UNKNOWN
        if formula and self._steps > MOST_STEPS_AT_PARAMETERS:
            value = too_much_to_work_out(formula.span, "the values that take a number in brackets need too many steps")
        elif formula:
            value, steps = evaluate_counted(formula, Bound(self, quantity.parameter, Kind(PLAIN), k), size)
            self._steps += steps
        given = bool(self.given_at) and (quantity.name, size, k) in self.given_at
        if isinstance(value, Fraction) and quantity.rounding and not given:
            value = round_to(value, quantity.rounding, quantity.multiples[size] or Multiple())
        self._at_parameter[key] = value
        return value


def _key(quantity: Quantity, size: int, k: Fraction) -> tuple[str, int, int, int]:
    """A value at a k, by whole numbers: they are looked up much sooner than a fraction."""
    return quantity.name, size, k.numerator, k.denominator


def _at_k(quantity: Quantity, size: int, k: Fraction) -> Value:
    """A part of a plan at k; not worked in a size whose plan is over by then."""
    values = quantity.by_k[size]
    if isinstance(values, Absent):
        return values
    if k.denominator == 1 and 1 <= k <= len(values):
        return values[int(k) - 1]
    longest = max(len(each) for each in quantity.by_k if not isinstance(each, Absent))
    if k.denominator == 1 and 1 <= k <= longest:
        return Absent.NOT_WORKED
    if k > longest and Absent.UNKNOWN in quantity.by_k:
        return Absent.UNKNOWN  # the size that would reach so far may be the one whose fault is reported
    why = f"{quantity.parameter} is {exact_text(k)} here, and the plan counts from 1 to {longest}"
    raise NoValueThere(why, f"ask for `{quantity.name}` at a whole number from 1 to {longest}")


class SizedPattern(Struct, frozen=True, eq=False):
    """A pattern whose numbers are known. `sizes`: their names in order. claims: what the designer says must hold.

    late: the definitions that hang on the worked rows, each after those it uses, with their inputs; they are worked out when
    `uses`, what the rows make of each yarn, is known. judged: the only names that `quantities` gives, or None for all.
    """

    source: PatternSource
    sizes: tuple[str, ...]
    scope: PatternScope
    claims: SizedClaims
    pieces: tuple[SizedPiece, ...]
    body: SizedBody | None = None
    yarns: tuple[SizedYarn, ...] = ()
    uses: tuple[YarnUse, ...] = ()
    late: tuple[tuple[Definition, tuple[str, ...]], ...] = ()
    judged: frozenset[str] | None = None
    schematics: tuple[SizedSchematic, ...] = ()

    @property
    def quantities(self) -> tuple[Quantity, ...]:
        """In the order of pattern.yaml."""
        held = self.scope.quantities
        return tuple(each for name, each in held.items() if self.judged is None or name in self.judged)

    def definition(self, name: str) -> Definition | None:
        return next((each for each in self.source.header.definitions if each.name == name), None)
