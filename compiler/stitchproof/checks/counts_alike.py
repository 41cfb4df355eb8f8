"""Which counts of a pattern are the same as, or nearly the same as, a sized number that was typed by hand."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.typed_vectors import TypedVector, amount
from stitchproof.expansion.document import Number, blocks_of, inlines_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.measures.values import PerSize

FEWEST_ALIKE = 3
"""Different numbers that two lists share before one is taken for a slip of the other."""


def count_like(vector: TypedVector, expanded: ExpandedPattern) -> tuple[str, tuple[int, ...]] | None:
    """The count, as a slot would name it, that a typed number is or nearly is, and the sizes in which they differ.

    Nearly: they differ in one size, or two sizes have changed places. Only counts without gaps are compared.
    """
    typed = [amount(entry) for entry in vector.entries]
    nearest: tuple[str, tuple[int, ...]] | None = None
    for written, values in _counts(expanded):
        if len(values) != len(typed) or not all(isinstance(value, Fraction) for value in values):
            continue
        off = tuple(size for size, (mine, known) in enumerate(zip(typed, values, strict=True)) if mine != known)
        alike = {value for size, value in enumerate(values) if size not in off}
        if not off and len(set(values)) > 1:
            return written, ()
        changed_places = len(off) == 2 and (typed[off[0]], typed[off[1]]) == (values[off[1]], values[off[0]])
        if nearest is None and len(alike) >= FEWEST_ALIKE and (len(off) == 1 or changed_places):
            nearest = (written, off)
    return nearest


def _counts(expanded: ExpandedPattern) -> Iterator[tuple[str, PerSize]]:
    """The named counts, then the numbers that the text prints, such as `after_dec(k)` where k is 4."""
    for quantity in expanded.sized.quantities:
        if quantity.section == "counts" and quantity.kind.dimension.is_count:
            yield quantity.name, quantity.values
    for block in blocks_of(expanded.document):
        for inline in inlines_of(block):
            if isinstance(inline, Number) and inline.dimension.is_count and len(inline.served) == len(inline.values):
                yield inline.written, inline.values
