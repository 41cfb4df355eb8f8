"""US and UK terms side by side, and the words that tell them apart.

Source: Craft Yarn Council, term differences between the U.S., U.K. and Canada. `dc`, `tr` and `dtr` alone prove nothing: they
are different stitches in the two.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Memory, read_keys, read_memory


class Term(Struct, frozen=True):
    """A name in one of the two; abbreviation "" where it has none; also: other names and abbreviations."""

    name: str
    abbreviation: str
    also: tuple[str, ...]

    @property
    def spellings(self) -> tuple[str, ...]:
        """All the ways to write it."""
        return tuple(filter(None, (self.abbreviation, self.name, *self.also)))


class TermPair(Struct, frozen=True):
    """One thing in both terms. key: the stitch's neutral key, "" for a word that is no stitch."""

    key: str
    us: Term
    uk: Term
    source: str
    memory: Memory

    def in_terms(self, terms: str) -> Term:
        """The name in "US" or "UK" terms."""
        return self.uk if terms == "UK" else self.us


class CertainSign(Struct, frozen=True):
    """A word that only one of the two has, so that it decides which terms a text is in. caveat: when it does not, or ""."""

    word: str
    terms: str
    caveat: str


@cache
def stitch_pairs() -> tuple[TermPair, ...]:
    """The stitches in both terms."""
    return tuple(_pair(row) for row in _data()["stitches"])


@cache
def word_pairs() -> tuple[TermPair, ...]:
    """The other words of the trade that differ, or might be thought to."""
    return tuple(_pair(row) for row in _data()["words"])


@cache
def certain_signs(terms: str) -> tuple[CertainSign, ...]:
    """The words that only "US" or only "UK" terms have."""
    signs = _data()["certain_signs"]
    return tuple(CertainSign(word, terms, signs["caveats"].get(word, "")) for word in signs[terms.lower()])


def sign_of(word: str) -> CertainSign | None:
    """What a word proves; None where it proves nothing. Capitals and the number of blanks do not matter."""
    wanted = " ".join(word.split()).casefold()
    return next((sign for terms in ("US", "UK") for sign in certain_signs(terms) if sign.word == wanted), None)


@cache
def ambiguous_words() -> tuple[str, ...]:
    """Abbreviations that are different stitches in the two."""
    return read_keys(_data(), "ambiguous")


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("terms.yaml"))


def _pair(row: dict[str, Any]) -> TermPair:
    us, uk = (Term(row[name], row.get(f"{name}_abbr") or "", read_keys(row, f"{name}_also")) for name in ("us", "uk"))
    return TermPair(row.get("id", ""), us, uk, str(_data()["source"]), read_memory(row))
