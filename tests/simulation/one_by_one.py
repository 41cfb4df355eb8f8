"""The same walk as simulation's, one stitch at a time on a plain list: slow, and simple enough to be believed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stitchproof.rows.row_tree import Amount, Chain, Item, Reach, Repeat, Skip, Work
from stitchproof.simulation.position import Kind, Position, space, stitch
from tests.simulation.trees import FACTS


class DoesNotClose(Exception):
    """The row does not end where the row below ends, or cannot be worked."""


class OneByOne:
    """Places below, where the hook is, what is made."""

    def __init__(self, below: Sequence[Position]) -> None:
        self.below = list(below)
        self.cursor = 0
        self.made: list[Position] = []

    def row(self, items: Sequence[Item]) -> list[Position]:
        self.items(items)
        if self.cursor != len(self.below):
            raise DoesNotClose
        return self.made

    def items(self, items: Sequence[Item]) -> None:
        for item in items:
            if isinstance(item, Work):
                self.work(item)
            elif isinstance(item, Chain):
                self.made.append(space(_number(item.number)))
            elif isinstance(item, Skip):
                for _ in range(_number(item.target.count)):
                    self.take(item.target.things[0].name)
            elif isinstance(item, Repeat):
                self.repeat(item)

    def work(self, item: Work) -> None:
        facts = FACTS[item.stitch]
        name = item.target.things[0].name if item.target else "st"
        if item.target and item.target.reach is Reach.EACH:
            stop = item.target.stop
            keep = _number(stop.before) if stop else 0
            while len(self.below) - self.cursor > keep:
                self.one(item, facts.takes, name)
            if len(self.below) - self.cursor != keep:
                raise DoesNotClose
            return
        number = _number(item.target.count) if item.target else _number(item.number)
        for _ in range(number):
            self.one(item, facts.takes, name)

    def one(self, item: Work, takes: int, name: str) -> None:
        for _ in range(takes):
            self.take(name)
        for _ in range(_number(item.each)):
            self.made.append(stitch(item.stitch, FACTS[item.stitch].base))

    def take(self, name: str) -> None:
        """The next place of a kind: spaces before a stitch are passed over, and one stitch before a space."""
        wanted = Kind.SPACE if name == "chsp" else Kind.STITCH
        while self.cursor < len(self.below) and self.below[self.cursor].kind is not wanted:
            self.cursor += 1
        if self.cursor >= len(self.below):
            raise DoesNotClose
        self.cursor += 1

    def repeat(self, item: Repeat) -> None:
        assert item.extent
        if item.extent.times is not None:
            for _ in range(_number(item.extent.times)):
                self.items(item.items)
            return
        keep = _number(item.extent.stop.before) if item.extent.stop else 0
        while len(self.below) - self.cursor > keep:
            before = self.cursor
            self.items(item.items)
            if self.cursor == before:
                raise DoesNotClose


def _number(amount: Amount | None) -> int:
    if amount is None:
        return 1
    value = amount.values[0]
    assert isinstance(value, Fraction)
    return int(value)
