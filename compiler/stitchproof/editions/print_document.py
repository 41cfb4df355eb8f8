"""The PrintDocument: every word and number as it stands on the page, before any HTML. Frozen.

Numbers are text here, but text that still knows which size reads it. Two templates print the same PrintDocument, one
for the screen and one for paper, and must show the same words.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from functools import lru_cache

from msgspec import Struct

from stitchproof.editions.print_worksheet import PrintWorksheet
from stitchproof.expansion.document import Role
from stitchproof.outlines.outline import Outline

NO_BREAK = "\N{NO-BREAK SPACE}"
DASH = "\N{EN DASH}"
"""This size does not work it (common practice, no source)."""
WORD_JOINER = "\N{WORD JOINER}"


class Entry(Struct, frozen=True):
    """One number of a vector. size: the index of the size that reads it, or None if every size of its place does.

    was: in a table that shows a change, what stood there before, "" where it is the same.
    """

    size: int | None
    text: str
    was: str = ""


class Vector(Struct, frozen=True):
    """A number for every size: the first group stands free, each further one in round brackets.

    unit: what follows it ("cm", "times"), or "". role: what the number does in its row. breaks: at which of its blanks,
    counted from 0, a line may end. written: its formula, where the page is one on which numbers can be asked about, else "".
    was: where a change is shown, what stood there before, or "".
    """

    groups: tuple[tuple[Entry, ...], ...]
    unit: str
    role: Role
    breaks: tuple[int, ...] = ()
    written: str = ""
    was: str = ""

    @property
    def text(self) -> str:
        """As one run of text, unit included; plain blanks only where a line may end."""
        return _text(self.groups, self.unit, self.breaks)

    @property
    def pieces(self) -> tuple[Entry, ...]:
        """The numbers and the signs between them, in order; a sign has no size."""
        return _broken(self.groups, self.unit, self.breaks)


@lru_cache(4096)
def _text(groups: tuple[tuple[Entry, ...], ...], unit: str, breaks: tuple[int, ...]) -> str:
    return "".join(piece.text for piece in _broken(groups, unit, breaks))


@lru_cache(4096)
def _broken(groups: tuple[tuple[Entry, ...], ...], unit: str, breaks: tuple[int, ...]) -> tuple[Entry, ...]:
    pieces: list[Entry] = []
    blanks = 0
    for piece in _pieces(groups, unit):
        if NO_BREAK in piece.text:
            if blanks in breaks:
                piece = Entry(None, piece.text.replace(NO_BREAK, " "))
            elif pieces and pieces[-1].text == DASH:  # where a no-break space is not enough (UAX 14, rule LB12a)
                piece = Entry(None, WORD_JOINER + piece.text)
            blanks += 1
        pieces.append(piece)
    return tuple(pieces)


def _pieces(groups: tuple[tuple[Entry, ...], ...], unit: str) -> Iterator[Entry]:
    """Numbers and signs, every blank a no-break space and every sign with one blank at most."""
    for place, group in enumerate(groups):
        if place:
            yield Entry(None, f"{NO_BREAK}(")
        for number, entry in enumerate(group):
            if number:
                yield Entry(None, f",{NO_BREAK}")
            yield entry
        if place:
            yield Entry(None, ")")
    if unit:
        yield Entry(None, NO_BREAK + unit)


class PlainText(Struct, frozen=True):
    """Words, with no-break spaces where a line must not end."""

    text: str


class Unbroken(Struct, frozen=True):
    """A word with hyphens that no line may break: sc-blo, ch-sp."""

    text: str


class StrongText(Struct, frozen=True):
    """Words that stand out: bold."""

    inlines: tuple[PrintInline, ...]


class EmphasisText(Struct, frozen=True):
    """Words that are stressed: italic."""

    inlines: tuple[PrintInline, ...]


class LinkText(Struct, frozen=True):
    """Words that lead somewhere: a http, https or mailto address, printed after the words unless they say it."""

    inlines: tuple[PrintInline, ...]
    address: str


class UnitText(Struct, frozen=True):
    """A length in one of its two units ("cm", "in"), or "both" for the sign between them. Only where a page can leave one
    unit out."""

    unit: str
    inlines: tuple[PrintInline, ...]


class TextForSizes(Struct, frozen=True):
    """A line as only some choices of a size read it. whole: whether it is read where all sizes stand together."""

    sizes: tuple[int, ...]
    whole: bool
    inlines: tuple[PrintInline, ...]


PrintInline = PlainText | Unbroken | Vector | StrongText | EmphasisText | LinkText | UnitText | TextForSizes


class PrintHeading(Struct, frozen=True):
    """A heading inside a section. level: 3 to 6, none skipped."""

    level: int
    inlines: tuple[PrintInline, ...]


class PrintProse(Struct, frozen=True):
    """A paragraph."""

    inlines: tuple[PrintInline, ...]


class PrintBullets(Struct, frozen=True):
    """A list, numbered or not."""

    items: tuple[tuple[PrintInline, ...], ...]
    numbered: bool


class PrintTable(Struct, frozen=True):
    """A table the designer wrote. head: one cell per column, or empty."""

    head: tuple[tuple[PrintInline, ...], ...]
    rows: tuple[tuple[tuple[PrintInline, ...], ...], ...]


class PrintTablesAbreast(Struct, frozen=True):
    """A long, narrow table in two halves that stand side by side where the page is wide enough."""

    halves: tuple[PrintTable, PrintTable]


class SizeColumn(Struct, frozen=True):
    """Head of a column: the size's index, what the text calls it, and its name if the text calls it by number."""

    size: int
    called: str
    name: str


class SizeRow(Struct, frozen=True):
    """One measurement in one unit: a cell per column of its table. mark: † where the figures are from memory, else "".

    vector: the same figures as they stand in a line, unit included.
    """

    label: tuple[PrintInline, ...]
    unit: str
    cells: tuple[Entry, ...]
    vector: Vector
    mark: str = ""


class PrintSizeTable(Struct, frozen=True):
    """A table with a column for each size. apart: whether one of its two units may be left out."""

    columns: tuple[SizeColumn, ...]
    rows: tuple[SizeRow, ...]
    apart: bool = False


class PrintMeasure(Struct, frozen=True):
    """A lettered line of a drawing. shown: its number in each unit ("44 cm", "17¼ in") where the page has one size, else
    none. start, end, run, beside: where it is drawn, as in pattern.yaml."""

    letter: str
    shown: tuple[str, ...]
    start: str
    end: str
    run: str
    beside: str


class PrintDrawing(Struct, frozen=True):
    """A piece drawn for one size, in cm. in_words: for those who do not see it. drawn_for: a size unlike the others', or ""."""

    name: str
    title: tuple[PrintInline, ...]
    outline: Outline
    lines: tuple[tuple[str, str], ...]
    measures: tuple[PrintMeasure, ...]
    in_words: str
    drawn_for: str


class PrintSchematics(Struct, frozen=True):
    """The drawings, all at one scale. drawn_for: how to read them. table: the letters over the sizes. size: the one they show,
    as it is called, or "" where there is no other. around: whether something lies double in them."""

    drawn_for: str
    drawings: tuple[PrintDrawing, ...]
    table: PrintSizeTable | None
    size: str = ""
    around: bool = False


class PrintFigure(Struct, frozen=True):
    """A photo by its name. alt: what is to be seen in it."""

    name: str
    alt: str
    caption: tuple[PrintInline, ...]


class PrintTutorial(Struct, frozen=True):
    """A page that shows how something is worked: on paper its address stands beside its code."""

    words: tuple[PrintInline, ...]
    address: str


class StepLine(Struct, frozen=True):
    """One part of a step. tag: the sizes it is for, with a colon, or "" where the label says so or all work it."""

    tag: str
    inlines: tuple[PrintInline, ...]


class PrintStep(Struct, frozen=True):
    """A written row. The first line follows the label if it has no tag, and begins with the blank between them; every
    other line begins anew. number: its number among the lines of the edition, 0 where they are not numbered."""

    identity: str
    label: tuple[PrintInline, ...]
    lines: tuple[StepLine, ...]
    number: int = 0


class PrintPassage(Struct, frozen=True):
    """Blocks under a line that says for which sizes, or how often, they are worked."""

    tag: str
    blocks: tuple[PrintBlock, ...]


class PrintNote(Struct, frozen=True):
    """An explanation beside the work."""

    blocks: tuple[PrintBlock, ...]


class PrintCaution(Struct, frozen=True):
    """tag: the sizes whose wearer it concerns, with a colon, or ""."""

    tag: str
    blocks: tuple[PrintBlock, ...]


class PrintForSizes(Struct, frozen=True):
    """Blocks that only some choices of a size show. whole: whether they stand where all sizes do together."""

    sizes: tuple[int, ...]
    whole: bool
    blocks: tuple[PrintBlock, ...]


PrintBlock = (
    PrintHeading
    | PrintProse
    | PrintBullets
    | PrintTable
    | PrintTablesAbreast
    | PrintSizeTable
    | PrintSchematics
    | PrintFigure
    | PrintTutorial
    | PrintStep
    | PrintPassage
    | PrintNote
    | PrintCaution
    | PrintForSizes
)


class Kind(Enum):
    """Where in the document a section stands."""

    FRONT = "front"
    PIECE = "pieces"
    FINISHING = "finishing"
    BACK = "back"


class PrintSection(Struct, frozen=True):
    """A titled part. key: the section's or piece's name. tag: the sizes that have this piece, or "". sizes: the choices of
    one size that show it; None for all."""

    kind: Kind
    key: str
    title: tuple[PrintInline, ...]
    tag: str
    blocks: tuple[PrintBlock, ...]
    sizes: tuple[int, ...] | None = None


class PrintTitle(Struct, frozen=True):
    """What the head of the first page and the foot of every page say. licence: "" if a section of its own tells it."""

    title: str
    designer: str
    revision: str
    date: str
    contact: str
    licence: str
    terms: str
    summary: tuple[PrintInline, ...]


class PrintDocument(Struct, frozen=True):
    """A pattern set in type.

    sizes: the columns in order. chosen: the sizes in words if they are not all ("Sizes 1 Baby and 2 Toddler"), else "".
    how_to_read: how its sized numbers are written, or "". size_order: the sizes as a bracketed number shows them, or "".
    yarn_of_a_mix: whether it prints amounts of yarn for whole garments, and its pieces are of different sizes.
    choices: where the reader chooses her size on the page, each with its words ("Size 1 Baby"). units: those that she may
    leave out. key: tells this pattern and revision from every other.
    """

    title: PrintTitle
    sizes: tuple[SizeColumn, ...]
    chosen: str
    how_to_read: str
    sections: tuple[PrintSection, ...]
    size_order: str = ""
    worksheet: PrintWorksheet | None = None
    yarn_of_a_mix: bool = False
    choices: tuple[tuple[SizeColumn, str], ...] = ()
    units: tuple[str, ...] = ()
    key: str = ""


def visible_text(inlines: tuple[PrintInline, ...]) -> str:
    """The words and numbers of a line as a reader sees them, no-break spaces as plain ones."""
    return "".join(_visible(inline) for inline in inlines).replace(NO_BREAK, " ").replace(WORD_JOINER, "")


def _visible(inline: PrintInline) -> str:
    match inline:
        case PlainText() | Unbroken() | Vector():
            return inline.text
        case LinkText():
            return visible_text(inline.inlines) + (f" ({inline.address})" if shows_address(inline) else "")
        case TextForSizes(whole=False):
            return ""
        case StrongText() | EmphasisText() | UnitText() | TextForSizes():
            return visible_text(inline.inlines)


def shows_address(link: LinkText) -> bool:
    """Whether the address still has to be printed after the words."""
    return visible_text(link.inlines) not in (link.address, link.address.removeprefix("mailto:"))
