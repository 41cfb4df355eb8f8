"""One walk over a Document that changes its inlines and nothing else."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inline,
    Link,
    Note,
    Part,
    Passage,
    Prose,
    Schematics,
    Section,
    SizeTable,
    Step,
    Strong,
    Table,
    Times,
    Token,
    Tutorial,
)

Change = Callable[[Inline], Inline]


def with_inlines(document: Document, change: Change) -> Document:
    """The Document with every Text, Number and Word changed; emphasis and links opened up."""
    walk = _Walk(change)
    return replace(
        document,
        title_block=replace(document.title_block, summary=walk.inlines(document.title_block.summary)),
        front=walk.sections(document.front),
        pieces=tuple(
            replace(piece, heading=walk.block(piece.heading), blocks=walk.blocks(piece.blocks))
            for piece in document.pieces
        ),
        finishing=walk.sections(document.finishing),
        back=walk.sections(document.back),
    )


class _Walk:
    def __init__(self, change: Change) -> None:
        self.change = change

    def sections(self, sections: tuple[Section, ...]) -> tuple[Section, ...]:
        return tuple(replace(section, blocks=self.blocks(section.blocks)) for section in sections)

    def blocks(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        return tuple(self.block(block) for block in blocks)

    def block(self, block: Block) -> Block:
        match block:
            case Heading() | Prose():
                return replace(block, inlines=self.inlines(block.inlines))
            case Bullets():
                return replace(block, items=tuple(self.inlines(item) for item in block.items))
            case Table():
                rows = tuple(tuple(self.inlines(cell) for cell in row) for row in block.rows)
                return replace(block, head=tuple(self.inlines(cell) for cell in block.head), rows=rows)
            case SizeTable():
                lines = tuple(replace(line, label=self.inlines(line.label)) for line in block.lines)
                return replace(block, lines=lines)
            case Schematics():
                drawings = tuple(replace(each, title=self.inlines(each.title)) for each in block.drawings)
                lines = tuple(replace(line, label=self.inlines(line.label)) for line in block.lines)
                return replace(block, drawings=drawings, lines=lines)
            case Figure():
                return replace(block, caption=self.inlines(block.caption))
            case Tutorial():
                return replace(block, words=self.inlines(block.words))
            case Step():
                parts = tuple(Part(part.served, part.tag, self.tokens(part.tokens)) for part in block.parts)
                return replace(block, label=self.tokens(block.label), parts=parts)
            case Passage() | Times() | Note() | Caution():
                return replace(block, blocks=self.blocks(block.blocks))

    def tokens(self, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
        return tuple(self.change(token) for token in tokens)  # type: ignore[misc]  # a token stays a token

    def inlines(self, inlines: tuple[Inline, ...]) -> tuple[Inline, ...]:
        return tuple(
            replace(inline, inlines=self.inlines(inline.inlines))
            if isinstance(inline, Strong | Emphasis | Link)
            else self.change(inline)
            for inline in inlines
        )
