"""Files as text, and places in them.

Offsets count Unicode code points from 0; lines and columns count from 1. This module is the only one that converts.
"""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property
from itertools import accumulate

from msgspec import Struct

TURNS_THE_LINE = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Signs that make a line read otherwise than it is written (Unicode Standard Annex 9, explicit directions): a count that is
shown beside one need not be the one that was worked."""


class SourceFile(Struct, frozen=True, eq=False, dict=True):
    """One file, read whole: `path` as shown to the user (relative, forward slashes), `text` with newlines as \\n."""

    path: str
    text: str

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        """The offset of the first character of each line."""
        return (0, *accumulate(len(line) + 1 for line in self.text.split("\n")[:-1]))

    def line_column(self, offset: int) -> tuple[int, int]:
        """Line and column, both from 1, of an offset from 0."""
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """The text of a line counted from 1, without its newline."""
        start = self.line_starts[line - 1]
        end = self.line_starts[line] - 1 if line < len(self.line_starts) else len(self.text)
        return self.text[start:end]

    def line_span(self, line: int) -> Span:
        """The printed part of a line counted from 1, without the blanks around it."""
        start = self.line_starts[line - 1]
        text = self.line_text(line)
        inner = text.strip()
        begin = start + (len(text) - len(text.lstrip()) if inner else 0)
        return Span(self, begin, begin + len(inner))

    @property
    def whole(self) -> Span:
        return Span(self, 0, 0)


class Span(Struct, frozen=True):
    """A stretch of a file: `start` to `end`, offsets from 0, end exclusive."""

    file: SourceFile
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.file.text[self.start : self.end]

    def part(self, start: int, end: int) -> Span:
        """The stretch from `start` to `end`, counted from the beginning of this one."""
        return Span(self.file, self.start + start, self.start + end)

    def to(self, other: Span) -> Span:
        """From the start of this stretch to the end of another in the same file."""
        return Span(self.file, self.start, max(self.end, other.end))

    @property
    def order(self) -> tuple[str, int, int]:
        return self.file.path, self.start, self.end


class Place(Struct, frozen=True):
    """Where a piece of printed text was written, and the calls (outermost first) through which it came to be used."""

    span: Span
    calls: tuple[Span, ...] = ()
