"""Sized numbers that stand in the text as typed, `12 (14, 16, 18)`, instead of being printed by a slot."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.checks.parts import Part, found_in, printed_parts
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.stretches import NEARBY, before
from stitchproof.expansion.document import SizeList
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

AMOUNT = r"(?:\d+(?:\.\d+)?(?:\s?[½¼¾⅛⅜⅝⅞]|\s\d/\d)?|[½¼¾⅛⅜⅝⅞])"
"""A number as makers type it: 12, 7.5, 33½, 33 1/2."""
ENTRY = rf"(?:{AMOUNT}|[–—-]|once|twice)"
"""What may stand in the place of a size; a dash where it is not worked."""
_BEGINS = r"(?:[\d½¼¾⅛⅜⅝⅞–—-]|once|twice)"
"""Where an entry begins, or how it ends."""
_ROUND = rf"\(\s*{ENTRY}(?:\s*,\s*{ENTRY})*\s*\)"
_SQUARE = rf"\[\s*{ENTRY}(?:\s*[,:]\s*{ENTRY})+\s*\]"
_VECTOR = LatePattern(
    rf"(?<![\w.,/½¼¾–-])(?P<first>{ENTRY})\s?(?P<brackets>{_ROUND}(?:\s?{_ROUND})*|{_SQUARE})(?![\w½¼¾])",
    hint=rf"{_BEGINS}\s?[(\[]\s*{_BEGINS}",
)
_FRACTIONS = {sign: Fraction(eighths, 8) for sign, eighths in zip("⅛¼⅜½⅝¾⅞", range(1, 8), strict=True)}
_ENTRY = LatePattern(ENTRY)
_COUNTED = LatePattern(
    r"\s*(?:more\s+)?(?:sts?|stitches|rows?|rnds?|rounds?|times|chs?|chains|ribs|cm|in|g|balls|skeins)\b"
)
_NUMBERED = LatePattern(
    r"\b(?:rows?|rnds?|rounds?|notes?|pages?|steps?|fig(?:ure)?s?|charts?|sizes?|no|nos)\.?\s*$", re.IGNORECASE
)
_SIZES = LatePattern(r"\bsizes?\s*$|\border\s*$", re.IGNORECASE)
_MIXED = LatePattern(r"(?P<whole>\d+(?:\.\d+)?)?\s?(?P<part>[½¼¾⅛⅜⅝⅞]|\d/[1-9])?")


class TypedVector(Struct, frozen=True):
    """A sized number as typed. groups: how many numbers stand in each bracket after the first."""

    line: Line
    start: int
    end: int
    entries: tuple[str, ...]
    groups: tuple[int, ...]
    square: bool

    @property
    def text(self) -> str:
        return self.line.text[self.start : self.end]


def typed_vectors(expanded: ExpandedPattern) -> Iterator[TypedVector]:
    """Every sized number typed by hand, wherever it is printed."""
    return found_in(printed_parts(expanded), _vectors, expanded.document.sizes)


def _vectors(part: Part, sizes: SizeList) -> Iterator[TypedVector]:
    for line in part.printed:
        for match in _VECTOR.finditer(line.typed):
            vector = _vector(line, match)
            if not _is_something_else(vector, sizes):
                yield vector


def amount(entry: str) -> Fraction | None:
    """The number that an entry is: of "33½" or "33 1/2" 33.5; None for a dash or a word."""
    match = _MIXED.fullmatch(entry)
    if not match or not entry:
        return None
    part = match["part"] or "0"
    return Fraction(match["whole"] or 0) + (_FRACTIONS[part] if part in _FRACTIONS else Fraction(part))


def bracket_lengths(sizes: SizeList) -> tuple[int, ...]:
    """How many sizes the pattern sets into each bracket after the first size."""
    lengths, left = [], len(sizes.names) - 1
    for wanted in (*sizes.groups, left):
        if left > 0:
            lengths.append(min(wanted, left))
            left -= lengths[-1]
    return tuple(lengths)


def _vector(line: Line, match: re.Match[str]) -> TypedVector:
    brackets = re.findall(r"[(\[][^)\]]*[)\]]", match["brackets"])
    inside = [_ENTRY.findall(bracket) for bracket in brackets]
    entries = (match["first"], *(entry for each in inside for entry in each))
    square = match["brackets"].startswith("[")
    return TypedVector(line, match.start(), match.end(), entries, tuple(len(each) for each in inside), square)


def _is_something_else(vector: TypedVector, sizes: SizeList) -> bool:
    """A number and a remark in brackets, or the sizes themselves in their order."""
    words, after = before(vector.line.text, vector.start), vector.line.text[vector.end : vector.end + NEARBY]
    called = tuple(sizes.called(index) for index in range(len(sizes.names)))
    if _SIZES.search(words) and vector.entries in (called, sizes.names):
        return True
    if len(vector.entries) > 2:
        return False
    return _NUMBERED.search(words) is not None or (len(sizes.names) != 2 and not _COUNTED.match(after))
