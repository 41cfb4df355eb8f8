"""Photos and tutorial pages as parts of the Document: where the text places them, or else in front."""

from __future__ import annotations

from stitchproof.expansion.document import Block, Figure, Inline, Section, Served, Text, Tutorial
from stitchproof.expansion.inlines import header_inlines
from stitchproof.expansion.slots import SlotReader
from stitchproof.reading.figure_entries import PhotoEntry, TutorialEntry
from stitchproof.source import Place


def figure_sections(reader: SlotReader, placed: frozenset[str]) -> tuple[Section, ...]:
    """The photos and tutorial pages that the text does not place. placed: names that it does."""
    header = reader.sized.source.header
    photos = [figure(each, reader, reader.all) for each in header.photos if each.name not in placed]
    pages = [tutorial(each, reader, reader.all) for each in header.tutorials if each.name not in placed]
    sections = (
        Section("photos", "Photos", tuple(each for each in photos if each)),
        Section("tutorials", "To see how it is worked", tuple(pages)),
    )
    return tuple(section for section in sections if section.blocks)


def placed_figure(kind: str, name: str, reader: SlotReader, served: Served) -> tuple[Block, ...] | None:
    """What `::: photo front` or `::: tutorial fhdc` puts there; None where pattern.yaml has none of that name."""
    header = reader.sized.source.header
    if kind == "photo":
        photo = next((each for each in header.photos if each.name == name), None)
        shown = figure(photo, reader, served) if photo else None
        return None if photo is None else (shown,) if shown else ()
    page = next((each for each in header.tutorials if each.name == name), None)
    return None if page is None else (tutorial(page, reader, served),)


def figure(entry: PhotoEntry, reader: SlotReader, served: Served) -> Figure | None:
    """A photo with its caption; None where its file could not be used (reported)."""
    if entry.content is None:
        return None
    caption: tuple[Inline, ...] = header_inlines(entry.caption, reader, served) if entry.caption else ()
    if entry.shown:
        words = Place(entry.shown.span)
        before = "" if not caption else " " if _ends(caption) else ". "
        caption += (Text(f"{before}Shown in ", words), *header_inlines(entry.shown, reader, served), Text(".", words))
    alt = " ".join(entry.alt.text.split())
    return Figure(entry.name, entry.content, alt, caption, Place(entry.file.span))


def _ends(caption: tuple[Inline, ...]) -> bool:
    last = caption[-1]
    return isinstance(last, Text) and last.text.rstrip().endswith((".", "!", "?"))


def tutorial(entry: TutorialEntry, reader: SlotReader, served: Served) -> Tutorial:
    """A tutorial page: words and address."""
    return Tutorial(header_inlines(entry.words, reader, served), entry.address.text.strip())
