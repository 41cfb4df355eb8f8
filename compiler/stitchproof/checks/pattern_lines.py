"""The lines of a pattern as plain text that still knows where each stretch of it stands: what the rules on wording search."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from enum import Enum
from itertools import accumulate, takewhile
from operator import itemgetter

from msgspec import Struct

from stitchproof.checks.line_places import found_below, stretch, words_of, written_as
from stitchproof.expansion.document import (
    Block,
    Bullets,
    Heading,
    Inline,
    Note,
    Number,
    Passage,
    Prose,
    Step,
    Text,
    Times,
    Token,
    Word,
    inlines_of,
)
from stitchproof.late_pattern import LatePattern
from stitchproof.source import Place

PART_END = "\n"
"""Stands in a line where a part for other sizes begins."""
SLOT = "\ufffc"
"""Stands in the typed text of a line for each sign of a slot, so that no pattern of words runs across it."""

MOST_DIGITS = 30
"""Of a number. What has more is none: no count comes near, and Python refuses to read the longest."""
_STARTS = itemgetter(0)
_NO_NUMBER = LatePattern(rf"\d{{{MOST_DIGITS + 1},}}")


class Kind(Enum):
    """What a line is."""

    STEP = "step"
    HEADING = "heading"
    NOTE = "note"
    """Of a `::: note` in a piece."""
    FRONT = "front"
    """Before the pieces: the pattern's notes and the like."""
    FINISHING = "finishing"


class Line(Struct, frozen=True):
    """A step, heading or paragraph. `text`: its words, each slot as the digit 0. `label_end`: where a row's label ends in it.

    typed: the same, with SLOT for each sign of a slot. tokens: what the text was made from, each with where it starts in it.
    """

    kind: Kind
    text: str
    typed: str
    tokens: tuple[tuple[int, Token], ...]
    label_end: int
    piece: str
    row: str

    @property
    def is_instruction(self) -> bool:
        """Whether it tells the maker what to do."""
        return self.kind in (Kind.STEP, Kind.FINISHING)

    def place(self, start: int, end: int) -> Place:
        """Where a stretch of the text stands in the source: exactly, or the whole of what holds it."""
        first, last = self._token(start), self._token(end - 1)
        # Markdown knows only the line that a paragraph begins on.
        if self.kind is not Kind.STEP and (found := found_below(first[1].place.span, self.as_written(start, end))):
            return Place(found, first[1].place.calls)
        head = stretch(*first, start, end)
        tail = stretch(*last, start, end)
        span = head.to(tail) if tail.file is head.file and tail.start >= head.start else head
        return Place(span, first[1].place.calls)

    def as_written(self, start: int, end: int) -> str:
        """A stretch of the text with its slots as the designer wrote them."""
        found = [written_as(token, start - at, end - at) for at, token in self.tokens_in(start, end)]
        return " ".join("".join(found).split())

    def tokens_in(self, start: int, end: int) -> Iterator[tuple[int, Token]]:
        """The tokens that a stretch of the text touches, each with where it starts in the text."""
        at = self._index(start)  # from here on: what stands before it in a long line is not gone over each time
        return takewhile(lambda each: each[0] < end, map(self.tokens.__getitem__, range(at, len(self.tokens))))

    def number_at(self, start: int) -> Number | None:
        """The slot that stands at a place of the text."""
        token = self._token(start)[1]
        return token if isinstance(token, Number) else None

    def word_at(self, start: int) -> Word | None:
        """The trade's word that begins at a place of the text."""
        at, token = self._token(start)
        return token if isinstance(token, Word) and at == start else None

    def words(self) -> Iterator[tuple[int, Word]]:
        """The trade's words in it, each with where it starts."""
        return ((at, token) for at, token in self.tokens if isinstance(token, Word))

    def _token(self, offset: int) -> tuple[int, Token]:
        return self.tokens[self._index(offset)]

    def _index(self, offset: int) -> int:
        return max(bisect_right(self.tokens, offset, key=_STARTS) - 1, 0)


def lines_in(blocks: Iterable[Block], kind: Kind, piece: str) -> Iterator[Line]:
    """Every line of some blocks, in reading order. kind: what their steps and paragraphs are. piece: "" outside of one."""
    for block in blocks:
        match block:
            case Step():
                yield from _step(block)
            case Heading():
                yield from words_in(inlines_of(block), Kind.HEADING, piece)
            case Prose():
                yield from words_in(inlines_of(block), kind, piece)
            case Bullets():
                for item in block.items:
                    yield from words_in(inlines_of(Prose(item)), kind, piece)
            case Note():
                yield from lines_in(block.blocks, Kind.NOTE if piece else kind, piece)
            case Passage() | Times():
                yield from lines_in(block.blocks, kind, piece)


def _step(step: Step) -> Iterator[Line]:
    tokens = list(step.label)
    label_end = sum(len(words_of(token)) for token in tokens)
    for part in step.parts:
        if tokens and part.tokens:
            tokens.append(Text(PART_END, part.tokens[0].place))
        tokens += part.tokens
    if tokens:
        yield _line(Kind.STEP, tokens, label_end, step.piece, step.identity)


def words_in(inlines: Iterable[Inline], kind: Kind, piece: str = "") -> Iterator[Line]:
    """Some words as a line; none where there are only pictures."""
    tokens = [each for each in inlines if isinstance(each, Text | Number | Word)]
    if tokens:
        yield _line(kind, tokens, 0, piece, "")


def _with_numbers_only(text: str) -> str:
    """A text in which no number has too many digits, for the rules to count with."""
    return _NO_NUMBER.sub(lambda match: "·" * len(match[0]), text) if len(text) > MOST_DIGITS else text


def _line(kind: Kind, tokens: list[Token], label_end: int, piece: str, row: str) -> Line:
    words = [_with_numbers_only(words_of(token)) for token in tokens]
    starts = accumulate((len(each) for each in words[:-1]), initial=0)
    text = "".join(words)
    typed = text
    if any(isinstance(token, Number) for token in tokens):
        pairs = zip(words, tokens, strict=True)
        typed = "".join(SLOT * len(each) if isinstance(token, Number) else each for each, token in pairs)
    return Line(kind, text, typed, tuple(zip(starts, tokens, strict=True)), label_end, piece, row)
