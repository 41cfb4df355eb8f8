"""The k at which values such as `after_dec(k)` are worked with: those that the text prints, and all that follow from them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from stitchproof.formulas.asked import Asked, speaks_of_k_values, worked_with
from stitchproof.formulas.kind import NUMBER
from stitchproof.formulas.scope import Bound
from stitchproof.sizing.sized_pattern import SizedPattern

MOST_FOLLOWED = 20_000
"""Values at a k in a size that are followed; what lies beyond is not judged."""
KsInUse = Mapping[str, Mapping[int, tuple[Fraction, ...]]]
"""Full name → index of a size → the k in use there, in order."""


def ks_in_use(sized: SizedPattern, printed: Iterable[Asked]) -> KsInUse:
    """Every k in use. printed: what the slots of the text asked for."""
    waiting = [*printed, *_named(sized)]
    seen: set[Asked] = set()
    while waiting and len(seen) < MOST_FOLLOWED:
        each = waiting.pop()
        asked = Asked(sized.scope.full_name(each.name), each.size, each.k)
        if asked in seen:
            continue
        seen.add(asked)
        waiting += _behind(asked, sized)
    found: dict[str, dict[int, tuple[Fraction, ...]]] = {}
    for asked in sorted(seen, key=lambda one: (one.name, one.size, one.k or 0)):
        if asked.k is not None:
            held = found.setdefault(asked.name, {})
            held[asked.size] = (*held.get(asked.size, ()), asked.k)
    return found


def _named(sized: SizedPattern) -> Iterable[Asked]:
    """What the named values without a k ask for."""
    for quantity in sized.quantities:
        for size, formula in enumerate(quantity.formulas):
            if formula and not quantity.parameter and speaks_of_k_values(formula.node):
                yield from worked_with(formula.node, sized.scope, size)


def _behind(asked: Asked, sized: SizedPattern) -> Iterable[Asked]:
    """What a value at its k is worked out from, at other k."""
    quantity = sized.scope.quantities.get(asked.name)
    if quantity is None or not quantity.parameter or asked.k is None:
        return ()
    formula = quantity.start if quantity.start and asked.k == 0 else quantity.formulas[asked.size]
    if formula is None or not speaks_of_k_values(formula.node):
        return ()
    return worked_with(formula.node, Bound(sized.scope, quantity.parameter, NUMBER, asked.k), asked.size)
