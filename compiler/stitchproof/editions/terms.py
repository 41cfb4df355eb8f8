"""A Document in the other terms: US words as UK ones, or UK words as US ones, each one to one and all in one pass.

sc by dc and then dc by tr would turn every sc into tr; so a text is gone through once, and never twice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import chain

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.walk import with_inlines
from stitchproof.expansion.document import Document, Inline, Text, Word, blocks_of, inlines_of
from stitchproof.standards.terms import TermPair, certain_signs, stitch_pairs, word_pairs
from stitchproof.stitches.lexicon import lexicon_for
from stitchproof.stitches.stitch_names import short_names

OTHER = {"US": "UK", "UK": "US"}
SURE_WORDS = {"skip", "miss", "gauge", "tension", "yarn over", "yarn round hook", "color", "colour"}
"""Words that mean nothing else in a pattern. The others that differ (sweater and jumper, vest and waistcoat) are reported."""
INFLECTED = {("skip", "miss"): {"skips": "misses", "skipped": "missed", "skipping": "missing"}}
UNKNOWN_TERMS = "US"


class Turned(Struct, frozen=True):
    """A Document in other terms. left: words of the old terms that stand there still, each with what it would be (or "")."""

    document: Document
    left: tuple[tuple[str, str], ...]


def in_terms(document: Document, terms: str) -> Turned:
    """The Document in "US" or "UK" terms; as it is where it has these already. Step identities stay."""
    written = document.title_block.terms.upper() or UNKNOWN_TERMS
    if written == terms or written not in OTHER:
        return Turned(document, ())
    turner = _Turner(written, terms)
    turned = with_inlines(document, turner.inline)
    title = replace(turned.title_block, terms=terms)
    front = tuple(replace(section, title=turner.text(section.title)) for section in turned.front)
    turned = replace(turned, title_block=title, front=front)
    return Turned(turned, tuple(dict.fromkeys(_left(turned, written, terms))))


class _Turner:
    def __init__(self, written: str, terms: str) -> None:
        self.old, self.new = lexicon_for(written, ()), lexicon_for(terms, ())
        self.names = _names(written, terms)
        self.shorts = _shorts(written, terms)
        self.own_name = f"{written} terms", f"{terms} terms"
        longest_first = sorted(self.names, key=len, reverse=True)
        long_names = "|".join(re.escape(name).replace(r"\ ", r"\s+") for name in longest_first)
        self.pattern = re.compile(
            rf"\b(?P<name>{long_names})(?P<plural>s?)\b|\b(?P<short>[A-Za-z]+?)(?P<together>\d+tog)?(?P<blo>blo|flo)?\b",
            re.IGNORECASE,
        )

    def inline(self, inline: Inline) -> Inline:
        match inline:
            case Text(text=text):
                turned = self.text(text)
                return inline if turned == text else Text(turned, inline.place)
            case Word(entry=key, as_written=written):
                return Word(key, self.word(key, written), inline.place)
            case _:
                return inline

    def word(self, key: str, written: str) -> str:
        """A word of the lexicon by its other name; a stitch of the pattern's own as any text."""
        old, new = self.old.entries.get(key), self.new.entries.get(key)
        if old is None or new is None:
            return self.text(written)
        return written if old.abbreviation == new.abbreviation else _like(written, new.abbreviation)

    def text(self, text: str) -> str:
        return self.pattern.sub(self._turned, text).replace(*self.own_name)

    def _turned(self, match: re.Match[str]) -> str:
        if match["name"]:
            new = self.names[" ".join(match["name"].lower().split())]
            return _like(match[0], new) + match["plural"]
        new = self.shorts.get(match["short"].lower(), "")
        return _like(match[0], new) + (match["together"] or "") + (match["blo"] or "") if new else match[0]


@cache
def _names(written: str, terms: str) -> dict[str, str]:
    """Names in full, in small letters, and what they are in the other terms."""
    found: dict[str, str] = {"sl st": "ss", "sl sts": "ss"} if terms == "UK" else {"ss": "sl st"}
    for pair in stitch_pairs():
        old, new = pair.in_terms(written).name, pair.in_terms(terms).name
        if "together" not in old and "post" not in old:
            found[old] = new
            found.setdefault(old.removesuffix(" crochet"), new.removesuffix(" crochet"))
    for pair in word_pairs():
        old, new = pair.in_terms(written).name, pair.in_terms(terms).name
        if old in SURE_WORDS:
            found[old] = new
    for (us, uk), forms in INFLECTED.items():
        if (us if written == "US" else uk) in found:
            found.update(forms if written == "US" else {new: old for old, new in forms.items()})
    # Alone, "double" and "treble" may be plain English: twice as much, three times.
    return {old: new for old, new in found.items() if old != new and old not in ("double", "treble", "single")}


@cache
def _shorts(written: str, terms: str) -> dict[str, str]:
    """Abbreviations in small letters, with what they are in the other terms."""
    old, new = short_names(written), short_names(terms)
    found = {short.lower(): new[id_] for id_, short in old.items() if new[id_] != short and " " not in short}
    for key, entry in lexicon_for(written, ()).entries.items():
        other = lexicon_for(terms, ()).entries[key]
        if entry.abbreviation != other.abbreviation and entry.abbreviation.isalpha():
            found[entry.abbreviation.lower()] = other.abbreviation
    return found


def _like(written: str, word: str) -> str:
    """A word with capitals as another has them: the first letter, or all of a word that is written in small letters."""
    if written[:1].isupper() and not word[:1].isupper():
        return word[:1].upper() + word[1:]
    return word.lower() if written.islower() else word


def _left(document: Document, written: str, terms: str) -> Iterator[tuple[str, str]]:
    """Words of the old terms that the turned text still has."""
    signs = {sign.word: "" for sign in certain_signs(written) if sign.word not in ("miss", "skip")}
    pairs = {spelling: pair.in_terms(terms).name for pair in word_pairs() for spelling in _own(pair, written, terms)}
    wanted = {**signs, **pairs}
    pattern = re.compile(
        rf"(?<![\w-])(?:{'|'.join(map(re.escape, sorted(wanted, key=len, reverse=True)))})(?!\w)", re.I
    )
    for text in _texts(document):
        for match in pattern.finditer(text):
            word = match[0].lower()
            yield word, wanted[word]


def _own(pair: TermPair, written: str, terms: str) -> Iterable[str]:
    """The name that only the old terms have."""
    old, new = pair.in_terms(written), pair.in_terms(terms)
    return {old.name.lower()} - {spelling.lower() for spelling in new.spellings}


def _texts(document: Document) -> Iterator[str]:
    yield document.title_block.title
    summary = "".join(inline.text for inline in document.title_block.summary if isinstance(inline, Text))
    yield summary
    for block in blocks_of(document):
        yield from (inline.text for inline in inlines_of(block) if isinstance(inline, Text))
    yield from (section.title for section in chain(document.front, document.finishing, document.back))
