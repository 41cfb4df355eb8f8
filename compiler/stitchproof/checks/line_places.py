"""Where a part of a word, a slot or a paragraph stands in the source."""

from __future__ import annotations

import re

from stitchproof.expansion.document import Number, Text, Token, Word
from stitchproof.formulas.slot import PrintAs
from stitchproof.late_pattern import LatePattern
from stitchproof.source import Span

LONGEST = 4000
"""How far into a paragraph words are looked for, in characters."""


def words_of(token: Token) -> str:
    """A token as text, a slot as the digit 0."""
    match token:
        case Text():
            return token.text
        case Word():
            return token.as_written
        case Number():
            return "0 times" if token.print_as is PrintAs.TIMES else "0"


def written_as(token: Token, start: int, end: int) -> str:
    """A part of a token in the designer's own writing; a slot is taken whole."""
    words = words_of(token)
    if isinstance(token, Number):
        return f"<{token.written}>" if start < len(words) else ""
    return words[max(start, 0) : max(end, 0)]


def stretch(at: int, token: Token, start: int, end: int) -> Span:
    """The part of a token between two places of its line. What does not stand in the file as it reads is taken whole."""
    span, words = token.place.span, words_of(token)
    if isinstance(token, Number):
        return span
    first, last = max(start - at, 0), min(end - at, len(words))
    wanted = words[first:last]
    cut = span.part(first, last)
    if cut.text == wanted and cut.end <= span.end:
        return cut
    found = span.text.find(wanted)
    only = wanted.strip() and found >= 0 and span.text.find(wanted, found + 1) < 0
    return span.part(found, found + len(wanted)) if only else span


def found_below(span: Span, written: str) -> Span | None:
    """Where words stand in the paragraph that begins at `span`, if they stand there once."""
    text = span.file.text
    end = min(span.start + LONGEST, len(text))
    blank = text.find("\n\n", span.start, end)
    words = LatePattern(r"\s+".join(re.escape(word) for word in written.split()))
    found = list(words.finditer(text, span.start, blank if blank >= 0 else end)) if written.strip() else []
    return Span(span.file, *found[0].span()) if len(found) == 1 else None
