"""Lengths that stand in the text as typed, in centimetres and inches, one beside the other: `145 cm / 57 in`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.checks.parts import Part
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.stretches import NEARBY, before
from stitchproof.checks.typed_vectors import AMOUNT, ENTRY, amount
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.units import CM_PER_INCH

NEAR = Fraction(57, 100)
"""Centimetres: half a step of the printed grid in either unit, 0.25 cm + 0.125 × 2.54 cm, rounded up to hundredths."""
_LENGTHS = rf"{AMOUNT}(?:(?:\s?\((?:{ENTRY}(?:,\s*(?!\))|(?=\))))+\))+|(?:\s?–\s?|\s+to\s+){AMOUNT}|-\d+(?![\d/]))?"
_INCHES = r"(?:inch(?:es)?\b|in\b|″|\")"
_BETWEEN = r"(?:\s*(?P<sign>[/=]|,?\s*\()\s*|\s+(?P<or>or)\s+(?:about\s+)?)"
_FROM = r"(?<![\w.,/½¼¾–×-])(?<!x )(?<!× )"
_PAIRS = tuple(
    LatePattern(
        rf"{_FROM}(?P<{first}>{_LENGTHS})\s?{unit}{_BETWEEN}(?P<{second}>{_LENGTHS})\s?{other}",
        hint=rf"{unit}(?:\s*[/=(,]|\s+or\s)",
    )
    for first, unit, second, other in (("cm", r"cm\b", "inches", _INCHES), ("inches", _INCHES, "cm", r"cm\b"))
)
_WORDS_FOLLOW = LatePattern(
    r"\s+(?:each|every|next|the|same|all|any|this|that|an?|one|both|back|front|pattern|rem|first|last|st|sts|ch|rows?|rnds?)\b"
)
# Lengths of yarn to leave or to cut, and of cables, are rough: 50 cm stands beside 20 in.
_ROUGH = LatePattern(
    r"\b(?:tails?|ends?|strands?|cords?|cable|circular|yarn|hook|needle)\b[^.;]*$",
    re.IGNORECASE,
    ("tail", "end", "strand", "cord", "cable", "circular", "yarn", "hook", "needle"),
)
_ROUGH_AFTER = LatePattern(
    r"[\s-]*(?:long\s+)?(?:yarn\s+)?(?:tails?|ends?|strands?|cords?|cable|circular|hook|needle|of yarn)\b"
)
_AMOUNTS = LatePattern(rf"{AMOUNT}|[–—-](?=\s*[,)])")


class Pair(Struct, frozen=True):
    """Lengths typed in both units, as many in the one as in the other; None where a size is not worked."""

    line: Line
    start: int
    end: int
    cm: tuple[Fraction | None, ...]
    inches: tuple[Fraction | None, ...]

    def untrue(self) -> tuple[tuple[int, Fraction, Fraction], ...]:
        """Where the two differ by more than their printed grid allows: which entry, its cm and its inches."""
        return tuple(
            (index, cm, inches)
            for index, (cm, inches) in enumerate(zip(self.cm, self.inches, strict=True))
            if cm is not None and inches is not None and abs(cm - inches * CM_PER_INCH) > NEAR
        )


def untrue_pairs(part: Part) -> Iterator[Pair]:
    """The pairs of a part that do not say the same."""
    return (pair for line in part.printed for pair in typed_pairs(line) if pair.untrue())


def typed_pairs(line: Line) -> Iterator[Pair]:
    """Every pair of a line; of two that share a length, the one with a sign between its units."""
    text = line.typed
    matches = [match for pattern in _PAIRS for match in pattern.finditer(text)]
    for match in _apart(sorted(matches, key=lambda each: each.start())):
        cm, inches = _lengths(match["cm"]), _lengths(match["inches"])
        if len(cm) == len(inches) and not _is_something_else(match, text):
            yield Pair(line, match.start(), match.end(), cm, inches)


def _apart(matches: list[re.Match[str]]) -> list[re.Match[str]]:
    kept: list[re.Match[str]] = []
    for match in matches:
        if not kept or match.start() >= kept[-1].end():
            kept.append(match)
        elif kept[-1]["or"] and not match["or"]:
            kept[-1] = match
    return kept


def _is_something_else(match: re.Match[str], text: str) -> bool:
    """A rough length, or an "in" that is no inch: "5 cm (4 in each corner)"."""
    after = text[match.end() : match.end() + NEARBY]
    is_a_word = match["sign"] not in ("/", "=") and match[0].endswith("in") and _WORDS_FOLLOW.match(after)
    return bool(is_a_word or _ROUGH.search(before(text, match.start())) or _ROUGH_AFTER.match(after))


def _lengths(text: str) -> tuple[Fraction | None, ...]:
    return tuple(amount(each[0]) for each in _AMOUNTS.finditer(text))
