"""The lexicon, and a pattern's own stitches added to it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.expressions import expression
from stitchproof.shipped_data import read_shipped


class Entry(Struct, frozen=True):
    """One word of the trade in the terms of a pattern: its abbreviation, what it means, and how else it is spelt.

    exact: its capitals matter (RS is the right side, rs is not). special: defined by the pattern itself.
    """

    key: str
    abbreviation: str
    meaning: str
    plural: str
    spellings: tuple[str, ...]
    exact: bool = False
    special: bool = False


class Lexicon:
    """The words a pattern may use, in its own terms."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self.entries: dict[str, Entry] = {}
        by_spelling: dict[str, Entry] = {}
        for entry in entries:
            self.entries[entry.key] = entry
            for spelling in entry.spellings:
                by_spelling[spelling if entry.exact else spelling.lower()] = entry
        self._by_spelling = by_spelling
        longest_first = sorted(by_spelling, key=len, reverse=True)
        words = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in longest_first)
        # A hyphen binds a word (sc-blo is not sc), except before a number: ch-1 is a chain.
        self.pattern = expression(rf"(?<![\w-])(?:{words})(?!\w|-(?!\d))", re.IGNORECASE)

    @cached_property
    def spellings(self) -> frozenset[str]:
        """Every spelling of every word, in small letters."""
        return frozenset(spelling.lower() for entry in self.entries.values() for spelling in entry.spellings)

    def entry_of(self, written: str) -> Entry | None:
        """The entry that a word as written stands for."""
        spelling = " ".join(written.split())
        return self._by_spelling.get(spelling) or self._folded(spelling)

    def _folded(self, spelling: str) -> Entry | None:
        entry = self._by_spelling.get(spelling.lower())
        return entry if entry and not entry.exact else None


@cache
def _shipped() -> tuple[dict[str, Any], ...]:
    return tuple(read_shipped(Path(__file__).with_name("lexicon.yaml"))["entries"])


def lexicon_for(terms: str, special: Iterable[tuple[str, str]]) -> Lexicon:
    """The lexicon in US or UK terms. special: (abbreviation, meaning) of the pattern's own stitches, which come first."""
    entries = [_entry(row, terms) for row in _shipped()]
    own = [
        Entry(abbreviation, abbreviation, meaning, "", (" ".join(abbreviation.split()),), special=True)
        for abbreviation, meaning in special
        if abbreviation.strip()
    ]
    taken = {spelling.lower() for entry in own for spelling in entry.spellings}
    return Lexicon([*(_without(entry, taken) for entry in entries), *own])


def _without(entry: Entry, taken: set[str]) -> Entry:
    """A word without the spellings that the pattern gives a meaning of its own."""
    return replace(entry, spellings=tuple(spelling for spelling in entry.spellings if spelling.lower() not in taken))


def _entry(row: dict[str, Any], terms: str) -> Entry:
    abbreviation, meaning = row.get("uk", row["us"]) if terms == "UK" else row["us"]
    plural = str(row.get("plural", "")) if abbreviation == row["us"][0] else ""
    spellings = (str(abbreviation), *([plural] if plural else []), *map(str, row.get("also", ())))
    unique = tuple(dict.fromkeys(spellings))
    return Entry(str(row["id"]), str(abbreviation), str(meaning), plural, unique, bool(row.get("exact", False)))
