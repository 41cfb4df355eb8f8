"""Counts that are reported for themselves, so that what follows from them stays silent: one root cause is one report."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.kind import whole
from stitchproof.formulas.scope import Rate
from stitchproof.formulas.tree import Call, Formula, Name, Node, inside, names_in
from stitchproof.sizing.sized_pattern import PatternScope, Quantity, SizedPattern


def follows_from_wrong(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a named value is worked out, in a size, from a count that has a fault of its own."""
    return any(_is_wrong_or_follows(name, size, sized) for name in quantity.inputs if name != quantity.name)


def formula_follows_from_wrong(formula: Formula, size: int, sized: SizedPattern) -> bool:
    """The same for a formula that has no name."""
    return node_follows_from_wrong(formula.node, size, sized)


def node_follows_from_wrong(node: Node, size: int, sized: SizedPattern) -> bool:
    """The same for a part of a formula."""
    return any(_is_wrong_or_follows(each.name, size, sized) for each in names_in(node))


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


def is_out_of_bounds(quantity: Quantity, size: int) -> bool:
    """Whether a value lies outside the bounds it states, or a count below zero, in a size."""
    value = quantity.values[size] if quantity.values else None
    if not isinstance(value, Fraction):
        return False
    low = quantity.at_least[size] if quantity.at_least else None
    high = quantity.at_most[size] if quantity.at_most else None
    too_low = isinstance(low, Fraction) and value < low
    too_high = isinstance(high, Fraction) and value > high
    return too_low or too_high or (quantity.section == "counts" and value < 0)


def has_fractional_pick_up(node: Node, scope: PatternScope, size: int) -> bool:
    """Whether a formula holds a pick-up that does not come out whole in a size."""
    return any(True for _ in fractional_pick_ups(node, scope, size))


def fractional_pick_ups(node: Node, scope: PatternScope, size: int) -> Iterator[tuple[Call, Rate, Fraction]]:
    """The pick-ups of a formula whose total is not whole in a size. One that a search tries out is no pick-up yet."""
    if isinstance(node, Call) and node.name == "largest":
        return
    if isinstance(node, Call) and node.name == "picked_up" and isinstance(node.arguments[0], Name):
        rate = scope.rate(node.arguments[0].name)
        edge = value_of(node.arguments[1], scope, size)
        if rate and isinstance(edge, Fraction) and rate.picked_up(edge).denominator != 1:
            yield node, rate, edge
    for part in inside(node):
        yield from fractional_pick_ups(part, scope, size)


def has_wrong_parity(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a count is the total of an offset fabric whose way of working needs the other parity."""
    value = quantity.values[size] if quantity.values else None
    if not isinstance(value, Fraction) or not whole(value):
        return False
    return any(
        value % 2 != piece.offset_fabric.way.remainder
        for piece in sized.pieces
        if piece.offset_fabric
        and size in piece.served
        and isinstance(piece.offset_fabric.total.node, Name)
        and sized.scope.full_name(piece.offset_fabric.total.node.name) == quantity.name
    )


def _is_wrong_or_follows(name: str, size: int, sized: SizedPattern) -> bool:
    quantity = sized.scope.quantities.get(sized.scope.full_name(name))
    if quantity is None:
        return False
    if is_fraction(quantity, size) or is_off_its_multiple(quantity, size) or has_wrong_parity(quantity, size, sized):
        return True
    if is_out_of_bounds(quantity, size):
        return True
    formula = quantity.formulas[size] if len(quantity.formulas) > size else None
    if formula is not None and has_fractional_pick_up(formula.node, sized.scope, size):
        return True
    return follows_from_wrong(quantity, size, sized)
