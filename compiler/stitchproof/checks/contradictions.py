"""Whether a value typed by hand is what its `should_be` gives: lengths as they print, all else exactly."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import CM_GRID, INCH_GRID, on_cm_grid, on_inch_grid
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.sizing.sized_claims import SizedExpectation
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

WIDEST_PAIR = (CM_GRID.of + INCH_GRID.of * CM_PER_INCH) / 2
"""How far cm and inches of one length can be apart when each is rounded to its own grid: half a step of both, 0.5675 cm."""


def contradicts(quantity: Quantity, expectation: SizedExpectation, size: int) -> bool:
    """Whether the value that is typed is another than the one that should be there."""
    value = quantity.values[size] if quantity.values else None
    expected = expectation.expected.at(size) if expectation.expected else None
    if not isinstance(value, Fraction) or expected is None:
        return False
    if quantity.kind.dimension != LENGTH:
        return value != expected
    return not print_alike(value, expected, in_inches=quantity.kind.noun == "in")


def print_alike(one: Fraction, two: Fraction, in_inches: bool) -> bool:
    """Whether two lengths are the same on the page."""
    grid = on_inch_grid if in_inches else on_cm_grid
    return grid(one) == grid(two)


def is_contradicted(quantity: Quantity, size: int, sized: SizedPattern) -> bool:
    """Whether a length is reported for being another than its `should_be`; then what follows from it stays silent."""
    if quantity.kind.dimension != LENGTH:
        return False
    return any(each.name == quantity.name and contradicts(quantity, each, size) for each in sized.claims.expectations)
