"""The text of a written line in one piece, each slot a single private-use character, with the way back to its places."""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction

from msgspec import Struct

from stitchproof.expansion.document import Number, Text, Token, Word
from stitchproof.measures.values import Absent, PerSize
from stitchproof.rows.row_tree import Stretch
from stitchproof.source import Place, Span

SLOT = "\ue000"
"""Stands for a Number. A line knows at which characters its numbers are, so that the same character in a text is only that."""


class LineNumber(Struct, frozen=True):
    """A number of a line: one value per size, and whether it is a length."""

    values: PerSize
    is_length: bool


class Line(Struct, frozen=True, eq=False):
    """A line of text. sizes: the names of the pattern's sizes. numbers: by the character that stands for them.

    starts, places: where each of its tokens starts in `text`, and where it was written.
    """

    text: str
    sizes: tuple[str, ...]
    numbers: dict[int, LineNumber]
    starts: tuple[int, ...]
    places: tuple[Place, ...]

    def place(self, at: Stretch) -> Place:
        """Where a stretch of the line was written."""
        first, last = self._place(at.start, at.start + 1), self._place(max(at.end - 1, at.start), at.end)
        same_file = first.span.file is last.span.file
        return Place(first.span.to(last.span), first.calls) if same_file else first

    def _place(self, start: int, end: int) -> Place:
        index = max(bisect_right(self.starts, start) - 1, 0)
        token, begins = self.places[index], self.starts[index]
        part = token.span.part(start - begins, end - begins)
        # A text that does not stand in the file as it reads is placed as a whole.
        stands_there = part.end <= token.span.end and part.text == self.text[start:end]
        return Place(part, token.calls) if stands_there else token

    def scalar(self, number: int) -> PerSize:
        """The same number for every size."""
        return (Fraction(number),) * max(len(self.sizes), 1)


def line_of_tokens(tokens: tuple[Token, ...], sizes: tuple[str, ...], span: Span) -> Line:
    """The line of a label or of a part of a step. span: where it stands, for one without any token."""
    text: list[str] = []
    starts, places, numbers, length = [], [], {}, 0
    for token in tokens:
        starts.append(length)
        places.append(token.place)
        match token:
            case Number():
                numbers[length] = LineNumber(_served(token), token.dimension.length > 0)
                text.append(SLOT)
            case Word():
                text.append(token.as_written)
            case Text():
                text.append(token.text)
        length += len(text[-1])
    return Line("".join(text), sizes, numbers, tuple(starts) or (0,), tuple(places) or (Place(span),))


def _served(number: Number) -> PerSize:
    """The values of the sizes that are served; the others count as not worked."""
    served = set(number.served)
    return tuple(value if size in served else Absent.NOT_WORKED for size, value in enumerate(number.values))


def line_of_text(text: str, sizes: tuple[str, ...], span: Span) -> Line:
    """The line of a plain text, its vectors typed out. span: where it stands."""
    return Line(text, sizes, {}, (0,), (Place(span),))
