"""Words, numbers, emphasis and links of a stretch of text."""

from __future__ import annotations

import re
from collections.abc import Callable

from stitchproof.expansion.document import Inline, Number, Served, Text, Token
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine
from stitchproof.expansion.plain_prose import is_plain
from stitchproof.expansion.slots import SlotReader
from stitchproof.reading.marks import END, SLOT
from stitchproof.reading.pattern_source import Words
from stitchproof.source import Place, Span

NumberAt = Callable[[int], Inline | None]
"""Gives the number behind a slot mark."""


def verbatim(line: PlacedLine, reader: SlotReader, served: Served) -> tuple[Token, ...]:
    """A stretch of a step: text as written, slots as numbers, no Markdown."""
    found: list[Token] = []
    position = 0
    for match in SLOT_MARK.finditer(line.text):
        _add_text(found, line.part(position, match.start()))
        calls = line.place_of(match.start(), match.end()).calls
        number = reader.number_in_row(int(match[1]), served, calls)
        if number:
            found.append(number)
        position = match.end()
    _add_text(found, line.part(position))
    return tuple(found)


def _add_text(found: list[Token], line: PlacedLine) -> None:
    """The text of a line without the backslash of `\\<`; cut there, so that what follows keeps its place."""
    position = 0
    for backslash in (*re.finditer(r"\\(?=[<{])", line.text), None):
        part = line.part(position, backslash.start() if backslash else None)
        if part.text:
            found.append(Text(part.text, line.place_of(position, position + len(part.text))))
        position = backslash.end() if backslash else position


def marked_down(text: str, place: Place, number_at: NumberAt) -> tuple[Inline, ...]:
    """One line of prose, its inline Markdown understood. Prose is placed by its line."""
    if is_plain(text):
        return tuple(with_numbers(text, place, number_at))
    from stitchproof.expansion.markdown import read_inline  # most words do without

    return read_inline(text, place, number_at)


def with_numbers(content: str, place: Place, number_at: NumberAt) -> list[Inline]:
    """Words and numbers of a stretch that is all words to Markdown."""
    found: list[Inline] = []
    position = 0
    for match in SLOT_MARK.finditer(content):
        if match.start() > position:
            found.append(Text(content[position : match.start()], place))
        number = number_at(int(match[1]))
        if number is not None:
            found.append(number)
        position = match.end()
    if position < len(content):
        found.append(Text(content[position:], place))
    return found


def header_inlines(words: Words, reader: SlotReader, served: Served) -> tuple[Inline, ...]:
    """A text value of pattern.yaml: inline Markdown and slots."""
    numbers: list[Number] = []
    out, position = [], 0
    for start, end, slot in words.slots:
        out.append(words.text[position:start] + f"{SLOT}{len(numbers)}{END}")
        numbers.append(reader.header_number(slot, served))
        position = end
    out.append(words.text[position:])
    text = " ".join("".join(out).split("\n")).strip()
    return marked_down(text, Place(words.span), lambda index: numbers[index])


def plain_inlines(text: str, span: Span) -> tuple[Inline, ...]:
    """Our own words about a value that stands at `span`."""
    return (Text(text, Place(span)),)
