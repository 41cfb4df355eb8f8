"""The words of a page after a change, each number that is another one with what stood there before."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from stitchproof.editions.print_document import (
    NO_BREAK,
    WORD_JOINER,
    EmphasisText,
    LinkText,
    PrintBlock,
    PrintBullets,
    PrintCaution,
    PrintDocument,
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
    SizeRow,
    StrongText,
    Vector,
)

Line = tuple[PrintInline, ...]
Blocks = tuple[PrintBlock, ...]
FRAMES = (PrintPassage, PrintNote, PrintCaution)


def with_old_numbers(old: PrintDocument, new: PrintDocument) -> PrintDocument:
    """The new document. A number is held against the one at the same place of the same row, paragraph or measure; where a line
    has more or fewer numbers than before, nothing is said of it."""
    before = {(section.kind, section.key): section for section in old.sections}
    sections = (_section(before.get((each.kind, each.key)), each) for each in new.sections)
    summary = _line(old.title.summary, new.title.summary)
    return replace(new, title=replace(new.title, summary=summary), sections=tuple(sections))


def _section(old: PrintSection | None, new: PrintSection) -> PrintSection:
    return replace(new, blocks=_blocks(old.blocks, new.blocks)) if old else new


def _blocks(old: Blocks, new: Blocks) -> Blocks:
    """Rows by their identity; other blocks by their place among those of their kind, where there are as many."""
    rows = {each.identity: each for each in old if isinstance(each, PrintStep)}
    kinds = {kind: [each for each in old if type(each) is kind] for kind in {type(each) for each in new}}
    now = {kind: sum(type(each) is kind for each in new) for kind in kinds}
    seen = dict.fromkeys(kinds, 0)
    changed: list[PrintBlock] = []
    for block in new:
        kind, place = type(block), seen[type(block)]
        seen[kind] += 1
        if isinstance(block, PrintStep):
            before: PrintBlock | None = rows.get(block.identity)
        else:
            before = kinds[kind][place] if len(kinds[kind]) == now[kind] else None
        changed.append(_block(before, block) if before else block)
    return tuple(changed)


def _block(old: PrintBlock, new: PrintBlock) -> PrintBlock:
    if isinstance(old, PrintStep) and isinstance(new, PrintStep):
        return _step(old, new)
    if isinstance(old, PrintProse | PrintHeading) and isinstance(new, PrintProse | PrintHeading):
        return replace(new, inlines=_line(old.inlines, new.inlines))
    if isinstance(old, PrintBullets) and isinstance(new, PrintBullets):
        return replace(new, items=_lines(old.items, new.items))
    if isinstance(old, PrintTable) and isinstance(new, PrintTable) and len(old.rows) == len(new.rows):
        return replace(new, rows=tuple(_lines(was, now) for was, now in zip(old.rows, new.rows, strict=True)))
    if isinstance(old, PrintSizeTable) and isinstance(new, PrintSizeTable):
        return _size_table(old, new)
    if isinstance(old, PrintSchematics) and isinstance(new, PrintSchematics):
        return replace(new, table=_size_table(old.table, new.table)) if old.table and new.table else new
    if isinstance(old, FRAMES) and isinstance(new, FRAMES):
        return replace(new, blocks=_blocks(old.blocks, new.blocks))
    return new


def _step(old: PrintStep, new: PrintStep) -> PrintStep:
    if len(old.lines) != len(new.lines):
        return new
    lines = (
        replace(now, inlines=_line(was.inlines, now.inlines)) for was, now in zip(old.lines, new.lines, strict=True)
    )
    return replace(new, label=_line(old.label, new.label), lines=tuple(lines))


def _size_table(old: PrintSizeTable, new: PrintSizeTable) -> PrintSizeTable:
    if old.columns != new.columns:
        return new
    before = {(row.label, row.unit): row for row in old.rows}
    return replace(new, rows=tuple(_size_row(before.get((row.label, row.unit)), row) for row in new.rows))


def _size_row(old: SizeRow | None, new: SizeRow) -> SizeRow:
    if old is None:
        return new
    cells = tuple(
        now if was.text == now.text else replace(now, was=was.text)
        for was, now in zip(old.cells, new.cells, strict=True)
    )
    (vector,) = _line((old.vector,), (new.vector,))
    return replace(new, cells=cells, vector=vector if isinstance(vector, Vector) else new.vector)


def _lines(old: tuple[Line, ...], new: tuple[Line, ...]) -> tuple[Line, ...]:
    if len(old) != len(new):
        return new
    return tuple(_line(was, now) for was, now in zip(old, new, strict=True))


def _line(old: Line, new: Line) -> Line:
    before, after = [*_vectors(old)], [*_vectors(new)]
    if len(before) != len(after) or before == after:
        return new
    return _rebuilt(new, iter([_vector(was, now) for was, now in zip(before, after, strict=True)]))


def _vector(old: Vector, new: Vector) -> Vector:
    if old.text == new.text:
        return new
    return replace(new, was=old.text.replace(NO_BREAK, " ").replace(WORD_JOINER, ""))


def _vectors(line: Line) -> Iterator[Vector]:
    for inline in line:
        if isinstance(inline, Vector):
            yield inline
        elif isinstance(inline, StrongText | EmphasisText | LinkText):
            yield from _vectors(inline.inlines)


def _rebuilt(line: Line, vectors: Iterator[Vector]) -> Line:
    rebuilt: list[PrintInline] = []
    for inline in line:
        if isinstance(inline, Vector):
            rebuilt.append(next(vectors))
        elif isinstance(inline, StrongText | EmphasisText | LinkText):
            rebuilt.append(replace(inline, inlines=_rebuilt(inline.inlines, vectors)))
        else:
            rebuilt.append(inline)
    return tuple(rebuilt)
