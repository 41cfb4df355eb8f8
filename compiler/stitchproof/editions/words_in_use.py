"""The lists of abbreviations and special stitches, less what the chosen sizes do not use."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from stitchproof.expansion.document import Block, Document, Inline, Section, Table, Text, Word, blocks_of, inlines_of

ABBREVIATIONS, SPECIAL = "abbreviations", "special_stitches"

Row = tuple[tuple[Inline, ...], ...]


def only_words_in_use(document: Document) -> Document:
    """The Document with exactly the abbreviations and special stitches that its other text uses, in alphabetical order.

    A special stitch that is used only in the definition of another counts as used.
    """
    lists = {section.key: section for section in document.front if section.key in (ABBREVIATIONS, SPECIAL)}
    listed = {id(block) for section in lists.values() for block in section.blocks}
    used = set(_words(block for block in blocks_of(document) if id(block) not in listed))
    used |= {inline.entry for inline in document.title_block.summary if isinstance(inline, Word)}
    kept: tuple[Section, ...] = document.front
    if SPECIAL in lists:
        stitches = [row for block in lists[SPECIAL].blocks if isinstance(block, Table) for row in block.rows]
        used |= _used_in_definitions(stitches, used)
        kept = _with_rows(kept, SPECIAL, used)
    return replace(document, front=_with_rows(kept, ABBREVIATIONS, used))


def _used_in_definitions(stitches: list[Row], used: set[str]) -> set[str]:
    """What the definitions of used stitches use, and those of the stitches used there."""
    found: set[str] = set()
    while more := {
        word for name, *how in stitches if _entry(name) in used | found for cell in how for word in _entries(cell)
    } - (used | found):
        found |= more
    return found


def _with_rows(front: tuple[Section, ...], key: str, used: set[str]) -> tuple[Section, ...]:
    """The sections, the tables of one with only the rows of used words; without it where none is left."""
    kept = []
    for section in front:
        if section.key == key:
            section = replace(section, blocks=tuple(_table(block, used) for block in section.blocks))
        if section.key != key or any(not isinstance(block, Table) or block.rows for block in section.blocks):
            kept.append(section)
    return tuple(kept)


def _table(block: Block, used: set[str]) -> Block:
    if not isinstance(block, Table):
        return block
    rows = [row for row in block.rows if _entry(row[0]) in used or _entry(row[0]) is None]
    rows = [
        row for row in rows if len(row) < 2 or _spelling(row[0]) != _plain_text(row[1])
    ]  # "miss" is no abbreviation
    return replace(block, rows=tuple(sorted(rows, key=lambda row: _spelling(row[0]))))


def _entry(cell: tuple[Inline, ...]) -> str | None:
    return next(_entries(cell), None)


def _entries(cell: Iterable[Inline]) -> Iterator[str]:
    return (inline.entry for inline in cell if isinstance(inline, Word))


def _spelling(cell: tuple[Inline, ...]) -> str:
    return next((inline.as_written.lower() for inline in cell if isinstance(inline, Word)), "")


def _plain_text(cell: tuple[Inline, ...]) -> str:
    return "".join(inline.text for inline in cell if isinstance(inline, Text)).lower()


def _words(blocks: Iterable[Block]) -> Iterator[str]:
    return (inline.entry for block in blocks for inline in inlines_of(block) if isinstance(inline, Word))
