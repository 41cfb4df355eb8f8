"""The Document: what a pattern says, every number still a number with one value per size.

Frozen. Made by expansion, enriched by rows, read by checks and editions. A Number becomes text only in an edition.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from msgspec import Struct

from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import Dimension
from stitchproof.measures.published import Published
from stitchproof.measures.values import PerSize
from stitchproof.outlines.outline import Outline
from stitchproof.source import Place

Served = tuple[int, ...]
"""Indexes of the sizes that a place serves, in the pattern's order."""


class SizeList(Struct, frozen=True):
    """The sizes in order: their names, how the text calls them, and how bracketed numbers are grouped.

    groups: how many sizes stand in each bracket after the first size, which stands alone.
    chosen: the sizes this Document serves (all of them, until an edition chooses).
    by_piece: where pieces are made in sizes of their own: each piece's name, and its size.
    """

    names: tuple[str, ...]
    called_by_number: bool
    groups: tuple[int, ...]
    chosen: Served
    by_piece: tuple[tuple[str, int], ...] = ()

    def called(self, index: int) -> str:
        """What the text calls a size: its name, or its number in the list."""
        return str(index + 1) if self.called_by_number else self.names[index]


class Role(Enum):
    """What a number does in its row or table."""

    PLAIN = "plain"
    TIMES = "times"
    STATED_COUNT = "stated count"
    ROW_NUMBER = "row number"
    LENGTH = "length"


class Text(Struct, frozen=True):
    """Words as written."""

    text: str
    place: Place


class Number(Struct, frozen=True):
    """One slot. `values` has one entry per size of the pattern; those outside `served` are not looked at.

    written: the formula as the designer wrote it. noun: the unit word that belongs to it ("sts", "rows", "cm"), or "".
    published: of a row of a body table that stands alone in its slot, the figures to print in place of worked-out ones.
    late: of a number that only the worked rows give a value, its place in the list of those; None of any other.
    """

    values: PerSize
    served: Served
    dimension: Dimension
    noun: str
    print_as: PrintAs
    role: Role
    written: str
    place: Place
    published: Published | None = None
    late: int | None = None


class Word(Struct, frozen=True):
    """A stitch or trade abbreviation found in the text. `entry` is its key in the lexicon, `as_written` its spelling here."""

    entry: str
    as_written: str
    place: Place


class Strong(Struct, frozen=True):
    """Words that stand out."""

    inlines: tuple[Inline, ...]


class Emphasis(Struct, frozen=True):
    """Words that are stressed."""

    inlines: tuple[Inline, ...]


class Link(Struct, frozen=True):
    """Words that lead to an address."""

    inlines: tuple[Inline, ...]
    address: str


Token = Text | Number | Word
Inline = Text | Number | Word | Strong | Emphasis | Link


class Tag(Enum):
    """Whether the sizes of a place are printed before it, and in which words."""

    NONE = "none"
    ONLY = "only"
    """Some of the sizes: "Sizes 1, 2 and 4 only"."""
    OTHER = "other"
    """The sizes that the places before it left over: also printed by name."""
    ALL = "all"
    """All sizes again, after a tagged place: "All sizes"."""


class Heading(Struct, frozen=True):
    """A heading inside a piece or section."""

    level: int
    inlines: tuple[Inline, ...]
    place: Place


class Prose(Struct, frozen=True):
    """A paragraph."""

    inlines: tuple[Inline, ...]


class Bullets(Struct, frozen=True):
    """A list; `numbered` where its order matters."""

    items: tuple[tuple[Inline, ...], ...]
    numbered: bool


class Table(Struct, frozen=True):
    """A table of words: a head and rows of cells."""

    head: tuple[tuple[Inline, ...], ...]
    rows: tuple[tuple[tuple[Inline, ...], ...], ...]


class SizeLine(Struct, frozen=True):
    """One line of a table over the sizes: a label and a number."""

    label: tuple[Inline, ...]
    number: Number


class SizeTable(Struct, frozen=True):
    """A table with a column for each size."""

    lines: tuple[SizeLine, ...]


class MeasureLine(Struct, frozen=True):
    """A measured line of a drawing: its letter, and the number it shows; where it is drawn as in pattern.yaml."""

    letter: str
    number: Number
    start: str
    end: str
    run: str
    around: bool
    beside: str


class Schematic(Struct, frozen=True):
    """The drawing of a piece. outlines: one per size of the pattern, None where it has none. lines: corners joined by a
    thin line."""

    name: str
    title: tuple[Inline, ...]
    served: Served
    outlines: tuple[Outline | None, ...]
    lines: tuple[tuple[str, str], ...]
    measures: tuple[MeasureLine, ...]


class Schematics(Struct, frozen=True):
    """The drawings of a pattern, all at one scale, and the table of what is measured on them; a letter means one measure.

    lines: of the table, by letter in the order of the alphabet. sample: the size they are drawn for where it is among
    those that print, or None.
    """

    drawings: tuple[Schematic, ...]
    lines: tuple[SizeLine, ...]
    letters: tuple[str, ...]
    sample: int | None


class Figure(Struct, frozen=True):
    """A photo: its file as it is, what is to be seen in it in plain words, and its caption. file: where it is named."""

    name: str
    content: bytes
    alt: str
    caption: tuple[Inline, ...]
    file: Place


class Tutorial(Struct, frozen=True):
    """A page that shows how something is worked."""

    words: tuple[Inline, ...]
    address: str


class Part(Struct, frozen=True):
    """One part of a step: the sizes it serves, how they are named before it, and its words as written."""

    served: Served
    tag: Tag
    tokens: tuple[Token, ...]


class Step(Struct, frozen=True):
    """One written line of a piece, verbatim. `identity` is stable over revisions: piece / label / loop values.

    gauge: the name of the gauge it is worked at, by its piece or the heading it stands under; "" where none is known.
    trust: why the designer wants it taken as it stands, without proof, or "".
    """

    identity: str
    piece: str
    label: tuple[Token, ...]
    parts: tuple[Part, ...]
    served: Served
    place: Place
    gauge: str = ""
    trust: str = ""


class Passage(Struct, frozen=True):
    """Blocks for some sizes only. `chosen_by` holds the condition as written."""

    served: Served
    tag: Tag
    blocks: tuple[Block, ...]
    chosen_by: str
    place: Place


class Times(Struct, frozen=True):
    """Blocks to be made more than once: "make 2"."""

    times: int
    blocks: tuple[Block, ...]
    place: Place


class Note(Struct, frozen=True):
    """Explanation beside the steps; no instruction stands in it."""

    blocks: tuple[Block, ...]


class Caution(Struct, frozen=True):
    """A safety text. `served`: the sizes whose wearer it concerns."""

    served: Served
    tag: Tag
    blocks: tuple[Block, ...]


Block = (
    Heading
    | Prose
    | Bullets
    | Table
    | SizeTable
    | Schematics
    | Figure
    | Tutorial
    | Step
    | Passage
    | Times
    | Note
    | Caution
)


class Section(Struct, frozen=True):
    """A titled part before or after the pieces. `key` names it for an edition's list of parts."""

    key: str
    title: str
    blocks: tuple[Block, ...]


class Piece(Struct, frozen=True):
    """A worked piece. `name` is its key in pattern.yaml; `heading` its title as printed."""

    name: str
    heading: Heading
    served: Served
    blocks: tuple[Block, ...]


class TitleBlock(Struct, frozen=True):
    """Who and what: everything the title and the foot of each page need. All plain text but the summary."""

    title: str
    designer: str
    revision: str
    date: str
    contact: str
    licence: str
    terms: str
    summary: tuple[Inline, ...]


class Document(Struct, frozen=True):
    """A pattern, ready to be chosen from and printed. `units`: cm, in or both, the first one leading."""

    title_block: TitleBlock
    sizes: SizeList
    units: tuple[str, ...]
    front: tuple[Section, ...]
    pieces: tuple[Piece, ...]
    finishing: tuple[Section, ...]
    back: tuple[Section, ...]


def inlines_of(block: Block) -> Iterator[Inline]:
    """Every inline of a block and of the blocks inside it, in reading order; emphasis and links opened up."""
    match block:
        case Heading() | Prose():
            yield from _opened(block.inlines)
        case Bullets():
            for item in block.items:
                yield from _opened(item)
        case Table():
            for cells in (block.head, *block.rows):
                for cell in cells:
                    yield from _opened(cell)
        case SizeTable() | Schematics():
            for line in block.lines:
                yield from (*_opened(line.label), line.number)
        case Figure():
            yield from _opened(block.caption)
        case Tutorial():
            yield from _opened(block.words)
        case Step():
            yield from block.label
            for part in block.parts:
                yield from part.tokens
        case Passage() | Times() | Note() | Caution():
            for inner in block.blocks:
                yield from inlines_of(inner)


def _opened(inlines: tuple[Inline, ...]) -> Iterator[Inline]:
    for inline in inlines:
        if isinstance(inline, Strong | Emphasis | Link):
            yield from _opened(inline.inlines)
        else:
            yield inline


def steps_of(blocks: tuple[Block, ...]) -> Iterator[Step]:
    """Every step of some blocks and of the blocks inside them."""
    for block in blocks:
        if isinstance(block, Step):
            yield block
        elif isinstance(block, Passage | Times):
            yield from steps_of(block.blocks)


def blocks_within(block: Block) -> Iterator[Block]:
    """A block and every block inside it."""
    yield block
    if isinstance(block, Passage | Times | Note | Caution):
        for inner in block.blocks:
            yield from blocks_within(inner)


def blocks_of(document: Document) -> Iterator[Block]:
    """Every outermost block, front to back."""
    for section in document.front:
        yield from section.blocks
    for piece in document.pieces:
        yield piece.heading
        yield from piece.blocks
    for section in (*document.finishing, *document.back):
        yield from section.blocks
