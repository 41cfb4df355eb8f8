"""How a named value goes from size to size: where it falls, where it turns back, and which size stands out."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import lcm

from stitchproof.diagnostics.diagnostic import SumLine
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.dimension import LENGTH, PLAIN, STITCHES, WEIGHT
from stitchproof.measures.print_grid import change_text
from stitchproof.measures.values import PerSize, Value
from stitchproof.sizing.sized_pattern import PatternScope, Quantity

WIDTH = Fraction(20)
"""Stitches: a count that never gets there is a handful of stitches, not a width that has to grow with the body."""
YARN_LENGTHS = ("m", "metre", "metres", "meter", "meters", "yd", "yds", "yard", "yards")
SKEINS = ("balls", "ball", "skeins", "skein")
JUDGED_FROM = 4
"""Sizes: of fewer, none can be said to stand out."""
SLIP = {LENGTH: Fraction(5), STITCHES: Fraction(5), WEIGHT: Fraction(30)}
FEW = Fraction(5)
"""How far a value must lie from its neighbours, in cm, stitches, g, rows or times, to be more than a choice."""
_EASE = LatePattern(r"(?:^|[._])ease(?:$|[._])")


def fallen(values: PerSize) -> tuple[int, ...]:
    """The sizes whose value is below that of the size before, each the index of the later one."""
    return tuple(size for size in range(1, len(values)) if _is_less(values[size], values[size - 1]))


def risen(values: PerSize) -> tuple[int, ...]:
    """The sizes whose value is above that of the size before."""
    return tuple(size for size in range(1, len(values)) if _is_less(values[size - 1], values[size]))


def _is_less(one: Value, other: Value) -> bool:
    """Whether both are numbers and the first is the smaller, told by whole numbers: fractions are slow to compare."""
    if not isinstance(one, Fraction) or not isinstance(other, Fraction):
        return False
    return one.numerator * other.denominator < other.numerator * one.denominator


def is_yarn(quantity: Quantity) -> bool:
    """Whether a value is an amount of yarn, by its unit."""
    dimension, noun = quantity.kind.dimension, quantity.kind.noun
    if dimension == LENGTH:
        return noun in YARN_LENGTHS
    return dimension == WEIGHT or (dimension == PLAIN and noun in SKEINS)


def turns_back(quantity: Quantity) -> tuple[int, ...]:
    """The sizes in which a value given by hand falls though it should not: a body measure, a length, a width in stitches.

    Lengths and widths that never rise are meant to fall; ease and counts of shaping go as they please.
    """
    if not quantity.by_hand or is_yarn(quantity):
        return ()
    falls, rises = fallen(quantity.values), risen(quantity.values)
    if quantity.section == "body":
        return falls
    if quantity.kind.dimension == LENGTH and not _is_ease(quantity):
        return falls if rises else ()
    is_width = quantity.kind.dimension == STITCHES and any(value >= WIDTH for value in _numbers(quantity.values))
    return falls if is_width and len(falls) == 1 and len(rises) > 1 else ()


def _is_ease(quantity: Quantity) -> bool:
    return _EASE.search(quantity.name) is not None


def standing_out(quantity: Quantity) -> tuple[int, Fraction] | None:
    """The one size of a list given by hand that does not fit the others, and what its neighbours would make of it."""
    values = _numbers(quantity.values)
    if not quantity.by_hand or len(values) != len(quantity.values) or len(values) < JUDGED_FROM:
        return None
    if _is_ease(quantity) or (is_yarn(quantity) and fallen(quantity.values)):
        return None
    least = SLIP.get(quantity.kind.dimension, FEW)
    breaks = _breaks_the_direction(values)
    # In whole parts so small that half the way between two values is whole as well: fractions take ten times as long.
    parts = 2 * lcm(*(value.denominator for value in values))
    scaled = [value.numerator * (parts // value.denominator) for value in values]
    found = [
        (size, Fraction(expected, parts))
        for size in range(len(scaled))
        if (expected := _slip(scaled, size, breaks)) is not None
    ]
    found = [(size, expected) for size, expected in found if abs(values[size] - expected) >= least]
    return max(found, key=lambda each: abs(values[each[0]] - each[1]), default=None)


def _slip(values: list[int], size: int, breaks: bool) -> int | None:
    """What the neighbours make of a size, if its own value lies far off a line that all others keep to.

    values: even numbers. breaks: whether the values go up as well as down.
    """
    rest = [*values[:size], *values[size + 1 :]]
    steps = [after - before for before, after in pairwise(rest)]
    if 0 < size < len(values) - 1:
        expected = (values[size - 1] + values[size + 1]) // 2
        steps[size - 1] //= 2
    else:
        expected = 2 * rest[0] - rest[1] if size == 0 else 2 * rest[-1] - rest[-2]
    if not all(step >= 0 for step in steps) and not all(step <= 0 for step in steps):
        return None
    off, widest = abs(values[size] - expected), max(abs(step) for step in steps)
    if breaks:
        return expected if off >= 2 * widest and 5 * off >= max(map(abs, values)) else None
    low, high = sorted((abs(values[size]), expected))
    return expected if off >= 4 * widest and 0 < 3 * low <= high else None


def _breaks_the_direction(values: tuple[Fraction, ...]) -> bool:
    return bool(fallen(values)) and bool(risen(values))


def _numbers(values: PerSize) -> tuple[Fraction, ...]:
    return tuple(value for value in values if isinstance(value, Fraction))


def inputs_of(names: tuple[str, ...], scope: PatternScope) -> Iterator[Quantity]:
    """Every value that some names are worked out from, themselves first, each once."""
    seen: set[str] = set()
    waiting = [scope.full_name(name) for name in names]
    while waiting:
        name = waiting.pop()
        quantity = scope.quantities.get(name)
        if name in seen or quantity is None:
            continue
        seen.add(name)
        yield quantity
        waiting += [scope.full_name(each) for each in quantity.inputs]


def fall(
    values: PerSize, size: int, names: tuple[str, ...], kind: Kind, cm_per_unit: Fraction | None = None
) -> SumLine:
    """A fall as a sum: "L 18 cm, XL 17.5 cm: −0.5 cm / −0.2 in"."""
    before, here = values[size - 1], values[size]
    if not isinstance(before, Fraction) or not isinstance(here, Fraction):
        raise TypeError("only a number can fall")
    change = here - before
    words = change_text(change) if kind.dimension == LENGTH and kind.noun not in YARN_LENGTHS else ""
    if not words:
        words = amount_text(change, kind) + (f" ({change_text(change * cm_per_unit)})" if cm_per_unit else "")
    sides = f"{names[size - 1]} {amount_text(before, kind)}, {names[size]} {amount_text(here, kind)}"
    return SumLine(names[size], f"{sides}: {words}")
