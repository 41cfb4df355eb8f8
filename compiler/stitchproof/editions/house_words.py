"""The words that a style folder gives in place of the usual ones: how sized numbers are read, titles of sections,
and what is to be said of the yarn where pieces have sizes of their own."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from stitchproof.editions.print_document import Kind, PlainText, PrintDocument, PrintProse, PrintSection
from stitchproof.editions.print_walk import PrintWalk
from stitchproof.editions.schematic_type import said_of_drawings

MATERIALS = "materials"
DRAWN = "drawn_"


def with_words(document: PrintDocument, words: Mapping[str, str]) -> PrintDocument:
    """The document in a style's words: `how_to_read` (its {order} is the sizes in order), `title_KEY` of a section,
    `drawn_KEY` above the drawings, and `yarn_of_a_mix` below the materials whose amounts are those of whole garments."""
    how = words.get("how_to_read")
    if how and document.how_to_read:
        document = replace(document, how_to_read=how.replace("{order}", document.size_order))
    told = words.get("yarn_of_a_mix") if document.yarn_of_a_mix else None
    if any(key.startswith(DRAWN) for key in words):
        drawn = PrintWalk(line=lambda line: line, schematics=lambda block: said_of_drawings(block, words))
        document = drawn.document(document)
    sections = (_with_told(section, told) if told else section for section in document.sections)
    return replace(document, sections=tuple(_titled(section, words) for section in sections))


def _with_told(section: PrintSection, told: str) -> PrintSection:
    if section.key != MATERIALS or section.kind is not Kind.FRONT:
        return section
    return replace(section, blocks=(*section.blocks, PrintProse((PlainText(told),))))


def _titled(section: PrintSection, words: Mapping[str, str]) -> PrintSection:
    title = words.get(f"title_{section.key}")
    return replace(section, title=(PlainText(title),)) if title else section
