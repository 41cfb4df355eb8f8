"""Second step of an edition: the Document set in type. Here, and nowhere after, numbers become text."""

from __future__ import annotations

from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.line_type import LineType
from stitchproof.editions.no_break import one_line
from stitchproof.editions.number_text import Setting, settings_of
from stitchproof.editions.print_document import (
    NO_BREAK,
    Kind,
    PlainText,
    PrintBlock,
    PrintBullets,
    PrintCaution,
    PrintDocument,
    PrintFigure,
    PrintHeading,
    PrintNote,
    PrintPassage,
    PrintProse,
    PrintSection,
    PrintSizeTable,
    PrintTitle,
    PrintTutorial,
    SizeColumn,
    SizeRow,
    Vector,
)
from stitchproof.editions.schematic_type import lettered, set_schematics
from stitchproof.editions.size_tags import ALL_SIZES, as_line, chosen_sizes, only_sizes
from stitchproof.editions.step_type import set_step
from stitchproof.editions.table_type import set_table
from stitchproof.editions.vectors import set_cells, set_line
from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Figure,
    Heading,
    Note,
    Number,
    Passage,
    Piece,
    Prose,
    Schematics,
    Section,
    Served,
    SizeLine,
    SizeList,
    SizeTable,
    Step,
    Table,
    Tag,
    Times,
    Tutorial,
    inlines_of,
)
from stitchproof.measures.published import FROM_MEMORY_MARK

HIGHEST_INNER_HEADING = 3
"""The title is of level 1, sections and pieces of level 2."""
SHORT_NAME = 2
"""Characters. A bracket of longer names may break after its commas."""
HOW_TO_READ = (
    "Numbers stand in the order {order}. One number alone is for all sizes of its line. "
    "A dash means that your size does not work it."
)
TERMS = {"us": "US terms", "uk": "UK terms"}


def set_type(document: Document, named: bool = False, kept: KeptParts | None = None) -> PrintDocument:
    """The Document as its words stand on the page: brackets, dashes, units, tags and unbreakable places decided.

    It decides no value and leaves nothing out. A number that could not be determined prints as "?". named: whether numbers
    keep the formulas that they were written as. kept: blocks that were set before.
    """
    if kept:
        kept.begin((document.sizes, document.units, named))
    page = _Page(LineType(document.sizes, document.units, named, kept), kept)
    sections = [page.section(Kind.FRONT, section) for section in document.front]
    sections += [page.piece(piece) for piece in document.pieces]
    sections += [page.section(Kind.FINISHING, section) for section in document.finishing]
    sections += [page.section(Kind.BACK, section) for section in document.back]
    order = _size_order(document.sizes)
    return PrintDocument(
        title=_title(document, page.line_type),
        sizes=_columns(document.sizes),
        chosen=chosen_sizes(document.sizes),
        how_to_read=HOW_TO_READ.replace("{order}", order) if order else "",
        sections=tuple(sections),
        size_order=order,
        yarn_of_a_mix=bool(document.sizes.by_piece) and any(map(_is_late, document.front)),
    )


def _is_late(section: Section) -> bool:
    """Whether it prints what only the worked rows could tell: these are worked for whole garments of one size."""
    inlines = (inline for block in section.blocks for inline in inlines_of(block))
    return any(isinstance(inline, Number) and inline.late is not None for inline in inlines)


class _Page(Struct, frozen=True):
    """One walk over the blocks. `around` is what the page has announced: the sizes of a piece or tagged passage."""

    line_type: LineType
    kept: KeptParts | None = None

    @property
    def chosen(self) -> Served:
        return self.line_type.sizes.chosen

    def section(self, kind: Kind, section: Section) -> PrintSection:
        title = (PlainText(one_line(section.title)),)
        return PrintSection(kind, section.key, title, "", self.blocks(_ranked(section.blocks), self.chosen))

    def piece(self, piece: Piece) -> PrintSection:
        sizes = self.line_type.sizes
        tag = "" if piece.served == self.chosen else as_line(only_sizes(piece.served, sizes))
        own = dict(sizes.by_piece).get(piece.name)
        if own is not None:
            tag = f"Size {sizes.called(own)}"
        title = self.line_type.prose(piece.heading.inlines)
        return PrintSection(Kind.PIECE, piece.name, title, tag, self.blocks(_ranked(piece.blocks), piece.served))

    def blocks(self, blocks: tuple[Block, ...], around: Served, opens_all: bool = False) -> tuple[PrintBlock, ...]:
        """opens_all: the first step of these blocks is the one to say "all sizes"."""
        printed: list[PrintBlock] = []
        for block in blocks:
            make = partial(self.block, block, around, opens_all and not printed)
            printed.extend(self.kept.get_of((block,), (around, make.args[2]), make) if self.kept else make())
        return tuple(printed)

    def block(self, block: Block, around: Served, opens_all: bool) -> tuple[PrintBlock, ...]:
        """What one block prints as; blocks tagged for no sizes of their own come one by one."""
        match block:
            case Step():
                return (set_step(block, around, self.line_type, opens_all),)
            case Passage():
                return self.passage(block, around)
            case Times():
                return (PrintPassage(f"Make {block.times}:", self.blocks(block.blocks, around)),)
            case Note():
                return (PrintNote(self.blocks(block.blocks, around)),)
            case Caution():
                tag = self.place_tag(block.tag, block.served, around)
                return (PrintCaution(as_line(tag), self.blocks(block.blocks, block.served)),)
            case SizeTable():
                return (self.size_table(block),)
            case Schematics():
                return (set_schematics(block, self.line_type, self.size_table(SizeTable(lettered(block)))),)
            case _:
                return (self.flowing(block),)

    def flowing(self, block: Heading | Prose | Bullets | Table | Figure | Tutorial) -> PrintBlock:
        prose = self.line_type.prose
        match block:
            case Figure():
                return PrintFigure(block.name, one_line(block.alt), prose(block.caption))
            case Tutorial():
                return PrintTutorial(prose(block.words), block.address)
            case Heading():
                return PrintHeading(max(block.level, HIGHEST_INNER_HEADING), prose(block.inlines))
            case Prose():
                return PrintProse(prose(block.inlines))
            case Bullets():
                return PrintBullets(tuple(prose(item) for item in block.items), block.numbered)
            case Table():
                rows = tuple(tuple(prose(cell) for cell in row) for row in block.rows)
                return set_table(tuple(prose(cell) for cell in block.head), rows)

    def passage(self, passage: Passage, around: Served) -> tuple[PrintBlock, ...]:
        """Steps carry the tag of their passage in their labels; anything else stands under a line that says it."""
        tag = self.place_tag(passage.tag, passage.served, around)
        if not tag:
            return self.blocks(passage.blocks, around)
        if _all_steps(passage.blocks):
            return self.blocks(passage.blocks, around, opens_all=passage.tag is Tag.ALL)
        return (PrintPassage(as_line(tag), self.blocks(passage.blocks, passage.served)),)

    def place_tag(self, tag: Tag, served: Served, around: Served) -> str:
        if tag is Tag.ALL:
            return ALL_SIZES
        if served == around and tag is Tag.NONE:
            return ""
        return only_sizes(served, self.line_type.sizes)

    def size_table(self, table: SizeTable) -> PrintSizeTable:
        rows = [row for line in table.lines for row in self.size_rows(line)]
        return PrintSizeTable(_columns(self.line_type.sizes), tuple(rows))

    def size_rows(self, line: SizeLine) -> list[SizeRow]:
        """A row for each unit the line's number prints in."""
        label = self.line_type.prose(line.label)
        settings = settings_of(line.number, self.line_type.units)
        recalled = line.number.published.from_memory if line.number.published else ()
        return [
            SizeRow(
                label,
                each.unit,
                set_cells(line.number, each, self.line_type.sizes),
                self.line_in_table(line.number, each),
                FROM_MEMORY_MARK if each.unit in recalled else "",
            )
            for each in settings
        ]

    def line_in_table(self, number: Number, setting: Setting) -> Vector:
        vector = set_line(number, setting, self.line_type.sizes)
        return replace(vector, written=number.written) if self.line_type.named else vector


def _all_steps(blocks: tuple[Block, ...]) -> bool:
    return all(isinstance(block, Step) or (isinstance(block, Passage) and _all_steps(block.blocks)) for block in blocks)


def _ranked(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """The headings inside a section, their levels drawn together so that none is skipped."""
    levels = sorted({block.level for block in blocks if isinstance(block, Heading)})
    rank = {level: min(HIGHEST_INNER_HEADING + place, 6) for place, level in enumerate(levels)}
    return tuple(
        Heading(rank[block.level], block.inlines, block.place) if isinstance(block, Heading) else block
        for block in blocks
    )


def _columns(sizes: SizeList) -> tuple[SizeColumn, ...]:
    return tuple(_column(size, sizes.called(size), sizes.names[size]) for size in sizes.chosen)


def _column(size: int, called: str, name: str) -> SizeColumn:
    return SizeColumn(size, called, "" if called == name else name)


def _title(document: Document, line_type: LineType) -> PrintTitle:
    block = document.title_block
    told = any(section.key == "licence" for section in document.back)
    return PrintTitle(
        title=one_line(block.title),
        designer=one_line(block.designer),
        revision=one_line(block.revision),
        date=one_line(block.date),
        contact=one_line(block.contact),
        licence="" if told else one_line(block.licence),
        terms=TERMS.get(block.terms.lower(), one_line(block.terms)),
        summary=line_type.prose(block.summary),
    )


def _size_order(sizes: SizeList) -> str:
    """How sized numbers are written, shown on the sizes' own names; "" for one size."""
    names = [sizes.called(size) for size in sizes.chosen]
    if len(names) == 1:
        return ""
    between = f",{NO_BREAK}" if max(map(len, names)) <= SHORT_NAME else ", "
    brackets, start = [], 1
    for length in (*sizes.groups, len(names)):
        if names[start : start + length]:
            brackets.append(f"({between.join(names[start : start + length])})")
        start += length
    return f"{names[0]}{NO_BREAK}{' '.join(brackets)}"
