"""The words that a style folder gives in place of the usual ones: how sized numbers are read, and titles of sections."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from stitchproof.editions.print_document import PlainText, PrintDocument, PrintSection


def with_words(document: PrintDocument, words: Mapping[str, str]) -> PrintDocument:
    """The document in a style's words: `how_to_read` (its {order} is the sizes in order) and `title_KEY` of a section."""
    how = words.get("how_to_read")
    if how and document.how_to_read:
        document = replace(document, how_to_read=how.replace("{order}", document.size_order))
    return replace(document, sections=tuple(_titled(section, words) for section in document.sections))


def _titled(section: PrintSection, words: Mapping[str, str]) -> PrintSection:
    title = words.get(f"title_{section.key}")
    return replace(section, title=(PlainText(title),)) if title else section
