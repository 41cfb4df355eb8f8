"""Stretches of lines: the typed words around a slot, and where a typed stretch stands in the source."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.line_places import words_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.diagnostics.diagnostic import Excerpt, used_from
from stitchproof.expansion.document import Number
from stitchproof.source import Span

NEARBY = 80
"""Characters: as far as the rules look to either side of a number."""


def numbers_of(line: Line) -> Iterator[tuple[int, Number, str, str]]:
    """Every slot of a line: where it stands, and the typed words next before and after it."""
    for at, number in line.tokens:
        if not isinstance(number, Number):
            continue
        end = at + len(words_of(number))
        yield at, number, before(line.typed, at), line.typed[end : end + NEARBY]


def before(text: str, start: int) -> str:
    """The words next before a place of a text."""
    return text[max(start - NEARBY, 0) : start]


def excerpt(line: Line, start: int, end: int, label: str) -> Excerpt:
    """Where a typed stretch stands. Prose is placed by the line its block begins on, so the stretch is looked for from there."""
    span, written = line.place(start, end).span, line.text[start:end]
    if span.text == written:
        return Excerpt(span, label)
    block_end = span.file.text.find("\n\n", span.end)
    block = Span(span.file, span.start, block_end if block_end >= 0 else len(span.file.text))
    found = re.search(r"\s+".join(re.escape(word) for word in written.split()), block.text)
    return Excerpt(block.part(found.start(), found.end()) if found else span, label)


def calls_to(line: Line, start: int) -> tuple[Excerpt, ...]:
    """The calls through which a place of a line came to be used."""
    return used_from(line.place(start, start + 1))
