"""Unfolded text with the place of every character: the marks become a source map, before Markdown sees the text."""

from __future__ import annotations

from bisect import bisect_right

from msgspec import Struct

from stitchproof.expressions import expression
from stitchproof.reading.marks import BACK, CLOSE, END, LINE, OPEN, PRIVATE, SLOT
from stitchproof.source import Place, Span

_MARK = expression(f"([{LINE}{OPEN}{CLOSE}{BACK}])(\\d+){END}")
SLOT_MARK = expression(f"{SLOT}(\\d+){END}")


def without_position_marks(text: str) -> str:
    """Text as the maker would read it, slot marks left in."""
    return _MARK.sub("", text)


def marks_are_whole(text: str, marks: int, slots: int) -> bool:
    """Whether all marks in unfolded text are ones that were put there: none cut, none beyond the number there are."""
    numbers = [int(match[2]) for match in _MARK.finditer(text)]
    slot_numbers = [int(match[1]) for match in SLOT_MARK.finditer(text)]
    if any(number >= marks for number in numbers) or any(number >= slots for number in slot_numbers):
        return False
    rest = SLOT_MARK.sub("", _MARK.sub("", text))
    return not any(PRIVATE[0] <= sign <= PRIVATE[1] for sign in set(rest))


class _Stretch(Struct, frozen=True):
    """From `start` in the unfolded text on: the text stood at `span`. exact: character by character, else as a whole."""

    start: int
    span: Span
    exact: bool
    calls: tuple[Span, ...]


class PlacedText(Struct, frozen=True, eq=False):
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
        file = stretch.span.file
        begin = min(stretch.span.start + start - stretch.start, len(file.text))
        stop = max(begin, min(self._end(index, begin, start, end), len(file.text)))
        limit = file.text.find("\n", begin)
        return Place(Span(file, begin, stop if limit < 0 else min(stop, max(limit, begin))), stretch.calls)

    def _end(self, index: int, begin: int, start: int, end: int) -> int:
        """Where what begins in a stretch ends in the file. Behind a slot its own stretch tells: the two differ in length."""
        last = bisect_right(self.starts, max(end - 1, start)) - 1
        first, stretch = self.stretches[index], self.stretches[last]
        if last > index and stretch.span.file is first.span.file and stretch.calls == first.calls:
            reached = stretch.span.start + end - stretch.start if stretch.exact else stretch.span.end
            if reached >= begin:
                return reached
        return begin + max(end - start, 0)

    def lines(self) -> list[PlacedLine]:
        """The lines of the text."""
        found, start = [], 0
        for line in self.text.split("\n"):
            found.append(PlacedLine(self, start, start + len(line)))
            start += len(line) + 1
        return found


class PlacedLine(Struct, frozen=True):
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

    def place_of(self, start: int, end: int) -> Place:
        """Where a part of the line was written, counted from its beginning."""
        return self.whole.place(self.start + start, self.start + end)

    @property
    def line_span(self) -> Span:
        """The whole line of the file that this line was written as."""
        span = self.place.span
        return span.file.line_span(span.file.line_column(span.start)[0])

    @property
    def place(self) -> Place:
        """Where the line was written, without the blanks before it."""
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
        elif kind == BACK:
            if open_calls:
                stretches.append(_Stretch(length, open_calls[-1], False, tuple(open_calls[:-1])))
        else:
            if span in open_calls:
                del open_calls[open_calls.index(span) :]
            stretches.append(_Stretch(length, Span(span.file, span.end, span.end), True, tuple(open_calls)))
    out.append(rendered[position:])
    return PlacedText("".join(out), tuple(stretches), tuple(stretch.start for stretch in stretches), whole)
