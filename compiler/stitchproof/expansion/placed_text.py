"""Unfolded text with the place of every character: the marks become a source map, before Markdown sees the text."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass

from stitchproof.reading.marks import CLOSE, END, LINE, OPEN, SLOT
from stitchproof.source import Place, Span

_MARK = re.compile(f"([{LINE}{OPEN}{CLOSE}])(\\d+){END}")
SLOT_MARK = re.compile(f"{SLOT}(\\d+){END}")


@dataclass(frozen=True, slots=True)
class _Stretch:
    """From `start` in the unfolded text on: the text stood at `span`. exact: character by character, else as a whole."""

    start: int
    span: Span
    exact: bool
    calls: tuple[Span, ...]


@dataclass(frozen=True, eq=False)
class PlacedText:
    """Text without position marks (slot marks stay), and where it stood."""

    text: str
    stretches: tuple[_Stretch, ...]
    starts: tuple[int, ...]
    whole: Span

    def place(self, start: int, end: int) -> Place:
        """Where the text from `start` to `end` was written, as far as it was written in one go."""
        index = bisect_right(self.starts, start) - 1
        if index < 0:
            return Place(self.whole)
        stretch = self.stretches[index]
        if not stretch.exact:
            return Place(stretch.span, stretch.calls)
        begin = min(stretch.span.start + start - stretch.start, len(stretch.span.file.text))
        stop = min(begin + max(end - start, 0), len(stretch.span.file.text))
        limit = stretch.span.file.text.find("\n", begin)
        return Place(Span(stretch.span.file, begin, stop if limit < 0 else min(stop, max(limit, begin))), stretch.calls)

    def lines(self) -> list[PlacedLine]:
        """The lines of the text."""
        found, start = [], 0
        for line in self.text.split("\n"):
            found.append(PlacedLine(self, start, start + len(line)))
            start += len(line) + 1
        return found


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A stretch of one line of a PlacedText."""

    whole: PlacedText
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.whole.text[self.start : self.end]

    def part(self, start: int, end: int | None = None) -> PlacedLine:
        """A part of the line, counted from its beginning."""
        stop = self.end if end is None else self.start + end
        return PlacedLine(self.whole, self.start + start, stop)

    @property
    def line_span(self) -> Span:
        """The whole line of the file that this line was written as."""
        span = self.place.span
        return span.file.line_span(span.file.line_column(span.start)[0])

    @property
    def place(self) -> Place:
        stripped = len(self.text) - len(self.text.lstrip())
        return self.whole.place(self.start + stripped, self.end)


def placed(rendered: str, marks: tuple[Span, ...], whole: Span) -> PlacedText:
    """Take the position marks out of unfolded text and keep what they say. `whole`: the file, for text that has no mark."""
    out: list[str] = []
    stretches: list[_Stretch] = []
    open_calls: list[Span] = []
    length = position = 0
    for match in _MARK.finditer(rendered):
        literal = rendered[position : match.start()]
        out.append(literal)
        length += len(literal)
        position = match.end()
        kind, span = match[1], marks[int(match[2])]
        if kind == LINE:
            stretches.append(_Stretch(length, span, True, tuple(open_calls)))
        elif kind == OPEN:
            stretches.append(_Stretch(length, span, False, tuple(open_calls)))
            open_calls.append(span)
        else:
            if span in open_calls:
                del open_calls[open_calls.index(span) :]
            stretches.append(_Stretch(length, Span(span.file, span.end, span.end), True, tuple(open_calls)))
    out.append(rendered[position:])
    return PlacedText("".join(out), tuple(stretches), tuple(stretch.start for stretch in stretches), whole)
