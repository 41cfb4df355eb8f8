"""The nearest known name to one that is not known."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str:
    """The known name that looks most like a word; "" where none is near."""
    from difflib import get_close_matches  # only a report of an unknown name needs it

    found = get_close_matches(word, sorted(set(known)), n=1, cutoff=0.6)
    return found[0] if found else ""
