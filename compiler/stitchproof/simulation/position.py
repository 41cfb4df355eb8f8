"""A place of a row that a later row can be told to work into."""

from __future__ import annotations

from enum import Enum
from functools import lru_cache

from msgspec import Struct


class Kind(Enum):
    """What a place is."""

    STITCH = "stitch"
    SPACE = "chain space"
    CHAIN = "chain"
    STARTING_CHAIN = "starting chain"
    """A chain that lifts the hook at the start of a row and counts as a stitch."""
    ROW_END = "row-end"

    __hash__ = object.__hash__  # places are looked up all the time, and an enumeration's own hash is written in Python


class Position(Struct, frozen=True):
    """stitch: its id, of a starting chain the stitch it stands for, of a row-end the stitch of that row; "" of a space.

    base: the plain stitch it counts as (hdc for hdc2tog). chains: of a space, how many. group, index, of: the index-th of so
    many places that one group stitch made ("shell"), if any; of a space beside a
    starting chain, of is the number of all its chains.
    """

    kind: Kind
    stitch: str = ""
    base: str = ""
    chains: int = 0
    group: str = ""
    index: int = 0
    of: int = 0

    @property
    def is_stitch(self) -> bool:
        """Whether it counts as a stitch: chains, spaces and row-ends don't."""
        return self.kind in (Kind.STITCH, Kind.STARTING_CHAIN)


GROUP = "group"
"""The name of a group of stitches in one place that the row gives no name."""
CHAIN = Position(Kind.CHAIN, "ch", "ch", 1)


@lru_cache(maxsize=1024)
def stitch(name: str, base: str = "") -> Position:
    """The top of a stitch."""
    return Position(Kind.STITCH, name, base or name)


@lru_cache(maxsize=1024)
def space(chains: int) -> Position:
    """A space under so many chains."""
    return Position(Kind.SPACE, "", "", chains)
