"""Where the text mentions a word: one report for all the places of one word, the first of them leading."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator

from msgspec import Struct

from stitchproof.checks.parts import Part
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.stitch_shapes import WORD
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import Page
from stitchproof.reading.pattern_source import Words
from stitchproof.source import Place, Span

SHOWN = 4
"""Further places shown beside the first."""

FIRST_WORDS = 5
"""How many words name a line that has no label."""


class Mention(Struct, frozen=True):
    """A word as written, where it stands, and how a maker would say that: "Row 2 of brim"."""

    word: str
    place: Place
    piece: str
    row: str
    where: str


def mention(line: Line, start: int, end: int) -> Mention:
    """A stretch of a line."""
    return Mention(line.text[start:end], line.place(start, end), line.piece, line.row, _where(line))


def mention_in_words(words: Words, match: re.Match[str], where: str) -> Mention:
    """A match in a text value of pattern.yaml."""
    return Mention(match[0], Place(part_of(words.span, match)), "", "", where)


def part_of(span: Span, match: re.Match[str]) -> Span:
    """Where a match in a value of pattern.yaml stands; the whole value where it is folded and does not read so."""
    part = span.part(match.start(), match.end())
    if part.text == match[0] and part.end <= span.end:
        return part
    found = span.text.find(match[0])
    return span.part(found, found + len(match[0])) if found >= 0 else span


def unread_words(part: Part) -> Iterator[tuple[Line, re.Match[str]]]:
    """The words of a part that are none of the trade's."""
    return ((line, match) for line in part.lines for match in _unread(line))


def _unread(line: Line) -> Iterator[re.Match[str]]:
    held = sorted((at, at + len(word.as_written)) for at, word in line.words())
    starts = [start for start, _ in held]
    for match in WORD.finditer(line.text):
        # Words do not overlap, so only the last one that begins before the match ends can touch it.
        before = bisect_left(starts, match.end()) - 1
        if before < 0 or held[before][1] <= match.start():
            yield match


def only_places(mentions: Iterable[Mention]) -> list[Mention]:
    """Each place of the source once, however often a loop passes it."""
    return list({each.place.span.order: each for each in reversed(list(mentions))}.values())[::-1]


def one_report(
    page: Page, headline: str, mentions: list[Mention], label: str = "", help_texts: tuple[str, ...] = ()
) -> Diagnostic:
    """One report of all the places of a word."""
    first, *others = mentions
    related = tuple(Excerpt(each.place.span, f"also in {each.where}") for each in others[:SHOWN])
    return Diagnostic(
        page,
        headline,
        Excerpt(first.place.span, label),
        piece=first.piece,
        row=first.row,
        related=(*related, *used_from(first.place)),
        help=help_texts,
    )


def _where(line: Line) -> str:
    of_piece = f" of {line.piece}" if line.piece else ""
    if line.row and line.label_end == 0:
        first = " ".join(line.as_written(0, len(line.text)).split()[:FIRST_WORDS])
        return f"“{first} …”{of_piece}"
    if line.row:
        return f"{line.row.removeprefix(f'{line.piece}/').split('/')[0]}{of_piece}"
    if line.kind is Kind.FRONT:
        return "the front of the pattern"
    return {Kind.HEADING: "a heading", Kind.NOTE: "a note"}.get(line.kind, "the text") + of_piece
