"""Everything that will be printed, line by line, for rules that look at the numbers in it, typed or made by slots."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import accumulate

from stitchproof.checks.pattern_lines import Kind, Line, lines_of
from stitchproof.diagnostics.diagnostic import Excerpt, used_from
from stitchproof.expansion.document import (
    Block,
    Caution,
    Inline,
    Note,
    Number,
    Passage,
    Prose,
    Schematics,
    SizeTable,
    Table,
    Text,
    Times,
    Word,
    blocks_of,
    inlines_of,
)
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.slot import PrintAs
from stitchproof.source import Place, Span

SLOT = "\ufffc"
"""Stands in typed text for each character of a slot, so that no pattern of words runs across it."""

NEARBY = 80
"""Characters: as far as the rules look to either side of a number."""


def printed_lines(expanded: ExpandedPattern) -> Iterator[Line]:
    """All that an author writes to be printed: titles, names of sizes, tables and special stitches beside the lines proper."""
    header = expanded.sized.source.header
    yield _line((Text(header.identity.title.text, Place(header.identity.title.span)),))
    for name, span in zip(header.sizes.names, header.sizes.name_spans, strict=True):
        yield _line((Text(name, Place(span)),))
    yield from _lines((expanded.document.title_block.summary,))
    yield from lines_of(expanded.document)
    for block in blocks_of(expanded.document):
        yield from _lines(_cells(block))
    for stitch in header.special_stitches:
        for words in (stitch.name, stitch.how):
            if words:
                yield _line((Text(" ".join(words.text.split()), Place(words.span)),))


def typed_text(line: Line) -> str:
    """The words of a line with its slots blotted out; every offset is that of the line."""
    parts, position = [], 0
    for at, number in _slots(line):
        length = _length(number)
        parts += [line.text[position:at], SLOT * length]
        position = at + length
    return "".join([*parts, line.text[position:]])


def numbers_of(line: Line) -> Iterator[tuple[int, Number, str, str]]:
    """Every slot of a line: where it stands, and the typed words next before and after it."""
    text = typed_text(line)
    for at, number in _slots(line):
        end = at + _length(number)
        yield at, number, before(text, at), text[end : end + NEARBY]


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


def _slots(line: Line) -> Iterator[tuple[int, Number]]:
    return ((at, token) for at, token in line.tokens if isinstance(token, Number))


def _length(number: Number) -> int:
    return len("0 times") if number.print_as is PrintAs.TIMES else len("0")


def _cells(block: Block) -> Iterator[tuple[Inline, ...]]:
    """The cells, labels and cautions of a block, which are no lines of their own."""
    match block:
        case Table():
            for cells in (block.head, *block.rows):
                yield from cells
        case SizeTable() | Schematics():
            yield from (line.label for line in block.lines)
        case Caution():
            yield from (tuple(inlines_of(inner)) for inner in block.blocks)
        case Passage() | Times() | Note():
            for inner in block.blocks:
                yield from _cells(inner)


def _lines(stretches: Iterable[tuple[Inline, ...]]) -> Iterator[Line]:
    return (_line(stretch) for stretch in stretches if stretch)


def _line(inlines: tuple[Inline, ...]) -> Line:
    tokens = [each for each in inlines_of(Prose(inlines)) if isinstance(each, Text | Number | Word)]
    words = [_words(token) for token in tokens]
    starts = accumulate((len(each) for each in words[:-1]), initial=0)
    return Line(Kind.FRONT, "".join(words), tuple(zip(starts, tokens, strict=True)), 0, "", "")


def _words(token: Text | Number | Word) -> str:
    if isinstance(token, Number):
        return "0 times" if token.print_as is PrintAs.TIMES else "0"
    return token.text if isinstance(token, Text) else token.as_written
