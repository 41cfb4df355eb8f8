"""The blocks of a stretch of prose: read here where it is plain, by Markdown's own library otherwise."""

from __future__ import annotations

from stitchproof.expansion.document import Block, Heading, Inline, Prose, Served, Text
from stitchproof.expansion.inlines import NumberAt, with_numbers
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine
from stitchproof.expansion.plain_prose import Stretch, plain_stretches
from stitchproof.expansion.slots import SlotReader


def prose_blocks(lines: list[PlacedLine], reader: SlotReader, served: Served) -> tuple[Block, ...]:
    """The blocks of consecutive lines of prose; every inline is placed by the line its block begins on."""
    texts = [line.text for line in lines]
    if not any(text.strip() for text in texts):
        return ()
    number = _numbers_in(lines, reader, served)
    plain = plain_stretches(texts)
    if plain is not None:
        return tuple(_block(stretch, lines[stretch.first], number) for stretch in plain)
    from stitchproof.expansion.markdown import read_blocks  # most prose does without

    return read_blocks(lines, number, reader.report)


def _numbers_in(lines: list[PlacedLine], reader: SlotReader, served: Served) -> NumberAt:
    calls = {
        int(mark[1]): line.place_of(mark.start(), mark.end()).calls
        for line in lines
        for mark in SLOT_MARK.finditer(line.text)
    }
    return lambda occurrence: reader.number(occurrence, served, calls.get(occurrence, ()))


def _block(stretch: Stretch, line: PlacedLine, number: NumberAt) -> Block:
    place = line.place
    inlines: list[Inline] = []
    for words in stretch.words:
        inlines += [Text(" ", place)] if inlines else []
        inlines += with_numbers(words, place, number)
    return Heading(stretch.level, tuple(inlines), place) if stretch.level else Prose(tuple(inlines))
