"""Numbers that are reported for themselves, so that what follows from them stays silent: one root cause is one report."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from stitchproof.checks.contradictions import is_contradicted
from stitchproof.formulas.asked import Asked, asked_in, speaks_of_k_values
from stitchproof.formulas.evaluation import CannotWorkOut, value_of
from stitchproof.formulas.kind import whole
from stitchproof.formulas.scope import NoValueThere
from stitchproof.formulas.tree import Call, Formula, Name, Node, inside
from stitchproof.measures.rate import Rate
from stitchproof.measures.values import Absent, Value
from stitchproof.sizing.sized_claims import Term
from stitchproof.sizing.sized_pattern import PatternScope, Quantity, SizedPattern


def follows_from_wrong(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a named value is worked out, in a size, from a count that has a fault of its own."""
    if _all_sound(sized):
        return False
    formula = quantity.formulas[size] if len(quantity.formulas) > size else None
    return any(
        _asked_is_wrong(asked, sized)
        for each in (formula, quantity.start)
        if each is not None
        for asked in asked_in(each.node, sized.scope, size)
        if sized.scope.full_name(asked.name) != quantity.name
    )


def formula_follows_from_wrong(formula: Formula, size: int, sized: SizedPattern) -> bool:
    """The same for a formula that has no name."""
    return node_follows_from_wrong(formula.node, size, sized)


def node_follows_from_wrong(node: Node, size: int, sized: SizedPattern) -> bool:
    """The same for a part of a formula."""
    if not speaks_of_k_values(node) and _all_sound(sized):
        return False
    return any(_asked_is_wrong(asked, sized) for asked in asked_in(node, sized.scope, size))


def term_follows_from_wrong(terms: Iterable[Term | None], size: int, sized: SizedPattern) -> bool:
    """The same for the numbers of a claim."""
    return any(term is not None and formula_follows_from_wrong(term.formula, size, sized) for term in terms)


def text_follows_from_wrong(written: str, size: int, sized: SizedPattern) -> bool:
    """The same for a slot, by the names that are written in it."""
    names = (sized.scope.full_name(name) for name in re.findall(r"[^\W\d][\w.]*", written))
    named = (sized.scope.quantities.get(name) for name in names)
    return any(each is not None and _is_wrong_or_follows(each, size, sized) for each in named)


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


def is_out_of_bounds(quantity: Quantity, size: int, value: Fraction) -> bool:
    """Whether a value, at a k if it takes one, lies outside the bounds it states, or is a count below zero."""
    if value.numerator < 0 and quantity.section == "counts":
        return True
    low = quantity.at_least[size] if quantity.at_least else Absent.UNKNOWN
    high = quantity.at_most[size] if quantity.at_most else Absent.UNKNOWN
    if isinstance(low, Absent) and isinstance(high, Absent):  # as most are
        return False
    return (isinstance(low, Fraction) and value < low) or (isinstance(high, Fraction) and value > high)


def has_fractional_pick_up(node: Node, scope: PatternScope, size: int) -> bool:
    """Whether a formula holds a pick-up that does not come out whole in a size."""
    return bool(node.calls) and any(True for _ in fractional_pick_ups(node, scope, size))


def fractional_pick_ups(node: Node, scope: PatternScope, size: int) -> Iterator[tuple[Call, Rate, Fraction]]:
    """The pick-ups of a formula whose total is not whole in a size. One that a search tries out is no pick-up yet."""
    if not node.calls or (isinstance(node, Call) and node.name == "largest"):
        return
    if isinstance(node, Call) and node.name == "picked_up" and isinstance(node.arguments[0], Name):
        rate = scope.rate(node.arguments[0].name)
        edge = value_of(node.arguments[1], scope, size)
        if rate and isinstance(edge, Fraction) and rate.picked_up(edge).denominator != 1:
            yield node, rate, edge
    for part in inside(node):
        yield from fractional_pick_ups(part, scope, size)


def is_wrong_at(quantity: Quantity, size: int, k: Fraction, sized: SizedPattern) -> bool:
    """Whether a value that takes a k is no whole number there, off its multiple, out of its bounds or below zero."""
    value = value_at(quantity, size, k, sized)
    if not isinstance(value, Fraction):
        return False
    if not whole(value):
        return is_count_at_k(quantity)
    multiple = quantity.multiples[size] if quantity.multiples else None
    return bool(multiple and not multiple.fits(value)) or is_out_of_bounds(quantity, size, value)


def value_at(quantity: Quantity, size: int, k: Fraction, sized: SizedPattern) -> Value:
    """The value at a k; UNKNOWN where it has none (reported where it is asked for)."""
    try:
        return sized.scope.value(quantity.name, size, k)
    except (CannotWorkOut, NoValueThere, RecursionError):
        return Absent.UNKNOWN


def is_count_at_k(quantity: Quantity) -> bool:
    """Whether a value that takes a k is a count, and so has to be whole."""
    return quantity.section == "counts" and quantity.kind.dimension.is_count


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


def _all_sound(sized: SizedPattern) -> bool:
    """Whether no value has a fault of its own, as in most patterns: then nothing follows from one. Found once."""
    scope = sized.scope
    if scope.all_sound is None:
        sizes = range(len(sized.sizes))
        scope.all_sound = not any(
            _is_wrong(quantity, size, sized) or _asks_wrong_k(quantity, size, sized)
            for quantity in scope.quantities.values()
            for size in sizes
        )
    return scope.all_sound


def _asks_wrong_k(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a value is worked out from another at a k at which that is wrong."""
    formulas = (quantity.formulas[size] if len(quantity.formulas) > size else None, quantity.start)
    return any(
        asked.k is not None and _asked_is_wrong_at_k(asked, sized)
        for each in formulas
        if each is not None and speaks_of_k_values(each.node)
        for asked in asked_in(each.node, sized.scope, size)
    )


def _asked_is_wrong_at_k(asked: Asked, sized: SizedPattern) -> bool:
    quantity = sized.scope.quantities.get(sized.scope.full_name(asked.name))
    return quantity is not None and asked.k is not None and is_wrong_at(quantity, asked.size, asked.k, sized)


def _asked_is_wrong(asked: Asked, sized: SizedPattern) -> bool:
    quantity = sized.scope.quantities.get(sized.scope.full_name(asked.name))
    if quantity is None:
        return False
    return _asked_is_wrong_at_k(asked, sized) or _is_wrong_or_follows(quantity, asked.size, sized)


def _is_wrong_or_follows(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Found once: values lie behind one another in many ways."""
    if _all_sound(sized):
        return False
    known, key = sized.scope.found_wrong, (quantity.name, size)
    found = known.get(key)
    if found is None:
        found = known[key] = _is_wrong(quantity, size, sized) or follows_from_wrong(quantity, size, sized)
    return found


def _is_wrong(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    if is_fraction(quantity, size) or is_off_its_multiple(quantity, size) or has_wrong_parity(quantity, size, sized):
        return True
    value = quantity.values[size] if quantity.values else None
    if isinstance(value, Fraction) and is_out_of_bounds(quantity, size, value):
        return True
    if is_contradicted(quantity, size, sized):
        return True
    formula = quantity.formulas[size] if len(quantity.formulas) > size else None
    return formula is not None and has_fractional_pick_up(formula.node, sized.scope, size)
