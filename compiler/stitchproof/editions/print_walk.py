"""One walk over a PrintDocument that changes its lines and tables and nothing else."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.print_document import (
    PrintBlock,
    PrintBullets,
    PrintDocument,
    PrintFigure,
    PrintHeading,
    PrintInline,
    PrintProse,
    PrintSchematics,
    PrintSection,
    PrintSizeTable,
    PrintStep,
    PrintTable,
    PrintTablesAbreast,
    PrintTutorial,
)

Line = tuple[PrintInline, ...]


class PrintWalk(Struct, frozen=True):
    """What becomes of each line of text, of each table over the sizes, and of what stands above drawings."""

    line: Callable[[Line], Line]
    size_table: Callable[[PrintSizeTable], PrintSizeTable] = lambda table: table
    schematics: Callable[[PrintSchematics], PrintSchematics] = lambda block: block

    def document(self, document: PrintDocument) -> PrintDocument:
        """The document with all of them changed."""
        title = replace(document.title, summary=self.line(document.title.summary))
        return replace(document, title=title, sections=tuple(self._section(each) for each in document.sections))

    def _section(self, section: PrintSection) -> PrintSection:
        return replace(section, title=self.line(section.title), blocks=self._blocks(section.blocks))

    def _blocks(self, blocks: tuple[PrintBlock, ...]) -> tuple[PrintBlock, ...]:
        return tuple(self._block(block) for block in blocks)

    def _block(self, block: PrintBlock) -> PrintBlock:
        match block:
            case PrintStep():
                lines = tuple(replace(line, inlines=self.line(line.inlines)) for line in block.lines)
                return replace(block, label=self.line(block.label), lines=lines)
            case PrintHeading() | PrintProse():
                return replace(block, inlines=self.line(block.inlines))
            case PrintBullets():
                return replace(block, items=tuple(self.line(item) for item in block.items))
            case PrintTable():
                return self._table(block)
            case PrintTablesAbreast(halves=(left, right)):
                return PrintTablesAbreast((self._table(left), self._table(right)))
            case PrintSizeTable():
                return self._sizes(block)
            case PrintSchematics():
                drawings = tuple(replace(each, title=self.line(each.title)) for each in block.drawings)
                table = self._sizes(block.table) if block.table else None
                return self.schematics(replace(block, drawings=drawings, table=table))
            case PrintFigure():
                return replace(block, caption=self.line(block.caption))
            case PrintTutorial():
                return replace(block, words=self.line(block.words))
            case _:
                return replace(block, blocks=self._blocks(block.blocks))

    def _table(self, table: PrintTable) -> PrintTable:
        rows = tuple(tuple(self.line(cell) for cell in row) for row in table.rows)
        return PrintTable(tuple(self.line(cell) for cell in table.head), rows)

    def _sizes(self, table: PrintSizeTable) -> PrintSizeTable:
        rows = tuple(replace(row, label=self.line(row.label)) for row in table.rows)
        return self.size_table(replace(table, rows=rows))
