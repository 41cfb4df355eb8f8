"""What is written otherwise: values, formulas, roundings, rates and plans, name by name."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.comparison.comparison import InputChanged, Pair
from stitchproof.record.record import Record, RecordedGiven, RecordedQuantity

WRITTEN = ("formula", "start", "rounding", "multiple", "at_least", "at_most", "should_be")
"""What of a quantity a designer writes and a value can hang on."""


def inputs_changed(old: Record, new: Record) -> tuple[InputChanged, ...]:
    """Every name that is written otherwise, new, or gone, in the order of the new pattern; those that are gone last."""
    return tuple(_all(old, new))


def _all(old: Record, new: Record) -> Iterator[InputChanged]:
    before, after = _quantities(old), _quantities(new)
    for name, quantity in after.items():
        if name not in before:
            yield InputChanged(name, "new", Pair("", _writing(quantity, new)))
        else:
            yield from _quantity(before[name], quantity, old, new)
    for name, quantity in before.items():
        if name not in after:
            yield InputChanged(name, "gone", Pair(_writing(quantity, old), ""))
    yield from _given(old, new)


def _quantities(record: Record) -> dict[str, RecordedQuantity]:
    """All but parts of plans and amounts of yarn, which nobody writes."""
    return {each.name: each for each in record.quantities if each.section != "plans" and _is_written(each, record)}


def _is_written(quantity: RecordedQuantity, record: Record) -> bool:
    held = (each.quantities.get(quantity.name) for each in record.by_size.values())
    return bool(quantity.formula or quantity.start or any(value and value.written for value in held))


def _writing(quantity: RecordedQuantity, record: Record) -> str:
    by_size = [record.by_size[size].quantities[quantity.name].written for size in record.sizes]
    return quantity.formula or ", ".join(filter(None, by_size))


def _quantity(before: RecordedQuantity, after: RecordedQuantity, old: Record, new: Record) -> Iterator[InputChanged]:
    for key in WRITTEN:
        pair = Pair(getattr(before, key), getattr(after, key))
        if pair.old != pair.new:
            yield InputChanged(after.name, key.replace("_", " "), pair)
    sizes = [size for size in new.sizes if size in old.by_size]
    pairs = [
        (size, Pair(old.by_size[size].quantities[after.name].written, new.by_size[size].quantities[after.name].written))
        for size in sizes
    ]
    changed = tuple((size, pair) for size, pair in pairs if pair.old != pair.new)
    if changed:
        yield InputChanged(after.name, "by hand", None, changed)


def _given(old: Record, new: Record) -> Iterator[InputChanged]:
    before = {each.name: each for each in (*old.rates, *old.plans)}
    after = {each.name: each for each in (*new.rates, *new.plans)}
    for name in dict.fromkeys((*after, *before)):
        yield from _keys(name, before.get(name), after.get(name))
        yield from _keys_by_size(name, old, new)


def _keys(name: str, before: RecordedGiven | None, after: RecordedGiven | None) -> Iterator[InputChanged]:
    one = {**({"kind": before.kind} if before.kind else {}), **before.keys} if before else {}
    other = {**({"kind": after.kind} if after.kind else {}), **after.keys} if after else {}
    for key in dict.fromkeys((*other, *one)):
        pair = Pair(one.get(key, ""), other.get(key, ""))
        if pair.old != pair.new:
            yield InputChanged(name, key.replace("_", " "), pair)


def _keys_by_size(name: str, old: Record, new: Record) -> Iterator[InputChanged]:
    sizes = [size for size in new.sizes if size in old.by_size]
    keys = dict.fromkeys(
        key for record in (new, old) for size in sizes for key in record.by_size[size].given if _plan_of(key) == name
    )
    for key in keys:
        pairs = [(s, Pair(old.by_size[s].given.get(key, ""), new.by_size[s].given.get(key, ""))) for s in sizes]
        changed = tuple((size, pair) for size, pair in pairs if pair.old != pair.new)
        if changed:
            yield InputChanged(name, key.rpartition(".")[2].replace("_", " "), None, changed)


def _plan_of(key: str) -> str:
    return key.rpartition(".")[0]
