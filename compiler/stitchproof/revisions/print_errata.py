"""Prints the errata sheet: a page for the screen, a PDF, and Markdown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.html import print_page, print_plain
from stitchproof.editions.pdf import write_pdf
from stitchproof.revisions.errata import ErrataSheet

EDITION = "errata"
NOT_IN_NAMES = re.compile(r"[^a-z0-9]+")


def folder_name(pattern: str, sheet: ErrataSheet) -> str:
    """Where it is written under build/: beside the build, which the next build replaces."""
    ends = (NOT_IN_NAMES.sub("_", words.lower()).strip("_") for words in (sheet.affected, sheet.corrected))
    return f"{pattern}_errata_{'_to_'.join(ends)}"


def print_errata(sheet: ErrataSheet, style_folders: Sequence[Path]) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Files by name, and what the PDF renderer had to say. Raises StyleFault where the style cannot be used."""
    folder = find_edition(EDITION, style_folders)
    files: dict[str, bytes] = {}
    messages: tuple[str, ...] = ()
    if folder.screen:
        files["errata.html"] = print_page(folder, folder.screen, sheet=sheet).encode()
    if folder.paper:
        pdf = write_pdf(print_page(folder, folder.paper, sheet=sheet))
        files["errata.pdf"], messages = pdf.content, pdf.messages
    for ending, template in folder.texts:
        files[f"errata.{ending}"] = print_plain(folder, template, sheet=sheet).encode()
    return files, messages
