"""Parts of a page as they were made last, for a page that is made again and again and changes little."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

Made = TypeVar("Made")


class KeptParts:
    """What was made, by all that it was made from. What one page does not use is let go with the next, so that no more than two
    pages are held."""

    def __init__(self) -> None:
        self.before: dict[Hashable, Any] = {}
        self.now: dict[Hashable, Any] = {}
        self.circumstances: object = None

    def begin(self, circumstances: object) -> None:
        """Begin a page. circumstances: what else every part is made from; where that is another one, nothing is kept."""
        self.before = self.now if circumstances == self.circumstances else {}
        self.now = {}
        self.circumstances = circumstances

    def get(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """The part of a key, made now if it was not before. key: all that it is made from besides the circumstances."""
        found = self.now.get(key)
        if found is None:
            found = self.before.get(key)
            if found is None:
                found = make()
            self.now[key] = found
        made: Made = found
        return made

    def get_of(self, things: tuple[object, ...], key: Hashable, make: Callable[[], Made]) -> Made:
        """The same for what is made of some objects, told by being those objects and not by what they are: to compare them may
        cost as much as to make the part."""
        of = (*map(id, things), key)
        held = self.now.get(of) or self.before.get(of)
        if held is None or any(one is not other for one, other in zip(held[0], things, strict=True)):
            held = things, make()
        self.now[of] = held
        made: Made = held[1]
        return made
