"""Counts that are reported for themselves, so that what follows from them stays silent: one root cause is one report."""

from __future__ import annotations

import re
from fractions import Fraction

from stitchproof.checks.pick_up_not_whole import has_fractional_pick_up
from stitchproof.formulas.kind import whole
from stitchproof.formulas.tree import Formula, names_in
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern


def follows_from_wrong(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a named value is worked out, in a size, from a count that has a fault of its own."""
    return any(_is_wrong_or_follows(name, size, sized) for name in quantity.inputs)


def formula_follows_from_wrong(formula: Formula, size: int, sized: SizedPattern) -> bool:
    """The same for a formula that has no name."""
    return any(_is_wrong_or_follows(node.name, size, sized) for node in names_in(formula.node))


def text_follows_from_wrong(written: str, size: int, sized: SizedPattern) -> bool:
    """The same for a slot, by the names that are written in it."""
    return any(_is_wrong_or_follows(name, size, sized) for name in re.findall(r"[^\W\d][\w.]*", written))


def is_fraction(quantity: Quantity, size: int) -> bool:
    """Whether a count does not come out whole in a size."""
    if quantity.section != "counts" or not quantity.kind.dimension.is_count or not quantity.values:
        return False
    return not whole(quantity.values[size])


def is_off_its_multiple(quantity: Quantity, size: int) -> bool:
    """Whether a count is whole, but not one of its multiples, in a size."""
    multiple = quantity.multiples[size] if quantity.multiples else None
    value = quantity.values[size] if quantity.values else None
    return bool(multiple and isinstance(value, Fraction) and whole(value) and not multiple.fits(value))


def _is_wrong_or_follows(name: str, size: int, sized: SizedPattern) -> bool:
    quantity = sized.scope.quantities.get(sized.scope.full_name(name))
    if quantity is None:
        return False
    if is_fraction(quantity, size) or is_off_its_multiple(quantity, size):
        return True
    formula = quantity.formulas[size] if len(quantity.formulas) > size else None
    if formula is not None and has_fractional_pick_up(formula.node, sized.scope, size):
        return True
    return any(_is_wrong_or_follows(each, size, sized) for each in quantity.inputs if each != quantity.name)
