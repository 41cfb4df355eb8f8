"""Where the worked rows come back to the text: the Numbers that waited for them get their values, all else stays as it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic, used_from
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Emphasis,
    Heading,
    Inline,
    Link,
    Note,
    Number,
    Passage,
    Piece,
    Prose,
    Section,
    SizeLine,
    SizeTable,
    Strong,
    Table,
    Times,
)
from stitchproof.expansion.expanded_pattern import LateSlot
from stitchproof.formulas.evaluation import evaluate
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.sizing.sized_pattern import SizedPattern

T = TypeVar("T")


def with_late_numbers(document: Document, late: tuple[LateSlot, ...], sized: SizedPattern, report: Report) -> Document:
    """The Document with its late Numbers worked out. Steps are the same objects as before: no row holds such a number."""
    if not late:
        return document
    filler = _Filler([_values(slot, sized, report) for slot in late])
    title = document.title_block
    return replace(
        document,
        title_block=replace(title, summary=filler.inlines(title.summary)),
        front=filler.sections(document.front),
        pieces=filler.each(filler.piece, document.pieces),
        finishing=filler.sections(document.finishing),
        back=filler.sections(document.back),
    )


def _values(slot: LateSlot, sized: SizedPattern, report: Report) -> PerSize:
    scope = replace(slot.scope, outer=sized.scope)
    values: list[Value] = []
    for size, name in enumerate(sized.sizes):
        value = evaluate(slot.formula, scope, size) if size in slot.served else Absent.UNKNOWN
        if isinstance(value, Diagnostic):
            report.add(replace(value, sizes=(name,), related=value.related + used_from(slot.place)))
            value = Absent.UNKNOWN
        values.append(value)
    return tuple(values)


class _Filler:
    """Puts values in. What holds no late Number is handed back as it is, the same object."""

    def __init__(self, values: list[PerSize]) -> None:
        self.values = values

    def each(self, fill: Callable[[T], T], items: tuple[T, ...]) -> tuple[T, ...]:
        filled = tuple(fill(item) for item in items)
        return items if all(new is old for new, old in zip(filled, items, strict=True)) else filled

    def sections(self, sections: tuple[Section, ...]) -> tuple[Section, ...]:
        return self.each(self.section, sections)

    def section(self, section: Section) -> Section:
        blocks = self.blocks(section.blocks)
        return section if blocks is section.blocks else replace(section, blocks=blocks)

    def piece(self, piece: Piece) -> Piece:
        heading, blocks = self.block(piece.heading), self.blocks(piece.blocks)
        return (
            piece
            if heading is piece.heading and blocks is piece.blocks
            else replace(piece, heading=heading, blocks=blocks)
        )

    def blocks(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        return self.each(self.block, blocks)

    def block(self, block: Block) -> Block:
        match block:
            case Heading() | Prose():
                inlines = self.inlines(block.inlines)
                return block if inlines is block.inlines else replace(block, inlines=inlines)
            case Bullets():
                items = self.each(self.inlines, block.items)
                return block if items is block.items else replace(block, items=items)
            case Table():
                head, rows = self.each(self.inlines, block.head), self.each(self.cells, block.rows)
                return block if head is block.head and rows is block.rows else replace(block, head=head, rows=rows)
            case SizeTable():
                lines = self.each(self.line, block.lines)
                return block if lines is block.lines else replace(block, lines=lines)
            case Passage() | Times() | Note() | Caution():
                inner = self.blocks(block.blocks)
                return block if inner is block.blocks else replace(block, blocks=inner)
            case _:
                return block

    def cells(self, row: tuple[tuple[Inline, ...], ...]) -> tuple[tuple[Inline, ...], ...]:
        return self.each(self.inlines, row)

    def line(self, line: SizeLine) -> SizeLine:
        label, number = self.inlines(line.label), self.number(line.number)
        return line if label is line.label and number is line.number else SizeLine(label, number)

    def inlines(self, inlines: tuple[Inline, ...]) -> tuple[Inline, ...]:
        return self.each(self.inline, inlines)

    def inline(self, inline: Inline) -> Inline:
        if isinstance(inline, Number):
            return self.number(inline)
        if isinstance(inline, Strong | Emphasis | Link):
            inner = self.inlines(inline.inlines)
            return inline if inner is inline.inlines else replace(inline, inlines=inner)
        return inline

    def number(self, number: Number) -> Number:
        return number if number.late is None else replace(number, values=self.values[number.late])
