"""What a change comes to, from the pattern before and after: what nobody recomputed first, then what moved, then what held."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.comparison.compare import compare, shown
from stitchproof.comparison.comparison import Comparison
from stitchproof.effects.hand_set import HandSet
from stitchproof.measures.print_grid import change_text, cm_text, inch_text
from stitchproof.measures.values import exact_text
from stitchproof.record.exact import as_number
from stitchproof.record.record import Record, RecordedQuantity

OLD, NEW = "as it is", "as it would be"
HALF = Fraction(1, 2)


class LengthChanged(Struct, frozen=True):
    """A measure before and after, one entry for each size that both have, in cm and in inches as printed.

    label: as the table of sizes calls it, "" where it does not print it.
    """

    name: str
    label: str
    sizes: tuple[str, ...]
    cm: tuple[tuple[str, ...], tuple[str, ...]]
    inches: tuple[tuple[str, ...], tuple[str, ...]]


class CountChanged(Struct, frozen=True):
    """A number before and after with its unit, one entry for each size that both have."""

    name: str
    sizes: tuple[str, ...]
    old: tuple[str, ...]
    new: tuple[str, ...]


class NewSizeValues(Struct, frozen=True):
    """A number in the sizes that are new, with its unit; a length in cm and in inches as printed."""

    name: str
    label: str
    sizes: tuple[str, ...]
    values: tuple[str, ...]


class RoundedFar(Struct, frozen=True):
    """A count that rounding moves by more than half a stitch, row or the like. change_cm: "" where its gauge does not say.

    before: whether it was moved so far before the change as well.
    """

    name: str
    size: str
    value: str
    raw: str
    moved: str
    change_cm: str
    before: bool


class Effect(Struct, frozen=True):
    """hand_set: the values set by hand, which no formula recomputes. counts, yarn: what came to other numbers.

    at_k: of those that take a k. comparison: all of it, with what was changed and what held. quantities, errors: how many
    there are then. rounded_names: the counts that are rounded. drawn: values of new sizes, as they would be asked for, that
    nobody gave and that go on as their neighbours do. new_sizes: what the new sizes come to.
    """

    hand_set: tuple[HandSet, ...]
    counts: tuple[CountChanged, ...]
    at_k: tuple[str, ...]
    lengths: tuple[LengthChanged, ...]
    yarn: tuple[CountChanged, ...]
    rounded_far: tuple[RoundedFar, ...]
    comparison: Comparison
    quantities: int
    errors: int
    rounded_names: tuple[str, ...]
    drawn: tuple[str, ...]
    new_sizes: tuple[NewSizeValues, ...]


def effect_of(
    old: Record, new: Record, hand_set: tuple[HandSet, ...], labels: dict[str, str], drawn: tuple[str, ...] = ()
) -> Effect:
    """labels: by full name, what the table of sizes calls a measure. drawn: as in Effect."""
    comparison = compare(old, new, OLD, NEW)
    quantities = {each.name: each for each in new.quantities}
    plain = [each for each in comparison.numbers if not quantities[each.name].parameter]
    units = {each.name: each.unit for each in old.quantities}
    counts = [each for each in plain if units[each.name] != "cm" and not _is_yarn(quantities[each.name])]
    lengths = [each for each in plain if units[each.name] == "cm" and not _is_yarn(quantities[each.name])]
    lengths.sort(key=lambda each: list(labels).index(each.name) if each.name in labels else len(labels))
    return Effect(
        hand_set,
        tuple(_count(each.name, units[each.name], old, new) for each in counts),
        tuple(each.name for each in comparison.numbers if quantities[each.name].parameter),
        tuple(_length(each.name, labels.get(each.name, ""), old, new) for each in lengths),
        tuple(_count(each.name, units[each.name], old, new) for each in plain if _is_yarn(quantities[each.name])),
        tuple(_rounded_far(old, new)),
        comparison,
        len(new.quantities),
        sum(found.severity == "error" for found in new.findings),
        tuple(each.name for each in new.quantities if each.rounding and each.unit not in ("cm", "g")),
        drawn,
        tuple(_new_sizes(old, new, labels)),
    )


def _is_yarn(quantity: RecordedQuantity) -> bool:
    return quantity.section == "yarn" or quantity.late


def _count(name: str, unit: str, old: Record, new: Record) -> CountChanged:
    sizes = tuple(size for size in new.sizes if size in old.by_size)
    before, after = (
        tuple(shown(record.by_size[size].quantities[name].value, unit) for size in sizes) for record in (old, new)
    )
    return CountChanged(name, sizes, before, after)


def _new_sizes(old: Record, new: Record, labels: dict[str, str]) -> Iterator[NewSizeValues]:
    """The measures of the table of sizes, the counts that are rounded, and the yarn."""
    sizes = tuple(size for size in new.sizes if size not in old.by_size)
    units = {each.name: each.unit for each in new.quantities}
    rounded = [each.name for each in new.quantities if each.rounding and not each.parameter and not each.late]
    grams = [each.name for each in new.quantities if each.late and each.name.endswith(".grams")]
    for name in dict.fromkeys((*labels, *rounded, *grams)) if sizes else ():
        if name in units:
            texts = tuple(_in_full(new.by_size[size].quantities[name].value, units[name]) for size in sizes)
            yield NewSizeValues(name, labels.get(name, ""), sizes, texts)


def _in_full(value: str, unit: str) -> str:
    number = as_number(value)
    return shown(value, unit) if number is None or unit != "cm" else f"{cm_text(number)} cm / {inch_text(number)} in"


def _length(name: str, label: str, old: Record, new: Record) -> LengthChanged:
    sizes = tuple(size for size in new.sizes if size in old.by_size)
    values = [tuple(as_number(each.by_size[size].quantities[name].value) for size in sizes) for each in (old, new)]
    cm = [tuple("–" if value is None else cm_text(value) for value in side) for side in values]
    inches = [tuple("–" if value is None else inch_text(value) for value in side) for side in values]
    return LengthChanged(name, label, sizes, (cm[0], cm[1]), (inches[0], inches[1]))


def _rounded_far(old: Record, new: Record) -> Iterator[RoundedFar]:
    """Counts, as the checks judge them: a length that is rounded stands on its grid by the designer's wish."""
    for quantity in new.quantities:
        if not quantity.rounding or quantity.unit in ("cm", "g") or quantity.parameter:
            continue
        for size in new.sizes:
            moved = _moved(new, size, quantity.name)
            if moved is None or abs(moved) <= HALF:
                continue
            value = new.by_size[size].quantities[quantity.name]
            before = _moved(old, size, quantity.name) if size in old.by_size else None
            per_unit = as_number(quantity.cm_per_unit) if quantity.cm_per_unit else None
            yield RoundedFar(
                quantity.name,
                size,
                shown(value.value, quantity.unit),
                shown(value.raw, quantity.unit),
                f"{'+' if moved > 0 else '−'}{_short(abs(moved))}",
                change_text(moved * per_unit) if per_unit else "",
                before is not None and abs(before) > HALF,
            )


def _moved(record: Record, size: str, name: str) -> Fraction | None:
    held = record.by_size[size].quantities.get(name)
    value, raw = (as_number(held.value), as_number(held.raw)) if held and held.raw else (None, None)
    return value - raw if value is not None and raw is not None else None


def _short(number: Fraction) -> str:
    return exact_text(Fraction(round(number * 100), 100))
