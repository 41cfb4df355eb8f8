"""Numbers that the text gives for what a count is named for: "12 underarm sts", "until 30 body rnds are complete"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import PART_END, Kind, Line
from stitchproof.checks.typed_vectors import AMOUNT, TypedVector, amount, typed_vectors
from stitchproof.checks.wording import sentence
from stitchproof.expansion.document import Number, Passage, blocks_of, inlines_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.dimension import PLAIN, ROWS, STITCHES
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.sizing.sized_pattern import Quantity

_UNITS = {"sts": r"(?:sts?|stitch(?:es)?)", "rows": r"rows?", "rnds": r"(?:rnds?|rounds?)", "ribs": r"ribs?"}
_ENDINGS = {"st", "sts", "stitches", "row", "rows", "rnd", "rnds", "rounds", "rib", "ribs", "count", "total"}
# A number for a part of the thing, or for a change of it, is another number.
_A_PART = LatePattern(
    r"\b(?:next|first|last|inc\w*|dec\w*|more|other|half|either|before|after|each\s+of|rem\w*|every|even|about|only)\b",
    re.IGNORECASE,
)
# Stitches are all meant where they are left, held or sewn, and in the count that closes a row; not where some are worked into.
_ALL_OF_THEM = LatePattern(
    r"^\s*$|\b(?:sew\w*|graft\w*|seam\w*|leav\w+|skip\w*|sk|miss|hold\w*|slip|put|place|join\w*|there\s+are)\b",
    re.IGNORECASE,
)
_EACH_SIDE = LatePattern(r"\b(?:(?:on\s+)?(?:each|either)\s+side|more|rem\w*|left)\b", re.IGNORECASE)
_IN_ALL = r"(?=\s+(?:are\s+(?:complete|done|worked)|in\s+all|have\s+been\s+worked)\b)"
Where = tuple[str, int, int, int]
"""The first token of a line, and a place in the line."""
_VECTOR_END = r"(?:\s?[(\[][^()\[\]]*[)\]])*"
_ANY = LatePattern(rf"\d[)\]]?\s+(?:[^\W\d][\w-]*\s+){{0,3}}(?:{'|'.join(_UNITS.values())})\b", re.IGNORECASE)


class Said(Struct, frozen=True):
    """A number that the text gives for a named count. values: one per size, or the same in all. is_list: typed size by size."""

    quantity: Quantity
    values: PerSize
    is_list: bool
    line: Line
    start: int
    end: int

    def wrong_in(self) -> tuple[int, ...]:
        """The sizes in which it is not the named count."""
        pairs = enumerate(zip(self.values, self.quantity.values, strict=True))
        return tuple(size for size, (said, known) in pairs if Absent.UNKNOWN not in (said, known) and said != known)


def things_said(expanded: ExpandedPattern) -> Iterator[Said]:
    """Every number typed for a count that has a name; parts for some sizes only are left out, their numbers are not for all."""
    lines = [(line, line.typed) for line in _lines_for_all_sizes(expanded)]
    lines = [(line, text) for line, text in lines if _ANY.search(text, line.label_end)]
    things = list(_things(expanded)) if lines else []
    lists = {where(each.line, each.start): each for each in typed_vectors(expanded)} if things else {}
    for line, text in lines:
        for quantity, pattern in things:
            for match in pattern.finditer(text):
                begin, end = sentence(text, *match.span())
                of_rows = quantity.kind.dimension == ROWS
                if not of_rows and not _ALL_OF_THEM.search(text[begin : match.start()]):
                    continue
                if _A_PART.search(text, begin, match.start()) or _EACH_SIDE.search(text, match.end(), end):
                    continue
                said = _said(expanded, quantity, line, match, lists)
                if said is not None:
                    yield said


def _things(expanded: ExpandedPattern) -> Iterator[tuple[Quantity, LatePattern]]:
    """The counts whose name tells what they count, with how a text would give their number. Two of one name are left out."""
    found: dict[tuple[str, str], list[Quantity]] = {}
    for quantity in expanded.sized.quantities:
        unit = quantity.kind.noun or {STITCHES: "sts", ROWS: "rows"}.get(quantity.kind.dimension, "")
        is_count = quantity.kind.dimension in (STITCHES, ROWS) or (quantity.kind.dimension == PLAIN and unit == "ribs")
        words = [word for word in re.split(r"[._]", quantity.name) if word not in _ENDINGS]
        if quantity.section == "counts" and quantity.values and is_count and unit in _UNITS and words:
            found.setdefault((" ".join(words), unit), []).append(quantity)
    for (thing, unit), quantities in found.items():
        if len(quantities) == 1:
            yield quantities[0], _phrase(thing, _UNITS[unit], unit)


def _phrase(words: str, noun: str, unit: str) -> LatePattern:
    thing = words.replace(" ", r"[\s-]+")
    number = rf"(?<![\w.,–-])(?P<number>{AMOUNT}){_VECTOR_END}\s+"
    if unit in ("rows", "rnds"):
        return LatePattern(rf"{number}{thing}\s+{noun}\b{_IN_ALL}", re.IGNORECASE)
    at = rf"{noun}\s+(?:at|of|for)\s+(?:(?:each|the|every|both)\s+)?{thing}s?\b"
    return LatePattern(rf"{number}(?:{thing}\s+{noun}\b|{at})", re.IGNORECASE)


def where(line: Line, at: int) -> Where:
    """A place of a line that another reading of the same line finds again."""
    return (*line.tokens[0][1].place.span.order, at)


def _lines_for_all_sizes(expanded: ExpandedPattern) -> Iterator[Line]:
    for_some = {
        inline.place.span.order
        for block in blocks_of(expanded.document)
        if isinstance(block, Passage)
        for inline in inlines_of(block)
        if hasattr(inline, "place")
    }
    sizes = len(expanded.sized.sizes)
    for line in lines_of(expanded.document):
        serves_all = all(len(token.served) == sizes for _, token in line.tokens if isinstance(token, Number))
        in_passage = line.tokens[0][1].place.span.order in for_some
        if (
            line.kind in (Kind.STEP, Kind.FINISHING, Kind.NOTE)
            and serves_all
            and not in_passage
            and PART_END not in line.text
        ):
            yield line


def _said(
    expanded: ExpandedPattern,
    quantity: Quantity,
    line: Line,
    match: re.Match[str],
    lists: dict[Where, TypedVector],
) -> Said | None:
    sizes = len(expanded.sized.sizes)
    start = match.start("number")
    vector = lists.get(where(line, start))
    if vector is not None:
        if len(vector.entries) != sizes:  # reported
            return None
        values: tuple[Value, ...] = tuple(_entry(entry) for entry in vector.entries)
        return Said(quantity, values, True, line, start, vector.end)
    number = amount(match["number"])
    return None if number is None else Said(quantity, (number,) * sizes, False, line, start, match.end("number"))


def _entry(entry: str) -> Value:
    value = {"once": Fraction(1), "twice": Fraction(2)}.get(entry) or amount(entry)
    return Absent.NOT_WORKED if value is None else value
