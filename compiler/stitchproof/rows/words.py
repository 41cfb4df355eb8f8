"""Finds the trade's words in the text of a Document."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Emphasis,
    Figure,
    Heading,
    Inline,
    Link,
    Note,
    Part,
    Passage,
    Piece,
    Prose,
    Schematics,
    Section,
    SizeTable,
    Step,
    Strong,
    Table,
    Text,
    Times,
    TitleBlock,
    Token,
    Tutorial,
    Word,
)
from stitchproof.source import Place
from stitchproof.stitches.lexicon import Entry, Lexicon


class WordFinder:
    """Turns words of the lexicon into Words, in the parts of a Document; remembers which were used, and which in the plural."""

    def __init__(self, lexicon: Lexicon) -> None:
        self.lexicon = lexicon
        self.used: dict[str, Entry] = {}
        self.plurals: set[str] = set()

    def title_block(self, block: TitleBlock) -> TitleBlock:
        return replace(block, summary=self.inlines(block.summary))

    def section(self, section: Section) -> Section:
        return replace(section, blocks=self.blocks(section.blocks))

    def piece(self, piece: Piece) -> Piece:
        return replace(piece, heading=self.heading(piece.heading), blocks=self.blocks(piece.blocks))

    def blocks(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        return tuple(self.block(block) for block in blocks)

    def block(self, block: Block) -> Block:
        match block:
            case Heading():
                return self.heading(block)
            case Prose():
                return replace(block, inlines=self.inlines(block.inlines))
            case Bullets():
                return replace(block, items=tuple(self.inlines(item) for item in block.items))
            case Table():
                rows = tuple(tuple(self.inlines(cell) for cell in row) for row in block.rows)
                return replace(block, head=tuple(self.inlines(cell) for cell in block.head), rows=rows)
            case SizeTable() | Schematics():
                return replace(
                    block, lines=tuple(replace(line, label=self.inlines(line.label)) for line in block.lines)
                )
            case Figure():
                return replace(block, caption=self.inlines(block.caption))
            case Tutorial():
                return replace(block, words=self.inlines(block.words))
            case Step():
                return replace(
                    block, label=self.tokens(block.label), parts=tuple(self.part(part) for part in block.parts)
                )
            case Passage() | Times() | Note() | Caution():
                return replace(block, blocks=self.blocks(block.blocks))

    def heading(self, heading: Heading) -> Heading:
        return replace(heading, inlines=self.inlines(heading.inlines))

    def part(self, part: Part) -> Part:
        return replace(part, tokens=self.tokens(part.tokens))

    def tokens(self, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
        """Tokens of a step, their text cut at its words."""
        found: list[Token] = []
        for token in tokens:
            found += self.text(token) if isinstance(token, Text) else [token]
        return tuple(found)

    def inlines(self, inlines: tuple[Inline, ...]) -> tuple[Inline, ...]:
        """Inlines of prose, their text cut at its words."""
        found: list[Inline] = []
        for inline in inlines:
            match inline:
                case Text():
                    found += self.text(inline)
                case Strong() | Emphasis() | Link():
                    found.append(replace(inline, inlines=self.inlines(inline.inlines)))
                case _:
                    found.append(inline)
        return tuple(found)

    def text(self, text: Text) -> list[Text | Word]:
        """A stretch of text cut at its words."""
        found: list[Text | Word] = []
        position = 0
        for match in self.lexicon.pattern.finditer(text.text):
            entry = self.lexicon.entry_of(match[0])
            if entry is None:
                continue
            if match.start() > position:
                found.append(Text(text.text[position : match.start()], _part(text, position, match.start())))
            found.append(Word(entry.key, match[0], _part(text, match.start(), match.end())))
            self.used.setdefault(entry.key, entry)
            if entry.plural and " ".join(match[0].lower().split()) == entry.plural:
                self.plurals.add(entry.key)
            position = match.end()
        if position < len(text.text):
            found.append(Text(text.text[position:], _part(text, position, len(text.text))) if position else text)
        return found


def _part(text: Text, start: int, end: int) -> Place:
    """The place of a part of a text; of one that does not stand in the file as it reads, the whole of it."""
    span = text.place.span
    part = span.part(start, end)
    stands_there = part.end <= span.end and part.text == text.text[start:end]
    return Place(part, text.place.calls) if stands_there else text.place
