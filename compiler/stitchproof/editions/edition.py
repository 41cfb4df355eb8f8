"""Editions of a document: the files a maker gets."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from contextlib import nullcontext
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.assets import ADDRESS, Assets
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition_folder import EditionFolder, Leaf, find_edition
from stitchproof.editions.house_words import with_words
from stitchproof.editions.html import Draft, print_html, print_text
from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.line_numbers import numbered
from stitchproof.editions.presses import Asked, Presses, presses_for
from stitchproof.editions.print_document import PrintDocument
from stitchproof.editions.set_type import set_type
from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.words_in_use import only_words_in_use
from stitchproof.editions.worksheet_type import set_worksheet
from stitchproof.expansion.document import Document, Served
from stitchproof.worksheets.checkpoints import GaugeAsked, Worksheet, worksheet_for
from stitchproof.worksheets.form import form_text

NO_PHOTOS: Assets = {}
EditorFiles = Callable[[EditionFolder, str], "tuple[EditionFile, ...]"]
"""What prints the editor's worksheet: it takes the edition's folder, and the files' name without its ending."""
TOLD_BY_SIZES = ("all_sizes", "one_size")
"""The styles whose names say which sizes they have; where the sizes' names stand in the file's name, these do not."""


NOT_BUILT = {"comparison": "compare", "errata": "compare", "preview": "preview"}
"""What an edition may hold that another command prints, and which."""


class EditionFile(Struct, frozen=True):
    """One file of an edition, its name without a folder. made_from: of a PDF, what it may be kept by; else "". sizes: of a PDF,
    the indexes of those it has; places: by anchor, on which of its pages a line stands."""

    name: str
    content: bytes
    made_from: str = ""
    sizes: Served = ()
    places: dict[str, int] = {}


class Edition(Struct, frozen=True):
    """One edition: its name, its files, and what the PDF renderer had to say (empty when all is well)."""

    name: str
    files: tuple[EditionFile, ...]
    messages: tuple[str, ...]


class Beside(Struct, frozen=True):
    """What goes into editions beside the document. editor_files: prints the editor's worksheet. record: of the pattern, which
    is attached to each PDF that has all sizes; None while it is not known. presses: those that the PDFs are to be printed on."""

    editor_files: EditorFiles | None = None
    record: bytes | None = b""
    presses: Presses | None = None


NOTHING_BESIDE = Beside()


class Wanted(Struct, frozen=True):
    """An edition that is asked for. sizes: one file for each of these; None for the edition's own way over all sizes."""

    name: str
    sizes: Served | None = None


def make_editions(
    document: Document,
    names: Sequence[str | Wanted],
    style_folders: Sequence[Path] = (),
    draft: Draft | None = None,
    turned: str = "",
    gauges: tuple[GaugeAsked, ...] = (),
    photos: Assets = NO_PHOTOS,
    beside: Beside = NOTHING_BESIDE,
) -> tuple[Edition, ...]:
    """The named editions of a document, in the order of the names.

    style_folders: the pattern's own styles/, then the workspace's; the shipped ones are looked through last.
    draft: prints the number of errors on every page and the marks beside their steps. turned: "uk" or "us" where the
    document was turned into these terms; it stands in the files' names. gauges: what a tester is asked to measure.
    photos: those of the document, ready for a page, by name. beside: what else goes into them.
    For fewer sizes, choose_sizes first. Takes about a second for each PDF; several are laid out at the same time, where
    there are processors for them.
    Raises StyleFault if an edition's folder is missing or cannot be used, PrintingFailed for a mistake of ours; then no
    edition is made.
    """
    return EditionsToMake(document, names, style_folders, draft, turned, gauges, photos).made(beside)


class _Pending(Struct, frozen=True):
    """A PDF of an edition that is asked for."""

    name: str
    asked: Asked
    sizes: Served


def _printed(folder: EditionFolder, files: list[EditionFile | _Pending], presses: Presses) -> Edition:
    """An edition, once its PDFs are there. Raises StyleFault where the renderer stops at a style of the designer's own."""
    messages: dict[str, None] = {}
    whole = []
    for file in files:
        if isinstance(file, _Pending):
            try:
                pdf = presses.fetch(file.asked)
            except OSError:
                raise
            except Exception as error:  # the renderer raises whatever it comes upon in a style sheet that is not ours
                if folder.is_shipped:
                    raise
                raise StyleFault(str(folder.path), f"the renderer stopped: {str(error)[:120]}") from error
            messages.update(dict.fromkeys(pdf.messages))
            key = "" if pdf.messages else file.asked.key
            file = EditionFile(file.name, pdf.content, key, file.sizes, pdf.places)
        whole.append(file)
    return Edition(folder.name, tuple(whole), tuple(messages))


class EditionsToMake:
    """The editions of one document, as `make_editions` takes them; each choice of sizes is set in type once.

    A page can be asked for before it is known what goes beside it. Raises StyleFault as `make_editions` does.
    """

    def __init__(
        self,
        document: Document,
        names: Sequence[str | Wanted],
        style_folders: Sequence[Path] = (),
        draft: Draft | None = None,
        turned: str = "",
        gauges: tuple[GaugeAsked, ...] = (),
        photos: Assets = NO_PHOTOS,
    ) -> None:
        self.document, self.draft, self.turned, self.gauges, self.photos = document, draft, turned, gauges, photos
        self.beside = NOTHING_BESIDE
        self.set: dict[Served, tuple[Document, PrintDocument]] = {}
        self.asked_before: dict[tuple[str, Served], Asked] = {}
        wanted = [each if isinstance(each, Wanted) else Wanted(each) for each in names]
        folders = [find_edition(each.name, style_folders) for each in wanted]
        for folder in folders:
            if folder.holds in NOT_BUILT:
                how = f"is printed by `stitchproof {NOT_BUILT[folder.holds]}`, not by `build`"
                raise StyleFault(str(folder.path), how)
        self.wanted = [(folder, self.choices(folder, each)) for folder, each in zip(folders, wanted, strict=True)]

    def ask_ahead(self, presses: Presses) -> None:
        """Ask for the first page, for a record that is told later. It is not asked for again. One press waits; whoever is to be
        told of a fault does not wait for the pages of more."""
        self.beside = Beside(record=None)
        for folder, choices in self.wanted:
            if folder.paper and folder.holds != "numbers" and choices:
                printed = self.dressed_for(folder, choices[0])[1]
                self.asked_before[folder.name, choices[0]] = presses.ask(*self.page(printed, folder, folder.paper))
                return

    def made(self, beside: Beside) -> tuple[Edition, ...]:
        """All of them."""
        self.beside = beside
        pdfs = sum(len(chosen) for folder, chosen in self.wanted if folder.paper)
        with nullcontext(beside.presses) if beside.presses else Presses(presses_for(pdfs)) as presses:
            asked = [
                (folder, [file for each in choices for file in self.files(folder, each, presses)])
                for folder, choices in self.wanted
            ]
            return tuple(_printed(folder, files, presses) for folder, files in asked)

    def choices(self, folder: EditionFolder, wanted: Wanted) -> list[Served]:
        """Which sizes each file has."""
        sizes = self.document.sizes
        if wanted.sizes is not None:
            return [(size,) for size in wanted.sizes if size in sizes.chosen]
        if folder.each_size and not sizes.by_piece:
            return [(size,) for size in sizes.chosen]
        return [sizes.chosen]

    def in_type(self, chosen: Served) -> tuple[Document, PrintDocument]:
        """The pattern in a choice of sizes, and its words and numbers as they are printed."""
        if chosen not in self.set:
            document = only_words_in_use(choose_sizes(self.document, chosen))
            self.set[chosen] = document, set_type(document)
        return self.set[chosen]

    def dressed_for(self, folder: EditionFolder, chosen: Served) -> tuple[Document, PrintDocument]:
        """What an edition prints for a choice of sizes."""
        document, printed = self.in_type(chosen)
        printed = self.dressed(document, printed, folder)
        return document, self.for_the_reader(document, printed, folder) if folder.on_the_page else printed

    def dressed(self, document: Document, printed: PrintDocument, folder: EditionFolder) -> PrintDocument:
        """With what the edition adds."""
        return _dressed(printed, folder, self.asked(document, folder))

    def for_the_reader(self, document: Document, printed: PrintDocument, folder: EditionFolder) -> PrintDocument:
        """With all that she may choose on the page. Where pieces have sizes of their own, her sizes are chosen already."""
        from stitchproof.editions.for_sizes import for_every_choice, with_key  # paper does without
        from stitchproof.editions.units_apart import with_units_apart

        printed = with_key(printed)
        sizes = document.sizes
        if len(sizes.chosen) > 1 and not sizes.by_piece:
            alone = {size: self.dressed(*self.in_type((size,)), folder) for size in sizes.chosen}
            printed = for_every_choice(printed, alone)
        return with_units_apart(printed)

    def asked(self, document: Document, folder: EditionFolder) -> Worksheet | None:
        """What the edition asks a tester."""
        return _asked(document, folder, self.gauges)

    def files(self, folder: EditionFolder, chosen: Served, presses: Presses) -> Iterator[EditionFile | _Pending]:
        """The files of an edition for a choice of sizes."""
        document, printed = self.dressed_for(folder, chosen)
        stem = self.stem(printed, folder.name)
        if folder.holds == "numbers":
            yield from self.beside.editor_files(folder, stem) if self.beside.editor_files else ()
            return
        pdf = self.asked_before.get((folder.name, chosen))
        if pdf is None and folder.paper:
            pdf = presses.ask(*self.page(printed, folder, folder.paper))  # laid out meanwhile
        if folder.screen:
            inside = {name: photo.as_data for name, photo in self.photos.items()}
            html = print_html(printed, folder, folder.screen, self.draft, inside)
            yield EditionFile(f"{stem}.html", html.encode())
        if pdf:
            yield _Pending(f"{stem}.pdf", pdf, chosen)
        for ending, template in folder.texts:
            yield EditionFile(f"{stem}.{ending}", print_text(printed, folder, template).encode())
        asked = self.asked(document, folder)
        if asked:
            yield EditionFile(f"{stem}_worksheet.yaml", form_text(asked).encode())

    def page(self, printed: PrintDocument, folder: EditionFolder, leaf: Leaf) -> tuple[str, Assets, bytes | None]:
        """What a PDF is made from: its HTML, its pictures, and, where it has all sizes, the record."""
        assets = {f"photo_{name}.jpg": photo for name, photo in self.photos.items()}
        addresses = {name: f"{ADDRESS}{file}" for name, file in zip(self.photos, assets, strict=True)}
        whole = len(printed.sizes) == len(self.document.sizes.names) and not self.document.sizes.by_piece
        html = print_html(printed, folder, leaf, self.draft, addresses)
        return html, assets, self.beside.record if whole else b""

    def stem(self, printed: PrintDocument, style: str) -> str:
        """The files' name without its ending."""
        title = _file_name(printed.title.title) or "pattern"
        return "_".join(filter(None, (title, _sizes_and_style(printed, style), self.turned)))


def set_page(
    document: Document,
    folder: EditionFolder,
    gauges: tuple[GaugeAsked, ...] = (),
    kept: KeptParts | None = None,
) -> PrintDocument:
    """The words of an edition's page for the sizes chosen, numbers with the formulas that they were written as. kept: blocks
    that were set before."""
    document = only_words_in_use(choose_sizes(document, document.sizes.chosen))
    return _dressed(set_type(document, True, kept), folder, _asked(document, folder, gauges))


def _dressed(printed: PrintDocument, folder: EditionFolder, asked: Worksheet | None) -> PrintDocument:
    """What the edition adds to the words of the pattern: its own words, line numbers, a worksheet."""
    printed = with_words(printed, folder.words)
    if folder.line_numbers:
        printed = numbered(printed)
    return replace(printed, worksheet=set_worksheet(asked)) if asked else printed


def _asked(document: Document, folder: EditionFolder, gauges: tuple[GaugeAsked, ...]) -> Worksheet | None:
    """What a tester is asked; None where pieces have sizes of their own, as nobody could hold the answers together."""
    if not folder.worksheet or document.sizes.by_piece:
        return None
    return worksheet_for(document, gauges)


def _sizes_and_style(document: PrintDocument, style: str) -> str:
    """What tells an edition's files from others of the pattern: "all_sizes", "size_large", "sizes_small_medium"."""
    if not document.chosen:
        return style
    names = [_file_name(size.name) or _file_name(size.called) or str(size.size + 1) for size in document.sizes]
    chosen = "_".join(["size" if len(names) == 1 else "sizes", *names])
    return chosen if style in TOLD_BY_SIZES else f"{style}_{chosen}"


def _file_name(words: str) -> str:
    """Words as a file name that every system takes: "Cobblewick Hat" becomes "cobblewick_hat". May be empty."""
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "_", plain).strip("_")
