"""Holds two records of a pattern against each other."""

from __future__ import annotations

from stitchproof.comparison.causes import ROWS, Causes, ks_changed
from stitchproof.comparison.comparison import (
    FORMAT,
    VERSION,
    Chain,
    Comparison,
    FindingSeen,
    NumberChanged,
    Pair,
    Side,
    SizeChange,
    WordsChanged,
)
from stitchproof.comparison.inputs import inputs_changed
from stitchproof.comparison.lines import lines_changed
from stitchproof.measures.print_grid import change_text
from stitchproof.measures.units import SINGULAR
from stitchproof.measures.values import exact_text, rounded_text
from stitchproof.record.exact import as_number
from stitchproof.record.reading import reads
from stitchproof.record.record import Record, RecordedFinding, RecordedQuantity

CM_PER_METRE = 100
LONG = 1000
"""Centimetres. What is longer is yarn, and told in metres."""


def compare(old: Record, new: Record, old_where: str, new_where: str) -> Comparison:
    """What differs. old_where, new_where: what the user called them."""
    inputs = inputs_changed(old, new)
    causes = Causes(old, new, inputs)
    numbers, same_numbers = _numbers(old, new, causes)
    lines, same_lines = lines_changed(old, new, causes)
    added = tuple(size for size in new.sizes if size not in old.by_size)
    removed = tuple(size for size in old.sizes if size not in new.by_size)
    return Comparison(
        FORMAT,
        VERSION,
        new.pattern,
        _side(old, old_where),
        _side(new, new_where),
        added,
        removed,
        _words(old, new),
        inputs,
        numbers,
        lines,
        _only_in(new, old),
        _only_in(old, new),
        tuple(size for size in new.sizes if size in old.by_size and _same(old, new, size)),
        same_numbers,
        same_lines,
    )


def _side(record: Record, where: str) -> Side:
    title = record.title
    return Side(where, title.get("title", ""), title.get("revision", ""), title.get("date", ""), record.sizes)


def _words(old: Record, new: Record) -> tuple[WordsChanged, ...]:
    """The title block; the units; the tables of standards."""
    before = {**old.title, "units": " and ".join(old.units), **{f"table {k}": v for k, v in old.standards.items()}}
    after = {**new.title, "units": " and ".join(new.units), **{f"table {k}": v for k, v in new.standards.items()}}
    pairs = [(key, Pair(before.get(key, ""), after.get(key, ""))) for key in dict.fromkeys((*after, *before))]
    found = [WordsChanged(key, pair) for key, pair in pairs if pair.old != pair.new]
    both = [size for size in old.sizes if size in new.by_size]
    if both != [size for size in new.sizes if size in old.by_size]:
        found.append(WordsChanged("order of sizes", Pair(", ".join(old.sizes), ", ".join(new.sizes))))
    return tuple(found)


def _numbers(old: Record, new: Record, causes: Causes) -> tuple[tuple[NumberChanged, ...], int]:
    """Values that are worked out and came to something else; and how many did not change."""
    before = {each.name: each for each in old.quantities}
    found, same = [], 0
    for quantity in new.quantities:
        if quantity.name not in before:
            continue
        changes = _changes(quantity, before[quantity.name], old, new)
        if not changes:
            same += 1
        elif quantity.inputs or before[quantity.name].inputs or quantity.late or not _is_input(quantity, causes):
            found.append(NumberChanged(quantity.name, quantity.unit, changes, _chains(quantity.name, changes, causes)))
    return tuple(found), same


def _is_input(quantity: RecordedQuantity, causes: Causes) -> bool:
    return quantity.name in causes.written


def _changes(after: RecordedQuantity, before: RecordedQuantity, old: Record, new: Record) -> tuple[SizeChange, ...]:
    found = []
    for size in new.sizes:
        if size not in old.by_size:
            continue
        one, other = old.by_size[size].quantities[before.name], new.by_size[size].quantities[after.name]
        if one.value != other.value:
            found.append(_change(after, size, "", one.value, other.value))
        found += [_change(after, size, k, one.at[k], other.at[k]) for k in ks_changed(one, other)]
    return tuple(found)


def _change(quantity: RecordedQuantity, size: str, k: str, before: str, after: str) -> SizeChange:
    one, other = as_number(before), as_number(after)
    pair = Pair(shown(before, quantity.unit), shown(after, quantity.unit))
    if one is None or other is None:
        return SizeChange(size, k, pair)
    difference = other - one
    per_unit = as_number(quantity.cm_per_unit) if quantity.cm_per_unit else None
    sign = "+" if difference > 0 else "−"
    change = f"{sign}{shown(str(abs(difference)), quantity.unit)}"
    if quantity.unit == "cm" and max(abs(one), abs(other)) < LONG:
        return SizeChange(size, k, pair, "", change_text(difference))
    return SizeChange(size, k, pair, change, change_text(difference * per_unit) if per_unit else "")


def shown(value: str, unit: str) -> str:
    """A value of a record for people: exact where that is short, else to two places, with its unit; gauges over 10 cm."""
    number = as_number(value)
    if number is None:
        return value
    if unit.endswith(" per cm"):
        number, unit = number * 10, unit.replace(" per cm", " per 10 cm")
    if unit == "cm" and abs(number) >= LONG:
        number, unit = number / CM_PER_METRE, "m"
    if unit in ("ratio", "a plain number", "a test"):
        unit = ""
    text = exact_text(number)
    text = text if len(text) <= 7 and "/" not in text else rounded_text(number)
    return f"{text} {SINGULAR.get(unit, unit) if abs(number) == 1 else unit}".strip()


def _chains(name: str, changes: tuple[SizeChange, ...], causes: Causes) -> tuple[Chain, ...]:
    found: dict[str, Chain] = {}
    for change in changes:
        for chain in causes.of(name, change.size):
            found.setdefault(chain.root, chain)
    if not found and name in causes.late:
        return (Chain((ROWS,)),)
    return tuple(found.values())


def _only_in(one: Record, other: Record) -> tuple[FindingSeen, ...]:
    """The reports that the other record does not have. Where in the file they stand does not matter."""
    held = {_key(each) for each in other.findings}
    return tuple(
        FindingSeen(each.code, each.severity, each.headline, each.sizes, each.accepted)
        for each in one.findings
        if _key(each) not in held
    )


def _key(finding: RecordedFinding) -> tuple[object, ...]:
    return (finding.code, finding.headline, finding.sizes, finding.piece, finding.row, finding.accepted)


def _same(old: Record, new: Record, size: str) -> bool:
    """Whether everything of a size is the same, its lines and their order among it."""
    return _all_read(old, size) == _all_read(new, size) and _values(old, size) == _values(new, size)


def _values(record: Record, size: str) -> dict[str, tuple[str, dict[str, str]]]:
    return {name: (each.value, each.at) for name, each in record.by_size[size].quantities.items()}


def _all_read(record: Record, size: str) -> list[str]:
    found = (reads(record, block, size) for block in record.blocks)
    return [" ".join(words.split()) for words in found if words is not None]
