"""What working a stitch does to a row."""

from __future__ import annotations

from msgspec import Struct


class StitchFacts(Struct, frozen=True):
    """takes: places of the row below that one of it uses up. makes: places it leaves. base: the plain stitch it counts as.

    foundation: it makes its own chain and takes nothing. post: worked around the post. height: chains that reach its height.
    parts: of a group worked into one place, what it leaves in order: stitch ids, and "chsp1" for a space of one chain.
    """

    id: str
    takes: int = 1
    makes: int = 1
    base: str = ""
    foundation: bool = False
    post: bool = False
    height: int = 1
    parts: tuple[str, ...] = ()
