"""Which size a name or number means."""

from __future__ import annotations


def size_index(words: str, names: tuple[str, ...], by_number: bool) -> int | None:
    """The index of the size that words name: its name, in any case, or its number where the text calls sizes by number."""
    if words in names:
        return names.index(words)
    if by_number and words.isdecimal() and words.isascii() and 1 <= int(words) <= len(names):
        return int(words) - 1
    folded = [name.casefold() for name in names]
    return folded.index(words.casefold()) if words.casefold() in folded else None
