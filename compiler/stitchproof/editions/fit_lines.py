"""Fits every line of a PrintDocument to the page it is printed on: nothing held together is wider than its line."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.line_breaks import fit_line
from stitchproof.editions.print_document import (
    PrintBlock,
    PrintBullets,
    PrintCaution,
    PrintDocument,
    PrintFigure,
    PrintForSizes,
    PrintHeading,
    PrintInline,
    PrintNote,
    PrintPassage,
    PrintProse,
    PrintSchematics,
    PrintSection,
    PrintSizeTable,
    PrintStep,
    PrintTable,
    PrintTablesAbreast,
    PrintTutorial,
    StepLine,
    Vector,
)

Line = tuple[PrintInline, ...]
TITLE_SIZE = Fraction(8, 5)
"""A section's title is set in letters of so many times the size of the rows, in both shipped style sheets."""
MEASURE_SHARE = 4
"""The column of measures takes at least a quarter of a table over the sizes."""


def fit_lines(document: PrintDocument, room: int, kept: KeptParts | None = None) -> PrintDocument:
    """The document with places to break in what is longer than a line. room: what a line of a row holds, in figures.

    kept: blocks that were fitted before.
    """
    page = _Page(room, kept)
    return replace(
        document,
        title=replace(document.title, summary=fit_line(document.title.summary, room)),
        sections=tuple(page.section(section) for section in document.sections),
    )


class _Page(Struct, frozen=True):
    room: int
    kept: KeptParts | None = None

    def section(self, section: PrintSection) -> PrintSection:
        title = fit_line(section.title, int(self.room / TITLE_SIZE))
        return replace(section, title=title, blocks=self.blocks(section.blocks))

    def blocks(self, blocks: tuple[PrintBlock, ...]) -> tuple[PrintBlock, ...]:
        if self.kept is None:
            return tuple(self.block(block) for block in blocks)
        return tuple(self.kept.get((self.room, block), partial(self.block, block)) for block in blocks)

    def block(self, block: PrintBlock) -> PrintBlock:
        """One block, and those inside it."""
        match block:
            case PrintStep():
                return self.step(block)
            case PrintHeading() | PrintProse():
                return replace(block, inlines=fit_line(block.inlines, self.room))
            case PrintBullets():
                return replace(block, items=self.lines(block.items, self.room))
            case PrintTable():
                return self.table(block, 1)
            case PrintTablesAbreast(halves=(left, right)):
                return PrintTablesAbreast((self.table(left, 2), self.table(right, 2)))
            case PrintSizeTable():
                return self.size_table(block)
            case PrintFigure():
                return replace(block, caption=fit_line(block.caption, self.room))
            case PrintTutorial():
                return replace(block, words=fit_line(block.words, self.room))
            case PrintSchematics(table=table):
                return replace(block, table=self.size_table(table)) if table else block
            case PrintPassage() | PrintNote() | PrintCaution() | PrintForSizes():
                return replace(block, blocks=self.blocks(block.blocks))

    def size_table(self, table: PrintSizeTable) -> PrintSizeTable:
        labels = self.lines(tuple(row.label for row in table.rows), self.room // MEASURE_SHARE)
        rows = [
            replace(row, label=label, vector=self.vector(row.vector))
            for row, label in zip(table.rows, labels, strict=True)
        ]
        return replace(table, rows=tuple(rows))

    def vector(self, vector: Vector) -> Vector:
        (fitted,) = fit_line((vector,), self.room)
        return fitted if isinstance(fitted, Vector) else vector

    def lines(self, lines: tuple[Line, ...], room: int) -> tuple[Line, ...]:
        return tuple(fit_line(line, room) for line in lines)

    def step(self, step: PrintStep) -> PrintStep:
        """The label and the line that follows it are one line."""
        first, *others = step.lines
        label, opening = step.label, fit_line(first.inlines, self.room)
        if first.tag:
            label = fit_line(label, self.room)
        else:
            together = fit_line((*label, *first.inlines), self.room)
            label, opening = together[: len(label)], together[len(label) :]
        rest = [replace(line, inlines=fit_line(line.inlines, self.room)) for line in others]
        return replace(step, label=label, lines=(StepLine(first.tag, opening), *rest))

    def table(self, table: PrintTable, abreast: int) -> PrintTable:
        """Each column may have to do with an equal share of the line."""
        columns = max(len(row) for row in (table.head, *table.rows))
        room = self.room // (abreast * max(columns, 1))
        return PrintTable(self.lines(table.head, room), tuple(self.lines(row, room) for row in table.rows))
