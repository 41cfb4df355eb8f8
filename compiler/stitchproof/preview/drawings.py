"""The drawings of a pattern for one size, to scale, and on demand all sizes over each other."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.drawing import drawn
from stitchproof.editions.drawing_overlay import overlaid
from stitchproof.editions.print_document import PrintSchematics, visible_text
from stitchproof.editions.set_type import set_type
from stitchproof.expansion.document import Document, Schematic, Schematics, blocks_of, blocks_within

ROOM = {"width": 112.0, "height": 84.0, "together": 300.0, "text": 4.0, "abreast": False, "titles_only": False}
"""Millimetres, as an edition's template sets them: what stands beside the page on a desk, and fills a phone."""


class DrawingShown(Struct, frozen=True):
    """A piece. svg: in the chosen size with its measures; over: all sizes over each other, "" where that is not asked for or the
    piece has one size alone."""

    title: str
    svg: str
    over: str
    note: str


def drawings_for(document: Document, size: int, over: bool, said: str) -> tuple[DrawingShown, ...]:
    """Every drawing of the pattern for a size. said: what the drawing of all sizes is, in words, with {piece} and {size}."""
    chosen = choose_sizes(document, (size,))
    pieces = {each.name: each for each in _schematics(document)}
    return tuple(
        DrawingShown(
            visible_text(piece.title),
            svg.svg,
            _over(pieces.get(piece.name), document, size, said) if over else "",
            piece.drawn_for,
        )
        for block in _blocks(chosen)
        for piece, svg in zip(block.drawings, drawn(block, ROOM), strict=True)
    )


def _over(piece: Schematic | None, document: Document, size: int, said: str) -> str:
    if piece is None or len(piece.served) < 2:
        return ""
    words = said.replace("{piece}", piece.name).replace("{size}", document.sizes.called(size))
    return overlaid(piece, document.sizes, size, words)


def _schematics(document: Document) -> Iterator[Schematic]:
    for block in blocks_of(document):
        for each in blocks_within(block):
            if isinstance(each, Schematics):
                yield from each.drawings


def _blocks(document: Document) -> Iterator[PrintSchematics]:
    for section in set_type(document).sections:
        for block in section.blocks:
            yield from _within(block)


def _within(block: object) -> Iterator[PrintSchematics]:
    if isinstance(block, PrintSchematics):
        yield block
    for inner in getattr(block, "blocks", ()):
        yield from _within(inner)
