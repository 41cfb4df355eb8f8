"""Editions of a document: the files a maker gets."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from stitchproof.editions.assets import ADDRESS, Assets
from stitchproof.editions.html import Draft, print_html
from stitchproof.editions.pdf import write_pdf
from stitchproof.editions.print_document import PrintDocument
from stitchproof.editions.set_type import set_type
from stitchproof.editions.styles import EditionFolder, find_edition
from stitchproof.expansion.document import Document

NO_PHOTOS: Assets = {}
EVERY_SIZE = "all_sizes"
"""The style whose name says that it has every size; where it has not, the sizes' names stand in its place."""


class EditionFile(Struct, frozen=True):
    """One file of an edition, its name without a folder."""

    name: str
    content: bytes


class Edition(Struct, frozen=True):
    """One edition: its name, its files, and what the PDF renderer had to say (empty when all is well)."""

    name: str
    files: tuple[EditionFile, ...]
    messages: tuple[str, ...]


def make_editions(
    document: Document,
    names: Sequence[str],
    style_folders: Sequence[Path] = (),
    draft: Draft | None = None,
    photos: Assets = NO_PHOTOS,
) -> tuple[Edition, ...]:
    """The named editions of a document, in the order of the names.

    style_folders: the pattern's own styles/, then the workspace's; the shipped ones are looked through last.
    photos: those of the document, ready for a page, by name.
    draft: prints the number of errors on every page and the marks beside their steps. For fewer sizes, choose_sizes
    first. Takes about a second for each PDF.
    Raises StyleFault if an edition's folder is missing or cannot be used; then no edition is made.
    """
    folders = [find_edition(name, style_folders) for name in names]
    printed = set_type(document)
    return tuple(_edition(printed, folder, draft, photos) for folder in folders)


def _edition(document: PrintDocument, folder: EditionFolder, draft: Draft | None, photos: Assets) -> Edition:
    stem = f"{_file_name(document.title.title) or 'pattern'}_{_sizes_and_style(document, folder.name)}"
    files: list[EditionFile] = []
    messages: tuple[str, ...] = ()
    if folder.screen:
        inside = {name: photo.as_data for name, photo in photos.items()}
        html = print_html(document, folder, folder.screen, draft, inside)
        files.append(EditionFile(f"{stem}.html", html.encode()))
    if folder.paper:
        assets = {f"photo_{name}.jpg": photo for name, photo in photos.items()}
        addresses = {name: f"{ADDRESS}photo_{name}.jpg" for name in photos}
        pdf = write_pdf(print_html(document, folder, folder.paper, draft, addresses), assets)
        files.append(EditionFile(f"{stem}.pdf", pdf.content))
        messages = pdf.messages
    return Edition(folder.name, tuple(files), messages)


def _sizes_and_style(document: PrintDocument, style: str) -> str:
    """What tells an edition's files from others of the pattern: "all_sizes", "size_large", "sizes_small_medium"."""
    if not document.chosen:
        return style
    names = [_file_name(size.name) or _file_name(size.called) or str(size.size + 1) for size in document.sizes]
    chosen = "_".join(["size" if len(names) == 1 else "sizes", *names])
    return chosen if style == EVERY_SIZE else f"{style}_{chosen}"


def _file_name(words: str) -> str:
    """Words as a file name that every system takes: "Cobblewick Hat" becomes "cobblewick_hat". May be empty."""
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "_", plain).strip("_")
