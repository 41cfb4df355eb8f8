"""The values of a pattern that are set by hand: no change recomputes them, so they are the first that a change can break."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.kind import amount_text
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import change_text
from stitchproof.measures.values import Absent, Value
from stitchproof.reading.pattern_source import Definition
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source_edits.by_formula import value_by_formula

JUDGED = ("measures", "counts")


class HandSet(Struct, frozen=True):
    """A value that was not recomputed. sizes: those it is set in, all where it is a list; values: one for each of them.

    formula: what would give it, "" of a list. by_formula: what the formula gives now, one for each size. touched: whether the
    change reaches it: its formula gives something else than before, its gauge is another, or lengths that are made of it
    have moved. widths: how much wider or longer the same number is, where its gauge is another. moved: those lengths.
    """

    name: str
    sizes: tuple[str, ...]
    values: tuple[str, ...]
    formula: str
    by_formula: tuple[str, ...]
    touched: bool
    widths: tuple[str, ...]
    moved: tuple[str, ...]
    why: str


def hand_set(old: SizedPattern, new: SizedPattern) -> tuple[HandSet, ...]:
    """Every value of the new pattern that is set by hand and the same as in the old; those that the change touches first."""
    return tuple(sorted(_all(old, new), key=lambda each: not each.touched))


def _all(old: SizedPattern, new: SizedPattern) -> Iterator[HandSet]:
    for definition in new.source.header.definitions:
        full = f"body.{definition.name}" if definition.section == "body" else definition.name
        quantity, before = new.scope.quantities.get(full), old.scope.quantities.get(full)
        if quantity is None or before is None or not quantity.values or definition.parameter:
            continue
        if definition.in_size:
            found = _beside_a_formula(definition, quantity, old, new)
        elif definition.by_hand and definition.section in JUDGED:
            found = _list(quantity, before, old, new)
        else:
            found = None
        if found:
            yield found


def _beside_a_formula(
    definition: Definition, quantity: Quantity, old: SizedPattern, new: SizedPattern
) -> HandSet | None:
    named = [new.scope.size_index(words.text.strip()) for words, _ in definition.in_size]
    before = old.scope.quantities[quantity.name].values
    kept = [
        size for size in named if size is not None and _old_value(before, new.sizes[size], old) == quantity.values[size]
    ]
    if not kept:
        return None
    gives = [value_by_formula(quantity.name, size, new) for size in kept]
    gave = [
        value_by_formula(quantity.name, old.sizes.index(new.sizes[size]), old) if new.sizes[size] in old.sizes else None
        for size in kept
    ]
    formula = definition.formulas[0]
    return HandSet(
        quantity.name,
        tuple(new.sizes[size] for size in kept),
        tuple(amount_text(quantity.values[size], quantity.kind) for size in kept),
        " ".join(formula.text.split()) if formula else "",
        tuple(amount_text(value, quantity.kind) for value in gives),
        gives != gave,
        (),
        (),
        quantity.why,
    )


def _list(quantity: Quantity, before: Quantity, old: SizedPattern, new: SizedPattern) -> HandSet | None:
    both = [(old.sizes.index(size), at) for at, size in enumerate(new.sizes) if size in old.sizes]
    if any(before.values[one] != quantity.values[other] for one, other in both):
        return None  # it was changed, and is told among what was
    one, other = before.cm_per_unit, quantity.cm_per_unit
    step = other - one if one is not None and other is not None else Fraction(0)
    widths = tuple(change_text(value * step) for value in quantity.values if step and isinstance(value, Fraction))
    texts = tuple(amount_text(value, quantity.kind) for value in quantity.values)
    moved = () if step else tuple(_moved_lengths(quantity.name, old, new, both))
    return HandSet(quantity.name, new.sizes, texts, "", (), bool(step or moved), widths, moved, quantity.why)


def _moved_lengths(name: str, old: SizedPattern, new: SizedPattern, both: list[tuple[int, int]]) -> Iterator[str]:
    """Lengths that are made of a value and came to something else, though it did not."""
    for quantity in new.quantities:
        before = old.scope.quantities.get(quantity.name)
        if name not in quantity.inputs or quantity.kind.dimension != LENGTH or not before or not before.values:
            continue
        if quantity.values and any(before.values[one] != quantity.values[other] for one, other in both):
            yield quantity.name


def _old_value(values: tuple[Value, ...], size: str, old: SizedPattern) -> Value:
    return values[old.sizes.index(size)] if size in old.sizes and values else Absent.UNKNOWN
