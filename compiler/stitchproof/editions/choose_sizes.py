"""First step of an edition: leave out what the chosen sizes do not work."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from stitchproof.editions.closing_count import without_repeated_counts
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
    Number,
    Part,
    Passage,
    Piece,
    Prose,
    Schematics,
    Section,
    Served,
    SizeList,
    SizeTable,
    Step,
    Strong,
    Table,
    Tag,
    Times,
    Token,
    Tutorial,
)

ONE_BRACKET_HOLDS = 5
"""Up to six sizes stand as one number and one bracket (common practice, no source)."""


def choose_sizes(document: Document, chosen: Served, by_piece: Mapping[str, int] | None = None) -> Document:
    """The Document as only the chosen sizes need it.

    chosen: indexes from 0 into the pattern's sizes; those the Document no longer serves are left out of account.
    Numbers keep one value per size of the pattern; what they serve is narrowed. A place that serves none of the chosen
    sizes is left out, a tag that tells nothing any more becomes Tag.NONE. Choosing every size gives an equal Document.
    by_piece: the one size of each piece that is named; each has to be among the chosen.
    Raises ValueError if no size is left.
    """
    kept = _shared(document.sizes.chosen, chosen)
    if not kept:
        raise ValueError("an edition needs at least one size")
    if kept == document.sizes.chosen and not by_piece:
        return document
    own = by_piece or {}
    choice = _Choice(kept, own)
    return replace(
        document,
        title_block=replace(document.title_block, summary=choice.inlines(document.title_block.summary)),
        sizes=replace(document.sizes, chosen=kept, groups=_groups(document.sizes, kept), by_piece=tuple(own.items())),
        front=choice.sections(document.front),
        pieces=tuple(
            piece
            for each in document.pieces
            for piece in (_Choice((own[each.name],), {}) if each.name in own else choice).pieces((each,))
        ),
        finishing=choice.sections(document.finishing),
        back=choice.sections(document.back),
    )


def _shared(one: Served, other: Served) -> Served:
    return tuple(size for size in one if size in other)


def _groups(sizes: SizeList, kept: Served) -> tuple[int, ...]:
    """Few sizes need one bracket; more keep the brackets they stood in."""
    rest = len(kept) - 1
    if rest <= ONE_BRACKET_HOLDS:
        return (rest,) if rest else ()
    bracket_of = [bracket for bracket, length in enumerate(sizes.groups) for _ in range(length)]
    _, *others = sizes.chosen
    standing = dict(zip(others, bracket_of, strict=False))
    brackets = [standing.get(size, len(sizes.groups)) for size in kept[1:]]
    return tuple(brackets.count(bracket) for bracket in sorted(set(brackets)))


class _Choice:
    """One walk over a Document. `around` is what the surrounding place still serves. own: sizes of single pieces."""

    def __init__(self, kept: Served, own: Mapping[str, int]) -> None:
        self.kept = kept
        self.own = own

    def pieces(self, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
        chosen = []
        for piece in pieces:
            served = _shared(piece.served, self.kept)
            blocks = self.blocks(piece.blocks, served)
            if served and blocks:
                heading = replace(piece.heading, inlines=self.inlines(piece.heading.inlines))
                chosen.append(replace(piece, heading=heading, served=served, blocks=blocks))
        return tuple(chosen)

    def sections(self, sections: tuple[Section, ...]) -> tuple[Section, ...]:
        chosen = [replace(section, blocks=self.blocks(section.blocks, self.kept)) for section in sections]
        return tuple(section for section in chosen if section.blocks)

    def blocks(self, blocks: tuple[Block, ...], around: Served) -> tuple[Block, ...]:
        chosen: list[Block] = []
        restricted = False
        for block in blocks:
            kept = self.block(block, around, restricted)
            if kept is not None:
                chosen.append(kept)
                restricted = restricted or _restricts(kept)
        return tuple(chosen)

    def block(self, block: Block, around: Served, restricted: bool) -> Block | None:
        match block:
            case Step():
                return self.step(block, around, restricted)
            case Passage() | Caution():
                served = _shared(block.served, around)
                blocks = self.blocks(block.blocks, served)
                tag = _needed_tag(block.tag, served, around, restricted)
                return replace(block, served=served, tag=tag, blocks=blocks) if served and blocks else None
            case Times() | Note():
                blocks = self.blocks(block.blocks, around)
                return replace(block, blocks=blocks) if blocks else None
            case SizeTable():
                return self.size_table(block)
            case Schematics():
                return self.schematics(block)
            case _:
                return self.flowing(block)

    def flowing(self, block: Heading | Prose | Bullets | Table | Figure | Tutorial) -> Block:
        match block:
            case Figure():
                return replace(block, caption=self.inlines(block.caption))
            case Tutorial():
                return replace(block, words=self.inlines(block.words))
            case Heading() | Prose():
                return replace(block, inlines=self.inlines(block.inlines))
            case Bullets():
                return replace(block, items=tuple(self.inlines(item) for item in block.items))
            case Table():
                rows = tuple(tuple(self.inlines(cell) for cell in row) for row in block.rows)
                return replace(block, head=tuple(self.inlines(cell) for cell in block.head), rows=rows)

    def size_table(self, table: SizeTable) -> SizeTable | None:
        lines = [replace(line, label=self.inlines(line.label), number=self.number(line.number)) for line in table.lines]
        serving = tuple(line for line in lines if line.number.served)
        return SizeTable(serving) if serving else None

    def schematics(self, block: Schematics) -> Schematics | None:
        """The drawings that one of the sizes has, and the lines of the table that speak of them."""
        drawings = []
        for each in block.drawings:
            served = _shared(each.served, (self.own[each.name],) if each.name in self.own else self.kept)
            measures = tuple(replace(measure, number=self.number(measure.number)) for measure in each.measures)
            if served:
                drawings.append(replace(each, title=self.inlines(each.title), served=served, measures=measures))
        lines = [replace(line, label=self.inlines(line.label), number=self.number(line.number)) for line in block.lines]
        kept = [(line, letter) for line, letter in zip(lines, block.letters, strict=True) if line.number.served]
        letters = tuple(letter for _, letter in kept)
        return (
            replace(block, drawings=tuple(drawings), lines=tuple(line for line, _ in kept), letters=letters)
            if drawings
            else None
        )

    def step(self, step: Step, around: Served, restricted: bool) -> Step | None:
        parts: list[Part] = []
        for part in step.parts:
            served = _shared(part.served, around)
            if served:
                tag = _needed_tag(part.tag, served, around, restricted)
                parts.append(Part(served, tag, self.tokens(part.tokens)))
                restricted = restricted or tag in (Tag.ONLY, Tag.OTHER)
        if not parts:
            return None
        if len(self.kept) == 1:
            parts = without_repeated_counts(parts, self.kept[0])
        return replace(step, label=self.tokens(step.label), parts=tuple(parts), served=_shared(step.served, around))

    def number(self, number: Number) -> Number:
        return replace(number, served=_shared(number.served, self.kept))

    def tokens(self, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
        return tuple(self.number(token) if isinstance(token, Number) else token for token in tokens)

    def inlines(self, inlines: tuple[Inline, ...]) -> tuple[Inline, ...]:
        return tuple(self.inline(inline) for inline in inlines)

    def inline(self, inline: Inline) -> Inline:
        match inline:
            case Number():
                return self.number(inline)
            case Strong() | Emphasis() | Link():
                return replace(inline, inlines=self.inlines(inline.inlines))
            case _:
                return inline


def _needed_tag(tag: Tag, served: Served, around: Served, restricted: bool) -> Tag:
    """A restriction is needed while it restricts; "All sizes" while something restricted stands before it."""
    if tag is Tag.ALL:
        return Tag.ALL if restricted else Tag.NONE
    return Tag.NONE if served == around else tag


def _restricts(block: Block) -> bool:
    match block:
        case Step():
            return any(part.tag in (Tag.ONLY, Tag.OTHER) for part in block.parts)
        case Passage() | Caution():
            return block.tag in (Tag.ONLY, Tag.OTHER)
        case _:
            return False
