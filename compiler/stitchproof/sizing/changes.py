"""What to try instead of what the source says. What-if, re-gauge and the test of offered values all come through here.

A name is written as everywhere: `ease`, `body.head[Child]`, `gauges.crown.stitches`, `rates.edge.sts`, `after(3)[M]`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.faults.unknown_name import unknown_name
from stitchproof.formulas.kind import NUMBER, Kind
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.size_names import size_index
from stitchproof.formulas.tree import Amount, Choice, Comparison, Formula, Name, Negative, Product
from stitchproof.measures.dimension import PLAIN, ROWS, STITCHES
from stitchproof.measures.units import UNITS
from stitchproof.reading.pattern_source import Definition, Header, RateEntry, Words
from stitchproof.sizing.dotted_name import read_dotted
from stitchproof.sizing.names import Names, with_kind
from stitchproof.source import SourceFile, Span

Changes = Mapping[str | tuple[str, int | None], str]
"""What to try: a name, or a name with the index of a size (None for all) → formula as text. A size may stand in the name."""
RATE_NUMBERS = ("sts", "per", "left_over")


class Change(Struct, frozen=True):
    """One change: a name as written, the k and the size (index) it is for, None for all, and the new formula."""

    name: str
    k: Fraction | None
    size: int | None
    formula: Formula
    span: Span


class Changed(Struct, frozen=True):
    """The names and the header with the changes in place.

    given_at: values at a k, by full name, size and k, that are taken as they are and not rounded.
    """

    names: Names
    header: Header
    given_at: frozenset[tuple[str, int, Fraction]] = frozenset()


def with_changes(
    names: Names, header: Header, changes: Changes, kind_as_written: Callable[[str], Kind | None], report: Report
) -> Changed:
    """The definitions with the changes in place. A changed value is taken as given by hand: it is not rounded again.

    kind_as_written: the kind that a value has in the source, by its full name: what a bare number takes its unit from.
    """
    changer = _Changer(names, header, kind_as_written, report)
    for key, text in changes.items():
        change = _read(key, text, header, report)
        if change:
            changer.make(change)
    return changer.changed()


def _read(key: str | tuple[str, int | None], text: str, header: Header, report: Report) -> Change | None:
    name, size = (key, None) if isinstance(key, str) else key
    file = SourceFile(f"the change {name}={text}", text)
    written = Span(file, 0, len(text))
    named = read_dotted(Span(SourceFile("the name of a change", name), 0, len(name)))
    if not named:
        report.add(function_used_wrongly(written, f"`{name}` is not a name", "write for example `ease` or `head[M]`"))
        return None
    if named.size is not None:
        size = size_index(named.size.text, header.sizes.names, header.sizes.called_by_number)
        if size is None:
            report.add(size_not_in_pattern(named.size, header.sizes.names))
            return None
    formula = read_formula(written)
    if not isinstance(formula, Formula):
        report.add(formula)
        return None
    return Change(named.name.text, named.k, size, formula, written)


class _Changer:
    """Puts changes into the definitions and rates, one by one."""

    def __init__(
        self, names: Names, header: Header, kind_as_written: Callable[[str], Kind | None], report: Report
    ) -> None:
        self.names = names
        self.definitions = dict(names.definitions)
        self.as_given = dict(names.as_given)
        self.rates = {entry.name: entry for entry in header.rates}
        self.given_at: set[tuple[str, int, Fraction]] = set()
        self.plan_changes: dict[tuple[str, str, int], Formula] = {}
        self.header = header
        self.kind_as_written = kind_as_written
        self.report = report

    def changed(self) -> Changed:
        header = replace(self.header, rates=tuple(self.rates.values()))
        names = replace(
            self.names, definitions=self.definitions, as_given=self.as_given, plan_changes=self.plan_changes
        )
        return Changed(names, header, frozenset(self.given_at))

    def make(self, change: Change) -> None:
        """Make one change, or report why it cannot be made."""
        full = self.names.aliases.get(change.name, change.name)
        rate, _, number = full.removeprefix("rates.").rpartition(".")
        if full in self.definitions:
            self.definition(full, change)
        elif rate in self.rates and number in RATE_NUMBERS:
            self.rate(rate, number, change)
        elif plan_key := _plan_key(full, self.names):
            self.plan(*plan_key, change)
        elif full in self.names.late:
            why = f"`{full}` comes from the stitches of the rows"
            self.refuse(change, why, "change what a stitch or the sample weighs, or the margin")
        else:
            numbers = (f"rates.{each}.{number}" for each in self.rates for number in RATE_NUMBERS)
            keys = (f"plans.{plan}.{given.key}" for plan, entry in self.names.plans.items() for given in entry.inputs)
            known = (*self.definitions, *self.names.aliases, *numbers, *keys)
            self.report.add(unknown_name(change.span, change.name, known))

    def plan(self, plan: str, key: str, change: Change) -> None:
        """A plan's own number, in one size or in all."""
        if change.k is not None:
            self.refuse(change, f"the plan {plan} takes nothing in brackets", f"write `plans.{plan}.{key}`")
            return
        sizes = range(len(self.header.sizes.names)) if change.size is None else (change.size,)
        self.plan_changes |= {(plan, key, size): change.formula for size in sizes}

    def rate(self, name: str, number: str, change: Change) -> None:
        """A rate is the same in all sizes; a bare number after `per` keeps its noun."""
        entry = self.rates[name]
        if change.size is not None or change.k is not None:
            self.refuse(change, f"the rate {name} is the same in all sizes", f"write `rates.{name}.{number}`")
            return
        if number == "sts":
            self.rates[name] = replace(entry, sts=change.formula)
        elif number == "per":
            self.rates[name] = replace(entry, per=_per(entry, change.formula))
        else:
            self.rates[name] = replace(entry, left_over=change.formula)

    def definition(self, full: str, change: Change) -> None:
        definition = self.definitions[full]
        formula = self.with_unit(full, _at_gauge(definition, change.formula))
        if change.k is not None:
            self.at_k(definition, formula, change.k, change)
            return
        sizes = len(self.header.sizes.names)
        self.definitions[full] = _changed(definition, formula, change.size, sizes)
        if change.size is None:
            self.as_given.pop(full, None)
        else:
            self.as_given[full] = self.as_given.get(full, frozenset()) | {change.size}

    def at_k(self, definition: Definition, formula: Formula, k: Fraction, change: Change) -> None:
        """The rule of a value that takes a k, with another value at one k."""
        if not definition.parameter:
            self.refuse(change, f"`{definition.name}` takes nothing in brackets", f"write `{definition.name}`")
            return
        if definition.start is not None and k == 0:
            if change.size is not None:
                self.refuse(change, f"the start of {definition.name} is one for all sizes", "leave the size out")
                return
            self.definitions[definition.name] = replace(definition, start=formula)
            return
        sizes = range(len(self.header.sizes.names))
        held = definition.formulas if definition.by_hand else definition.formulas * len(sizes)
        changed = range(change.size, change.size + 1) if change.size is not None else sizes
        formulas = tuple(
            _at_one_k(each, formula, definition.parameter, k) if size in changed and each else each
            for size, each in enumerate(held)
        )
        self.given_at |= {(definition.name, size, k) for size in changed}
        self.definitions[definition.name] = replace(definition, formulas=formulas, by_hand=True)

    def with_unit(self, full: str, formula: Formula) -> Formula:
        """A bare number in the unit of the value it stands for: `72` for a count is 72 sts, `2` for an ease 2 cm."""
        node, minus = formula.node, False
        if isinstance(node, Negative):
            node, minus = node.operand, True
        if not isinstance(node, Amount) or not node.kind.is_bare:
            return formula
        kind = self.kind_as_written(full)
        if kind is None or kind.is_bare or kind.is_ratio or not (kind.dimension.is_count or kind.noun in UNITS):
            return formula
        size = UNITS[kind.noun].size if kind.noun in UNITS else Fraction(1)
        amount = Amount(node.value * size, kind, node.span)
        return replace(formula, node=Negative(amount, formula.node.span) if minus else amount)

    def refuse(self, change: Change, why: str, help_text: str) -> None:
        self.report.add(function_used_wrongly(change.span, why, help_text))


def _plan_key(name: str, names: Names) -> tuple[str, str] | None:
    """The plan and the key that `plans.crown_dec.sections` names; None where it names none."""
    section, _, rest = name.partition(".")
    plan, _, key = rest.rpartition(".")
    entry = names.plans.get(plan) if section == "plans" else None
    return (plan, key) if entry and any(each.key == key for each in entry.inputs) else None


def _changed(definition: Definition, formula: Formula, size: int | None, sizes: int) -> Definition:
    if size is None:
        return replace(definition, formulas=(formula,), by_hand=False, rounding=None)
    held = definition.formulas if definition.by_hand else definition.formulas * sizes
    formulas = tuple(formula if index == size else each for index, each in enumerate(held))
    set_by_hand = definition.in_size
    if not definition.by_hand:
        set_by_hand = ((Words(str(size), formula.span), formula),)
    return replace(definition, formulas=formulas, by_hand=True, in_size=set_by_hand)


def _at_one_k(held: Formula, formula: Formula, parameter: str, k: Fraction) -> Formula:
    test = Comparison("=", Name(parameter, formula.span), Amount(k, NUMBER, formula.span), formula.span)
    return Formula(held.text, Choice(formula.node, test, held.node, formula.span), held.span)


def _per(entry: RateEntry, formula: Formula) -> Formula:
    held = entry.per.node if entry.per else None
    return with_kind(formula, held.kind) if isinstance(held, Amount) else formula


def _at_gauge(definition: Definition, formula: Formula) -> Formula:
    """A new gauge number keeps the length it is counted over: `gauges.crown.stitches=17`. One with a length is whole."""
    held = next(iter(definition.formulas), None)
    if definition.section != "gauges" or held is None:
        return formula
    counted = with_kind(formula, Kind(STITCHES, "sts") if definition.name.endswith(".stitches") else Kind(ROWS, "rows"))
    if not isinstance(held.node, Product) or (
        isinstance(formula.node, Amount) and formula.node.kind.dimension not in (PLAIN, STITCHES, ROWS)
    ):
        return counted
    return Formula(formula.text, Product("/", counted.node, held.node.right, formula.span), formula.span)
