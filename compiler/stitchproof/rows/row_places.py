"""Stretches, numbers and places that the tree of a written row is made of."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import PerSize
from stitchproof.once import once


class Stretch(Struct, frozen=True):
    """Characters of a line, from `start` up to `end`."""

    start: int
    end: int


class Amount(Struct, frozen=True, dict=True):
    """A whole number, one value per size; Absent where a size does not work it. written: it stands in the text."""

    values: PerSize
    at: Stretch
    written: bool = True

    @once
    def wholes(self) -> tuple[int | None, ...]:
        """The same as rows are worked by: None where it is not worked or not whole. One below zero works nothing."""
        return tuple(
            max(0, value.numerator) if isinstance(value, Fraction) and value.denominator == 1 else None
            for value in self.values
        )


class Loops(Enum):
    """The loops a stitch is worked through."""

    BOTH = "both loops"
    BACK = "back loop only"
    FRONT = "front loop only"
    THIRD = "third loop"


class Thing(Struct, frozen=True):
    """What is counted or worked into: "st", "chsp", "ch", "row-end", "base ch", "ring", "tch", "marker", "sp", "loop", the
    id of a stitch, or the name of a group ("shell").

    chains: of a chain space, its number of chains where the row names it (ch-2 sp). of: a word that narrows it: "held",
    "underarm", "free", "rem", "corner", "center"; or "". within, nth: of a part of a group, the group and which of them it is
    ("3rd dc of 5-dc shell"); nth None for the one in the center.
    """

    name: str
    at: Stretch
    chains: Amount | None = None
    of: str = ""
    within: str = ""
    nth: Amount | None = None


class Reach(Enum):
    """Which places a target means, seen from where the hook is."""

    NEXT = "next"
    """The next `count` of them."""
    FIRST = "first"
    """The first `count` of the row."""
    LAST = "last"
    """The last `count` of the row: it ends there."""
    SAME = "same"
    """The place worked last, the one joined into, or the base of the starting chain. The hook does not move on."""
    EACH = "each"
    """Every one that remains, up to `stop`, or to the end."""
    FROM_HOOK = "from hook"
    """The `count`-th chain from the hook: those before it are passed over."""
    TOP_OF_CHAIN = "top of chain"
    """The top of the turning or starting chain, or its `count`-th chain."""
    AROUND_RING = "ring"
    """Into the ring; it takes nothing."""
    ELSEWHERE = "elsewhere"
    """A place out of the line of work: a skipped stitch, a row below, a free loop. `words` tell it."""


class Stop(Struct, frozen=True):
    """Where "each" or a repeat stops: `before` places before the end, a marker or the next thing of a kind.

    at_end: it is the end of the row, otherwise `of`, or a marker by `marker` ("" the next). nth: which marker of the row, counted
    from its beginning, 0 the last; None: the next from where the hook is.
    """

    before: Amount | None
    of: Thing | None
    at_end: bool
    marker: str | None
    at: Stretch
    nth: int | None = None


class Target(Struct, frozen=True):
    """Where a stitch goes. things: what it may be ("each sc and ch-1 sp" is two). every: 2 for "every other".

    around_post: worked around the post. over: the number is what one stitch together takes ("sc2tog over next 2 sts").
    counts: of FROM_HOOK, what the chains passed over count as, in the form of Chain.counts. piece: the piece whose stitches they
    are, where the row names one ("of first sleeve"). bare: named without "next" or "same" ("in corner sp"): it may be the
    place just come to.
    """

    reach: Reach
    things: tuple[Thing, ...]
    count: Amount | None
    at: Stretch
    stop: Stop | None = None
    every: int = 1
    around_post: bool = False
    over: bool = False
    words: str = ""
    counts: tuple[str, ...] | None = None
    piece: str = ""
    bare: bool = False
