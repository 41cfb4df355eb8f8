"""What the words of a row mean: names of stitches in the pattern's terms, its own stitches, and the words of the trade."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from msgspec import Struct

from stitchproof.expressions import expression
from stitchproof.rows.row_tree import Loops
from stitchproof.rows.trade_words import trade_words
from stitchproof.stitches.facts import StitchFacts
from stitchproof.stitches.stitch_names import Name, facts_of, names_of_stitches

_TOGETHER = expression(r"(?P<base>[^\W\d_]+)(?P<number>[1-9]\d?)tog")
_RAW_WORD = expression(r"[^\W\d_]+\d+tog|[^\W\d_]+|\d+")
LOOPS = {"blo": Loops.BACK, "flo": Loops.FRONT, "both": Loops.BOTH, "third": Loops.THIRD}
_GLUED_LOOPS = {"blo": Loops.BACK, "flo": Loops.FRONT, "bl": Loops.BACK, "fl": Loops.FRONT}


@cache
def _longest(terms: str) -> dict[str, int]:
    """How many words the longest phrase has that begins with a word."""
    found: dict[str, int] = {}
    for name in (*names_of_stitches(terms), *trade_words()):
        found[name[0]] = max(len(name), found.get(name[0], 1))
    return found


class StitchWord(Struct, frozen=True):
    """A stitch as a word names it, with the loops that the word says."""

    id: str
    loops: Loops | None = None


class RowWords:
    """Looks the words of a row up, in US or UK terms. own: the pattern's stitches by their abbreviations, which come first."""

    def __init__(self, terms: str, own: Iterable[tuple[str, StitchFacts]] = ()) -> None:
        self.stitches = names_of_stitches(terms)
        self.lengths = dict(_longest(terms))
        self.facts: dict[str, StitchFacts] = {}
        self.own: dict[Name, str] = {}
        for abbreviation, facts in own:
            self.add(abbreviation, facts)

    def add(self, name: str, facts: StitchFacts) -> None:
        """A stitch of the pattern's own."""
        own = name_of(name)
        self.own[own] = facts.id
        self.lengths[own[0]] = max(len(own), self.longest(own[0]))
        self.facts[facts.id] = facts

    def longest(self, first: str) -> int:
        """How many words a phrase that begins with this one may have; 1 where none does."""
        return self.lengths.get(first, 1)

    def find(self, name: Name, capital: bool = False) -> StitchWord | str | None:
        """The stitch, or the trade's word, that a phrase is; None for one that is neither."""
        stitch = self.own.get(name) or self.stitches.get(name)
        if stitch is not None:
            return StitchWord(stitch)
        word = trade_words().get(name)
        if word is not None or len(name) > 1:
            return word
        return self._compound(name[0])

    def _compound(self, word: str) -> StitchWord | None:
        """sc2tog and, in one word, scblo, BLsc, scinc's stitch."""
        match = _TOGETHER.fullmatch(word)
        if match:
            return self.together(self._id(match["base"]) or "", match["number"])
        for letters, loops in _GLUED_LOOPS.items():
            for rest in (word.removesuffix(letters), word.removeprefix(letters)):
                if rest != word and self._id(rest):
                    return StitchWord(self._id(rest) or "", loops)
        return None

    def _id(self, word: str) -> str | None:
        return self.own.get((word,)) or self.stitches.get((word,))

    def together(self, stitch: str, number: str) -> StitchWord | None:
        """So many of a stitch worked together; None for a stitch that is not shipped."""
        facts = facts_of(f"{stitch}{number}tog") if stitch else None
        return StitchWord(facts.id) if facts else None

    def facts_of(self, stitch: str) -> StitchFacts | None:
        """What a stitch does to a row."""
        return self.facts.get(stitch) or facts_of(stitch)


def name_of(text: str) -> Name:
    """A name as the reader cuts it: "sc-blo" is the words sc and blo."""
    return tuple(match[0].lower() for match in _RAW_WORD.finditer(text))
