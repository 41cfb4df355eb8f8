"""Reads which sizes a passage names: `S`, `S and M`, `S, M and XL`, `S to L`, or their numbers."""

from __future__ import annotations

import re

from stitchproof.expansion.document import Served


def sizes_named(words: str, names: tuple[str, ...], by_number: bool) -> Served | None:
    """The indexes of the sizes named, in the pattern's order; None where a word names no size."""
    found: set[int] = set()
    for item in re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", words.strip()):
        ends = re.split(r"\s+to\s+|\s*–\s*", item)
        indexes = [_index(end.strip(), names, by_number) for end in ends]
        if len(indexes) > 2 or any(index is None for index in indexes):
            return None
        first, last = indexes[0] or 0, indexes[-1] or 0
        if first > last:
            return None
        found.update(range(first, last + 1))
    return tuple(sorted(found))


def _index(word: str, names: tuple[str, ...], by_number: bool) -> int | None:
    if word in names:
        return names.index(word)
    if by_number and word.isdecimal() and 1 <= int(word) <= len(names):
        return int(word) - 1
    folded = [name.casefold() for name in names]
    return folded.index(word.casefold()) if word.casefold() in folded else None
