"""Rows that were walked before: what is the same in two sizes, or comes again on an edge that is the same, is walked once."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.row_tree import Amount, Item, RowTree, Stretch
from stitchproof.simulation.walk import Walked

MOST_KEPT = 2048
"""Rows walked that are remembered, of all sizes of a piece; a pattern goes back to few of them."""

Parts = tuple[RowTree, ...]
Numbers = tuple[int | None, ...]


class RowsWalked:
    """The rows of a piece that were walked, by what they were walked on. Its sizes share them."""

    def __init__(self) -> None:
        self._walked: dict[tuple[object, ...], tuple[Parts, list[Walked]]] = {}
        self._numbers: dict[int, tuple[object, list[Numbers]]] = {}
        self._amounts: dict[int, tuple[Item, tuple[Amount, ...]]] = {}

    def row(self, parts: Parts, size: int) -> tuple[object, ...]:
        """What tells a row apart in a size: how it is written, and the numbers that it is worked by."""
        return tuple([(id(tree.items), self._numbers_of(tree, size)) for tree in parts])

    def find(self, key: tuple[object, ...]) -> list[Walked] | None:
        """What a row came to that was walked before."""
        found = self._walked.get(key)
        return found[1] if found else None

    def keep(self, key: tuple[object, ...], parts: Parts, walked: list[Walked]) -> list[Walked]:
        """Remember what a row came to."""
        if len(self._walked) >= MOST_KEPT:
            self._walked.clear()
        # The parts are kept as well: an identity may not go to another row while this one is remembered.
        self._walked[key] = parts, walked
        return walked

    def _numbers_of(self, tree: RowTree, size: int) -> Numbers:
        """The numbers of a tree in a size. Its items are kept with them, so that their identity goes to no others."""
        known = self._numbers.get(id(tree.items))
        if known is None:
            if len(self._numbers) >= MOST_KEPT:
                self._numbers.clear()
            amounts = [amount.wholes for item in tree.items for amount in self._amounts_of(item)]
            known = self._numbers[id(tree.items)] = tree.items, list(zip(*amounts, strict=True))
        by_size = known[1]
        return by_size[size] if by_size else ()

    def _amounts_of(self, item: Item) -> tuple[Amount, ...]:
        """The numbers of an item. Rows that are tried with one number changed have most items in common."""
        known = self._amounts.get(id(item))
        if known is None:
            if len(self._amounts) >= MOST_KEPT:
                self._amounts.clear()
            found: list[Amount] = []
            _add_amounts(item, found)
            known = self._amounts[id(item)] = item, tuple(found)
        return known[1]


def _add_amounts(node: Struct | tuple[object, ...], found: list[Amount]) -> None:
    if isinstance(node, Amount):
        found.append(node)
        return
    parts = node if isinstance(node, tuple) else [getattr(node, name) for name in node.__struct_fields__]
    for part in parts:
        if isinstance(part, Struct | tuple) and type(part) is not Stretch:
            _add_amounts(part, found)
