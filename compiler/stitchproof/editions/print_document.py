"""The PrintDocument: every word and number as it stands on the page, before any HTML. Frozen.

Numbers are text here, but text that still knows which size reads it. Two templates print the same PrintDocument, one
for the screen and one for paper, and must show the same words.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from stitchproof.expansion.document import Role

NO_BREAK = "\N{NO-BREAK SPACE}"
DASH = "\N{EN DASH}"
"""This size does not work it (common practice, no source)."""
WORD_JOINER = "\N{WORD JOINER}"
FITS_A_LINE = 60
"""A vector of up to this many characters stays on one line of the printed page, which takes about ninety."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One number of a vector. size: the index of the size that reads it, or None if every size of its place does."""

    size: int | None
    text: str


@dataclass(frozen=True, slots=True)
class Vector:
    """A number for every size: the first group stands free, each further one in round brackets.

    unit: what follows it ("cm", "times"), or "". role: what the number does in its row.
    """

    groups: tuple[tuple[Entry, ...], ...]
    unit: str
    role: Role

    @property
    def text(self) -> str:
        """As one run of text, unit included. The only plain blanks, where a line may break, stand between brackets."""
        free, *brackets = [f",{NO_BREAK}".join(entry.text for entry in group) for group in self.groups]
        bracketed = " ".join(f"({bracket})" for bracket in brackets)
        return NO_BREAK.join(piece for piece in (free, bracketed, self.unit) if piece)

    @property
    def on_one_line(self) -> str:
        """The text as paper shows it: if it fits a line, no break is left in it. After a dash a no-break space is not
        enough (Unicode line breaking, UAX 14, rule LB12a), so a word joiner stands between them."""
        if len(self.text) > FITS_A_LINE:
            return self.text
        return self.text.replace(" ", NO_BREAK).replace(f"{DASH}{NO_BREAK}", f"{DASH}{WORD_JOINER}{NO_BREAK}")


@dataclass(frozen=True, slots=True)
class PlainText:
    """Words, with no-break spaces where a line must not end."""

    text: str


@dataclass(frozen=True, slots=True)
class Unbroken:
    """A word with hyphens that no line may break: sc-blo, ch-sp."""

    text: str


@dataclass(frozen=True, slots=True)
class StrongText:
    """Words that stand out: bold."""

    inlines: tuple[PrintInline, ...]


@dataclass(frozen=True, slots=True)
class EmphasisText:
    """Words that are stressed: italic."""

    inlines: tuple[PrintInline, ...]


@dataclass(frozen=True, slots=True)
class LinkText:
    """Words that lead somewhere: a http, https or mailto address, printed after the words unless they say it."""

    inlines: tuple[PrintInline, ...]
    address: str


PrintInline = PlainText | Unbroken | Vector | StrongText | EmphasisText | LinkText


@dataclass(frozen=True, slots=True)
class PrintHeading:
    """A heading inside a section. level: 3 to 6, none skipped."""

    level: int
    inlines: tuple[PrintInline, ...]


@dataclass(frozen=True, slots=True)
class PrintProse:
    """A paragraph."""

    inlines: tuple[PrintInline, ...]


@dataclass(frozen=True, slots=True)
class PrintBullets:
    """A list, numbered or not."""

    items: tuple[tuple[PrintInline, ...], ...]
    numbered: bool


@dataclass(frozen=True, slots=True)
class PrintTable:
    """A table the designer wrote. head: one cell per column, or empty."""

    head: tuple[tuple[PrintInline, ...], ...]
    rows: tuple[tuple[tuple[PrintInline, ...], ...], ...]


@dataclass(frozen=True, slots=True)
class SizeColumn:
    """Head of a column: the size's index, what the text calls it, and its name if the text calls it by number."""

    size: int
    called: str
    name: str


@dataclass(frozen=True, slots=True)
class SizeRow:
    """One measurement in one unit: a cell per column of its table."""

    label: tuple[PrintInline, ...]
    unit: str
    cells: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class PrintSizeTable:
    """A table with a column for each size."""

    columns: tuple[SizeColumn, ...]
    rows: tuple[SizeRow, ...]


@dataclass(frozen=True, slots=True)
class StepLine:
    """One part of a step. tag: the sizes it is for, with a colon, or "" where the label says so or all work it."""

    tag: str
    inlines: tuple[PrintInline, ...]


@dataclass(frozen=True, slots=True)
class PrintStep:
    """A written row. The first line follows the label if it has no tag; every other line begins anew."""

    identity: str
    label: tuple[PrintInline, ...]
    lines: tuple[StepLine, ...]


@dataclass(frozen=True, slots=True)
class PrintPassage:
    """Blocks under a line that says for which sizes, or how often, they are worked."""

    tag: str
    blocks: tuple[PrintBlock, ...]


@dataclass(frozen=True, slots=True)
class PrintNote:
    """An explanation beside the work."""

    blocks: tuple[PrintBlock, ...]


@dataclass(frozen=True, slots=True)
class PrintCaution:
    """tag: the sizes whose wearer it concerns, with a colon, or ""."""

    tag: str
    blocks: tuple[PrintBlock, ...]


PrintBlock = (
    PrintHeading
    | PrintProse
    | PrintBullets
    | PrintTable
    | PrintSizeTable
    | PrintStep
    | PrintPassage
    | PrintNote
    | PrintCaution
)


class Kind(Enum):
    """Where in the document a section stands."""

    FRONT = "front"
    PIECE = "pieces"
    FINISHING = "finishing"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class PrintSection:
    """A titled part. key: the section's or piece's name. tag: the sizes that have this piece, or ""."""

    kind: Kind
    key: str
    title: tuple[PrintInline, ...]
    tag: str
    blocks: tuple[PrintBlock, ...]


@dataclass(frozen=True, slots=True)
class PrintTitle:
    """What the head of the first page and the foot of every page say. licence: "" if a section of its own tells it."""

    title: str
    designer: str
    revision: str
    date: str
    contact: str
    licence: str
    terms: str
    summary: tuple[PrintInline, ...]


@dataclass(frozen=True, slots=True)
class PrintDocument:
    """A pattern set in type. sizes: the columns in order; how_to_read: how its sized numbers are written, or ""."""

    title: PrintTitle
    sizes: tuple[SizeColumn, ...]
    how_to_read: str
    sections: tuple[PrintSection, ...]


def visible_text(inlines: tuple[PrintInline, ...]) -> str:
    """The words and numbers of a line as a reader sees them, no-break spaces as plain ones."""
    return "".join(_visible(inline) for inline in inlines).replace(NO_BREAK, " ")


def _visible(inline: PrintInline) -> str:
    match inline:
        case PlainText() | Unbroken() | Vector():
            return inline.text
        case LinkText():
            return visible_text(inline.inlines) + (f" ({inline.address})" if shows_address(inline) else "")
        case StrongText() | EmphasisText():
            return visible_text(inline.inlines)


def shows_address(link: LinkText) -> bool:
    """Whether the address still has to be printed after the words."""
    return visible_text(link.inlines) not in (link.address, link.address.removeprefix("mailto:"))
