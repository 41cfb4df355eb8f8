"""The numbers of the worksheet: how each comes about, what it is in every size, and where it is printed."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from stitchproof.editor_sheet.sheet import SheetGroup, SheetQuantity, SheetValue
from stitchproof.expansion.k_values import KsInUse, ks_asked_for
from stitchproof.formulas.kind import amount_text
from stitchproof.measures.print_grid import change_text
from stitchproof.record.exact import as_number
from stitchproof.record.line_labels import label_of
from stitchproof.record.record import Record, RecordedQuantity, RecordedSlot
from stitchproof.sizing.derivation import derivation
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import SourceFile, Span

SECTIONS = {
    "gauges": "Gauges",
    "yarn": "Yarn",
    "body": "Body measurements",
    "ratios": "Ratios",
    "measures": "Measurements",
    "counts": "Counts",
    "plans": "Plans",
}
ROUNDINGS = {"nearest": "to the nearest", "up": "up to a", "down": "down to a"}


def sheet_groups(record: Record, sized: SizedPattern, in_use: KsInUse) -> tuple[SheetGroup, ...]:
    """Every named value, section by section in the order of pattern.yaml."""
    printed = _printed(record)
    asked = ks_asked_for(sized, in_use)
    held = {each.name: each for each in sized.quantities}
    made = [
        (each, _quantity(each, held[each.name], record, sized, asked, printed))
        for each in record.quantities
        if each.name in held
    ]
    order = list(SECTIONS)
    made.sort(key=lambda pair: order.index(pair[0].section) if pair[0].section in order else len(order))
    return tuple(
        SheetGroup(SECTIONS.get(section, section.capitalize()), tuple(quantity for _, quantity in pairs))
        for section, pairs in groupby(made, key=lambda pair: pair[0].section)
    )


def _printed(record: Record) -> dict[str, tuple[str, ...]]:
    """By name, the lines that print a number of it, each once."""
    found: dict[str, dict[str, None]] = {}
    for block in record.blocks:
        for part in block.parts:
            for token in part:
                if isinstance(token, RecordedSlot):
                    for name in token.uses:
                        found.setdefault(name, {})[label_of(block)] = None
    return {name: tuple(labels) for name, labels in found.items()}


def _quantity(
    recorded: RecordedQuantity,
    quantity: Quantity,
    record: Record,
    sized: SizedPattern,
    in_use: KsInUse,
    printed: dict[str, tuple[str, ...]],
) -> SheetQuantity:
    rounding = _rounding(recorded)
    return SheetQuantity(
        recorded.name,
        _came_by(recorded, sized),
        recorded.unit,
        _sentence(recorded, rounding),
        recorded.formula,
        recorded.inputs,
        rounding,
        recorded.gauge,
        recorded.why,
        printed.get(recorded.name, ()),
        tuple(_values(recorded, quantity, record)),
        _sums(recorded.name, sized, in_use),
    )


def _came_by(recorded: RecordedQuantity, sized: SizedPattern) -> str:
    if recorded.late:
        return "from the rows"
    if recorded.section == "plans":
        return "plan"
    row = sized.body.row(recorded.name) if sized.body else None
    if row and not row.own:
        return "body table"
    if recorded.by_hand:
        return "by hand"
    return "worked out" if recorded.inputs else "given"


def _rounding(recorded: RecordedQuantity) -> str:
    """Such as "to the nearest multiple of 8"."""
    if not recorded.rounding or recorded.late:  # the sums of yarn tell their own
        return ""
    to = f"multiple of {recorded.multiple}" if recorded.multiple not in ("", "1") else "whole number"
    return f"{ROUNDINGS.get(recorded.rounding, recorded.rounding)} {to}"


def _sentence(recorded: RecordedQuantity, rounding: str) -> str:
    """How it comes about, in one line: "hat_around * crown.stitches, to the nearest multiple of 8; eight crown sections"."""
    if recorded.late:
        return recorded.why or recorded.formula
    if recorded.section == "plans":
        how = f"part of the plan {recorded.name.rpartition('.')[0]}"
    else:
        how = recorded.formula or "given for each size"
    bounds = [
        f"{words} {bound}" for words, bound in (("at least", recorded.at_least), ("at most", recorded.at_most)) if bound
    ]
    should = [f"should be {recorded.should_be}"] if recorded.should_be else []
    line = ", ".join([how, *([rounding] if rounding else []), *bounds, *should])
    return f"{line}; {recorded.why}" if recorded.why else line


def _values(recorded: RecordedQuantity, quantity: Quantity, record: Record) -> list[SheetValue]:
    found = []
    for size in record.sizes:
        held = record.by_size[size].quantities[recorded.name]
        pairs = [("", held.value, held.raw or held.value)] if held.value else []
        pairs += [(k, value, value) for k, value in held.at.items()]
        found += [_value(recorded, quantity, size, k, value, raw) for k, value, raw in pairs]
    return found


def _value(
    recorded: RecordedQuantity, quantity: Quantity, size: str, k: str, value_text: str, raw_text: str
) -> SheetValue:
    value, raw = as_number(value_text), as_number(raw_text)
    rounded = bool(_rounding(recorded))
    deviation = value - raw if value is not None and raw is not None and rounded and not k else None
    per_unit = as_number(recorded.cm_per_unit) if recorded.cm_per_unit else None
    in_cm = deviation * per_unit if deviation is not None and per_unit is not None else None
    shown = value_text if value is None else amount_text(value, quantity.kind)
    raw_shown = raw_text if raw is None else amount_text(raw, quantity.kind)
    return SheetValue(
        size, k, raw, value, shown, raw_shown, deviation, in_cm, _deviation_shown(quantity, deviation, in_cm)
    )


def _deviation_shown(quantity: Quantity, deviation: Fraction | None, in_cm: Fraction | None) -> str:
    """Such as "−0.4 sts, −0.25 cm / −⅛ in"; "exact" where the rounding changed nothing."""
    if deviation is None:
        return ""
    if not deviation:
        return "exact"
    change = f"{'+' if deviation > 0 else '−'}{amount_text(abs(deviation), quantity.kind)}"
    return f"{change}, {change_text(in_cm)}" if in_cm is not None else change


def _sums(name: str, sized: SizedPattern, in_use: KsInUse) -> str:
    asked = SourceFile("the editor's worksheet", name)
    told = derivation(sized, Span(asked, 0, len(name)), in_use)
    return told if isinstance(told, str) else ""
