"""Prints the worksheet: a page for the screen by the edition's template, and a workbook."""

from __future__ import annotations

from stitchproof.editions.edition import EditionFile
from stitchproof.editions.edition_folder import EditionFolder
from stitchproof.editions.html import print_page
from stitchproof.editor_sheet.sheet import EditorSheet
from stitchproof.editor_sheet.tables import sheet_tables
from stitchproof.spreadsheets.workbook import workbook


def print_sheet(sheet: EditorSheet, folder: EditionFolder, stem: str) -> tuple[EditionFile, ...]:
    """The files of the edition. Raises StyleFault where its template or style sheet cannot be used."""
    title = sheet.record.title
    files = [
        EditionFile(f"{stem}.xlsx", workbook(sheet_tables(sheet), title.get("title", ""), title.get("designer", "")))
    ]
    if folder.screen:
        files.insert(
            0, EditionFile(f"{stem}.html", print_page(folder, folder.screen, sheet=sheet, record=sheet.record).encode())
        )
    return tuple(files)
