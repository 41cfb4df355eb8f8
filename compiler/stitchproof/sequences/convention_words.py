"""The conventions that a file tells in words: what chains count as, what "sts" includes, how rounds go on."""

from __future__ import annotations

from msgspec import Struct, field

from stitchproof.late_pattern import LatePattern
from stitchproof.rows.line import line_of_text
from stitchproof.rows.read_row import read_row
from stitchproof.rows.row_tree import RowTree
from stitchproof.rows.row_words import RowWords, StitchWord, name_of
from stitchproof.sequences.nouns import NOWHERE
from stitchproof.sequences.own_groups import group_parts, learn, parts_of
from stitchproof.simulation.counts import Basis
from stitchproof.simulation.ways import Course

ANY_CHAINS = 0
"""Stands for chains of any number where a convention holds for all of them."""

_CHAIN = r"(?:(?:beg|beginning|starting|turning|t)[- ]?)?(?:ch(?:ain)?s?|tch)[- ]?"
_NOT_COUNTED = LatePattern(
    rf"(?i)(?P<chains>(?:{_CHAIN}\d+|\d+[- ]?ch|turning (?:ch|chain)s?|tch|ch(?:ain)?s?)(?:\s*(?:/|or|and|,)\s*{_CHAIN}\d+)*)"
    r"[^;.,]*?\b(?:does not|do not|doesn['’]t|don['’]t|not|never) (?:count|counted)|no (?:turning )?ch(?:ain)?s? (?:is|counts?)"
)
_COUNTED = LatePattern(
    rf"(?i)(?P<chains>(?:{_CHAIN}\d+|\d+[- ]?ch)(?:\s*(?:/|or|and|,)\s*(?:{_CHAIN}\d+|\d+[- ]?ch))*)"
    r"[^;.,]*?\bcounts?(?:ed)?\b(?P<as>[^;.]*)"
)
_FIRST_IS_CHAIN = LatePattern(
    r"(?i)first (?P<stitch>[a-z]+) of (?:a|each|every) (?:round|rnd|row) is (?P<number>\d+) ch"
)
_STACKED = LatePattern(r"(?i)\(\s*1?\s*[a-z]+\s*,\s*(?:\d+\s*ch|ch\s*\d+)\s*\)[^;]*counts? as")
_SPACE_WORTH = LatePattern(r"(?i)ch[- ]?(?:\d+ )?-?\s?sps?[^;.]*?(?:=|counts? as)\s*(?P<number>\d+)\s*sts?")
_SPACES_TOO = LatePattern(
    r"(?i)sps?[^;.]*\b(?:both|also|each)?\b[^;.]*counts? as (?:a |one |1 )?sts?\b|sts? includes? [^;.]*sps?"
)
_ALONE = LatePattern(r"(?i)counted alone|sps?[^;.]*\b(?:excluded|not counted|do(?:es)? not count)")
_GROUP = LatePattern(r"(?i)(?P<name>shell|fan|v-?st|scallop|group|cluster)s?\s*(?:=|:|is)\s*(?P<how>[^;]+)")
_DIGITS = LatePattern(r"\d+")


class Conventions(Struct, frozen=True):
    """What the file says. chain_counts: as in Ways, ANY_CHAINS for all; basis, course: None where it says nothing.

    stacked: a stitch and a chain in the first place stand for one taller stitch.
    """

    chain_counts: dict[tuple[int, str], tuple[str, ...]] = field(default_factory=dict)
    basis: Basis | None = None
    course: Course | None = None
    stacked: bool = False


def read_conventions(text: str, words: RowWords) -> Conventions:
    """The conventions in a text; what is not understood is left, and may be found by trying."""
    counts: dict[tuple[int, str], tuple[str, ...]] = {}
    for match in _FIRST_IS_CHAIN.finditer(text):
        counts[int(match["number"]), ""] = ("st",)
    plain = _STACKED.sub(" ", text)
    for clause in plain.replace("\n", " ").split(";"):
        denied = _NOT_COUNTED.search(clause)
        if denied:
            for chains in _numbers(denied["chains"]):
                counts[chains, ""] = ()
            continue
        for match in _COUNTED.finditer(clause):
            if "sp" in match[0].partition("count")[0]:
                continue
            named = _named(match["as"], words)
            for chains in _numbers(match["chains"]):
                counts[chains, ""] = named
    _learn_groups(text, words)
    return Conventions(counts, _basis(text), _course(text), bool(_STACKED.search(text)))


def _numbers(chains: str | None) -> list[int]:
    return [int(each) for each in _DIGITS.findall(chains or "")] or [ANY_CHAINS]


def _named(words_after: str, words: RowWords) -> tuple[str, ...]:
    """What chains count as: a stitch, and a space where it is said."""
    found: list[str] = []
    for part in words_after.replace("+", " and ").split():
        known = words.find(name_of(part)) if name_of(part) else None
        if isinstance(known, StitchWord) and not found:
            found.append(known.id)
        elif known in ("ch", "chsp", "sp") and found:
            found.append("chsp")
    return tuple(found[:2]) or ("st",)


def _basis(text: str) -> Basis | None:
    if _ALONE.search(text):
        return Basis.STITCHES
    worth = _SPACE_WORTH.search(text)
    if worth and int(worth["number"]) > 1:
        return Basis.AND_CHAINS
    if worth or _SPACES_TOO.search(text):
        return Basis.AND_SPACES
    return None


def _course(text: str) -> Course | None:
    lowered = text.lower()
    if "spiral" in lowered or "continuous round" in lowered:
        return Course.SPIRAL
    if "turned round" in lowered or "turn at the end of every round" in lowered:
        return Course.TURNED
    return Course.JOINED if "joined round" in lowered else None


def _learn_groups(text: str, words: RowWords) -> None:
    for match in _GROUP.finditer(text):
        tree = read_row(line_of_text(match["how"].strip(), (), NOWHERE), words)
        if isinstance(tree, RowTree) and tree.items:
            parts = parts_of(tree.items[0], 1) if len(tree.items) == 1 else group_parts(tree.items, 1)
            if len(parts) > 1:
                learn(match["name"], parts, words)
