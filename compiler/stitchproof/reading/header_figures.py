"""The photos and tutorial pages of pattern.yaml: `photos`, `tutorials`."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.expressions import expression
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.figure_entries import PhotoEntry, TutorialEntry
from stitchproof.reading.shape import EXAMPLES, Shape

ADDRESS = expression(r"https?://[^\s/?#]+\.[^\s/?#]+(?:[/?#]\S*)?")
LONGEST_ADDRESS = 300
"""Characters. A longer one makes a code too fine to be read off paper."""


def read_photos(top: Shape) -> Iterator[PhotoEntry]:
    """The photos in the order written; one without its file or its alternative text (reported) is left out."""
    for key, value in top.entries("photos"):
        shape = Shape(value, top.report, f"the photo `{key.text}`", key.span, "photo")
        file, alt = shape.words("file", required=True), shape.words("alt", required=True)
        caption, shown = shape.words("caption"), shape.words("shown")
        shape.close()
        if file and alt:
            yield PhotoEntry(key.text, file, alt, caption, shown, key.span)


def read_tutorials(top: Shape) -> Iterator[TutorialEntry]:
    """The tutorial pages in the order written; one with an address that no browser takes (reported) is left out."""
    for key, value in top.entries("tutorials"):
        shape = Shape(value, top.report, f"the tutorial `{key.text}`", key.span, "tutorial")
        words, address = shape.words("words", required=True), shape.words("address", required=True)
        shape.close()
        if not words or not address:
            continue
        text = address.text.strip()
        if len(text) > LONGEST_ADDRESS or not text.isascii() or not ADDRESS.fullmatch(text):
            wanted = f"an address of at most {LONGEST_ADDRESS} plain characters that begins with https://"
            top.report.add(wrong_kind_of_value(address.span, "`address`", wanted, EXAMPLES["tutorial"]))
            continue
        yield TutorialEntry(key.text, words, address, key.span)
