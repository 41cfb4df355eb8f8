"""All named values of a pattern as definitions under their full names, with the short names they also have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.division_by_zero import counted_over_nothing
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.name_not_usable import name_not_usable
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.kinds import FUNCTIONS
from stitchproof.formulas.reader import KEYWORDS
from stitchproof.formulas.size_names import size_index
from stitchproof.formulas.tree import Amount, Formula, Negative, Product
from stitchproof.measures.dimension import PLAIN, ROWS, STITCHES
from stitchproof.reading.pattern_source import Definition, Gauge, Header, PlanEntry, Sizes
from stitchproof.source import Span


class Names(Struct, frozen=True):
    """definitions by full name, as written; aliases: short name → full name; refused: names with a fault of their own.

    plans: the plans by name, whose parts are named too, as `crown_dec.before`.
    plan_changes: what to try instead of a plan's own number, by plan, key and index of the size.
    as_given: the indexes of the sizes whose value is to be taken as it is, without the rounding that the others keep.
    late: names that only the worked rows give a value.
    """

    definitions: dict[str, Definition]
    aliases: dict[str, str]
    refused: frozenset[str] = frozenset()
    plans: Mapping[str, PlanEntry] = msgspec.field(default_factory=dict)
    plan_changes: Mapping[tuple[str, str, int], Formula] = msgspec.field(default_factory=dict)
    as_given: Mapping[str, frozenset[int]] = msgspec.field(default_factory=dict)
    late: frozenset[str] = frozenset()

    def plan_of(self, name: str) -> str:
        """The plan that a name is a part of, or ""."""
        group = name.rpartition(".")[0]
        return group if group in self.plans else ""


def collect_names(
    header: Header, report: Report, table_rows: tuple[Definition, ...] = (), late: frozenset[str] = frozenset()
) -> Names:
    """Gauges, body, measures and counts under one roof. Reports a name that is used twice or that means something else.

    late: names that only the worked rows give a value.
    table_rows: rows of a body table. One is always `body.waist`, and `waist` as well unless the pattern has a `waist` of its own.
    """
    definitions: dict[str, Definition] = {}
    aliases: dict[str, str] = {}
    taken: set[str] = set(late)
    refused: set[str] = set()
    as_given: dict[str, frozenset[int]] = {}
    everything = [*_from_gauges(header), *(each for yarn in header.yarns for each in yarn.numbers), *header.definitions]
    for definition in everything:
        short = definition.name
        full = f"{definition.section}.{short}" if definition.section in ("gauges", "body") else short
        if _clashes(short, full, definition.span, taken, report):
            refused.add(short)
            continue
        definitions[full], set_by_hand = _by_size(replace(definition, name=full), header.sizes, report)
        if set_by_hand:
            as_given[full] = set_by_hand
        if full != short:
            aliases[short] = full
    for gauge in header.gauges:
        over_nothing = gauge.over is not None and _is_nothing(gauge.over)
        if gauge.over and over_nothing:
            report.add(replace(counted_over_nothing(gauge.over.span), sizes=report.names))
        if gauge.stitches is None or gauge.over is None or over_nothing or gauge.unreadable:
            none = gauge.over is None or over_nothing
            lost = (
                ["stitches", "rows", "rounds"]
                if none
                else [*gauge.unreadable, *([] if gauge.stitches else ["stitches"])]
            )
            aliases.update((f"{gauge.name}.{word}", f"gauges.{gauge.name}.{word}") for word in lost)
            refused.update(f"gauges.{gauge.name}.{word}" for word in lost)
    for rate in header.rates:
        if not _clashes(rate.name, f"rates.{rate.name}", rate.span, taken, report):
            aliases[f"rates.{rate.name}"] = rate.name
    plans = {plan.name: plan for plan in header.plans if not _plan_clashes(plan, taken, report)}
    for row in table_rows:
        full = f"body.{row.name}"
        definitions[full] = replace(row, name=full)
        if row.name not in taken and row.name not in FUNCTIONS and row.name not in KEYWORDS:
            aliases[row.name] = full
    metres = (name for name in late if name.endswith(".metres"))
    aliases.update((f"{name.removesuffix('.metres')}.meters", name) for name in metres)
    return Names(definitions, aliases, frozenset(refused - set(definitions)), plans, as_given=as_given, late=late)


def _by_size(definition: Definition, sizes: Sizes, report: Report) -> tuple[Definition, frozenset[int]]:
    """A value with its formula in each size, and the sizes that are set by hand beside it (`by_hand: {M: 72 sts}`).

    A size that the pattern does not have is reported.
    """
    if not definition.in_size or not sizes.names:
        return definition, frozenset()
    formulas = list(definition.formulas * len(sizes.names))
    found: set[int] = set()
    for words, formula in definition.in_size:
        size = size_index(words.text.strip(), sizes.names, sizes.called_by_number)
        if size is None:
            report.add(size_not_in_pattern(words.span, sizes.names))
        elif size in found:
            what = f"size {sizes.names[size]} is set by hand twice"
            report.add(function_used_wrongly(words.span, what, "keep one of the two values"))
        else:
            formulas[size] = formula
            found.add(size)
    return replace(definition, formulas=tuple(formulas), by_hand=True), frozenset(found)


def _plan_clashes(plan: PlanEntry, taken: set[str], report: Report) -> bool:
    """A plan is a group of names, so no other group may have its name."""
    if any(name.startswith(f"{plan.name}.") for name in taken):
        what = "a group of names, or a gauge, has this name already"
        report.add(name_not_usable(plan.span, what, f"give the plan another name, such as `{plan.name}_plan`"))
        return True
    return _clashes(plan.name, f"plans.{plan.name}", plan.span, taken, report)


def _clashes(short: str, full: str, span: Span, taken: set[str], report: Report) -> bool:
    if short in FUNCTIONS or short in KEYWORDS or short == "worked":
        report.add(
            name_not_usable(
                span, "it has a meaning of its own in formulas", "choose another name, for example with its piece"
            )
        )
        return True
    if short in taken or full in taken:
        report.add(name_not_usable(span, "another value has this name already", "give one of the two another name"))
        return True
    taken |= {short, full}
    return False


def _from_gauges(header: Header) -> Iterator[Definition]:
    for gauge in header.gauges:
        rows_word = "rounds" if gauge.rows_noun == "rnds" else "rows"
        yield from _gauge_number(gauge, "stitches", gauge.stitches, Kind(STITCHES, "sts"))
        if gauge.rows:
            yield from _gauge_number(gauge, rows_word, gauge.rows, Kind(ROWS, gauge.rows_noun))
        if gauge.rows_per_rib:
            yield _definition(f"{gauge.name}.rows_per_rib", with_kind(gauge.rows_per_rib, Kind(ROWS, "rows")), gauge)


def _gauge_number(gauge: Gauge, word: str, number: Formula | None, kind: Kind) -> Iterator[Definition]:
    if number is None or gauge.over is None or _is_nothing(gauge.over):
        return
    counted = with_kind(number, kind)
    node = Product("/", counted.node, gauge.over.node, number.span)
    yield _definition(f"{gauge.name}.{word}", Formula(f"{number.text} per {gauge.over.text}", node, number.span), gauge)


def with_kind(formula: Formula, kind: Kind) -> Formula:
    """A bare number read as a count of the kind that its key stands for: `stitches: 16`."""
    node = formula.node
    if isinstance(node, Amount) and node.kind.dimension == PLAIN:
        return Formula(formula.text, Amount(node.value, kind, node.span), formula.span)
    if isinstance(node, Negative) and isinstance(node.operand, Amount) and node.operand.kind.dimension == PLAIN:
        amount = Amount(node.operand.value, kind, node.operand.span)
        return Formula(formula.text, Negative(amount, node.span), formula.span)
    return formula


def _is_nothing(over: Formula) -> bool:
    """Whether a length is written that is zero or less."""
    return isinstance(over.node, Negative) or (isinstance(over.node, Amount) and over.node.value <= 0)


def _definition(name: str, formula: Formula, gauge: Gauge) -> Definition:
    return Definition(
        name,
        "gauges",
        "",
        (formula,),
        False,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        gauge.span,
        formula.span,
    )
