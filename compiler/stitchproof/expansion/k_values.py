"""The k at which values such as `after_dec(k)` are worked with: those that the text prints, and all that follow from them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction

from stitchproof.formulas.asked import Asked, asked_in, speaks_of_k_values, worked_with
from stitchproof.formulas.kind import NUMBER
from stitchproof.formulas.scope import Bound, Scope
from stitchproof.formulas.tree import Node
from stitchproof.sizing.sized_pattern import SizedPattern

MOST_FOLLOWED = 20_000
"""Values at a k in a size that are followed; what lies beyond is not judged."""
KsInUse = Mapping[str, Mapping[int, tuple[Fraction, ...]]]
"""Full name → index of a size → the k in use there, in order."""


Walk = Callable[[Node, Scope, int], Iterable[Asked]]
"""What a formula asks for in a size."""


def ks_in_use(sized: SizedPattern, printed: Iterable[Asked], walk: Walk = worked_with) -> KsInUse:
    """Every k in use. printed: what the slots of the text asked for."""
    waiting = [*printed, *_named(sized, walk)]
    # Looked up and put in order by whole numbers, as nearly every k is one: that takes a fraction of the time.
    seen: dict[tuple[str, int, int, int], Asked] = {}
    while waiting and len(seen) < MOST_FOLLOWED:
        each = waiting.pop()
        asked = Asked(sized.scope.full_name(each.name), each.size, each.k)
        key = (asked.name, asked.size, *((0, 0) if asked.k is None else asked.k.as_integer_ratio()))
        if key in seen:
            continue
        seen[key] = asked
        waiting += _behind(asked, sized, walk)
    found: dict[str, dict[int, list[Fraction]]] = {}
    for asked in sorted(seen.values(), key=lambda one: (one.name, one.size, _in_order(one.k))):
        if asked.k is not None:
            found.setdefault(asked.name, {}).setdefault(asked.size, []).append(asked.k)
    return {name: {size: tuple(ks) for size, ks in by_size.items()} for name, by_size in found.items()}


def _in_order(k: Fraction | None) -> Fraction | int:
    return 0 if k is None else k.numerator if k.denominator == 1 else k


def ks_asked_for(sized: SizedPattern, in_use: KsInUse) -> KsInUse:
    """Every k in use, and those that tests and bounds ask for on the way: what there is to explain."""
    asked = [Asked(name, size, k) for name, by_size in in_use.items() for size, ks in by_size.items() for k in ks]
    return ks_in_use(sized, asked, asked_in)


def _named(sized: SizedPattern, walk: Walk) -> Iterable[Asked]:
    """What the named values without a k and the numbers of plans ask for."""
    by_size = [quantity.formulas for quantity in sized.quantities if not quantity.parameter]
    by_size += [given.formulas for plan in sized.scope.plans.values() for given in plan.inputs]
    for formulas in by_size:
        for size, formula in enumerate(formulas):
            if formula and speaks_of_k_values(formula.node):
                yield from walk(formula.node, sized.scope, size)


def _behind(asked: Asked, sized: SizedPattern, walk: Walk) -> Iterable[Asked]:
    """What a value at its k is worked out from, at other k."""
    quantity = sized.scope.quantities.get(asked.name)
    if quantity is None or not quantity.parameter or asked.k is None:
        return ()
    formula = quantity.start if quantity.start and asked.k == 0 else quantity.formulas[asked.size]
    if formula is None or not speaks_of_k_values(formula.node):
        return ()
    return walk(formula.node, Bound(sized.scope, quantity.parameter, NUMBER, asked.k), asked.size)
