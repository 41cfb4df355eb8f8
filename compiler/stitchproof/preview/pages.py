"""The page of a pattern while it is being written: the all-sizes edition, made again only where it changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from time import time

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.editions.assets import Asset
from stitchproof.editions.edition import set_page
from stitchproof.editions.edition_folder import EditionFolder, Leaf, find_edition
from stitchproof.editions.fault_places import FaultPlaces, fault_marks
from stitchproof.editions.html import Draft, Watched, in_order, print_html, prints_by_blocks
from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.photos import figures_in, photos_of
from stitchproof.editions.print_document import PrintDocument
from stitchproof.editions.put_out import gauges_asked
from stitchproof.editions.styles import read_style_file, shipped_styles
from stitchproof.expansion.document import Document, blocks_of
from stitchproof.preview.frame import FRAME, said
from stitchproof.simulation.worked_pattern import Proof, WorkedPattern
from stitchproof.sizing.sized_pattern import SizedPattern

EDITION = "all_sizes"
NO_PHOTO = "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg'/%3E"
PAGE_STYLE = "preview_page.css"
"""What the page in the frame is dressed with beside its own style: marks, numbers that can be chosen, the chosen size."""
SETTLED = 0.2
"""Seconds. A file that was written so shortly ago may be written again within the same tick of its clock."""
Signature = tuple[tuple[str, int, int, int], ...]
SAID_OF = {Proof.FROM_STATED: "from_stated", Proof.TRUSTED: "trusted", Proof.NOT_READ: "not_proved"}
"""The key of the words for a row that is not proved all the way."""


class PageMade(Struct, frozen=True):
    """A page. printed: its words before they became HTML. parts: the id of each of its sections, by key or name of the piece.
    findings: what is wrong with its photos."""

    html: str
    printed: PrintDocument
    parts: dict[str, str]
    findings: tuple[Diagnostic, ...]


class Pages:
    """Makes the pages of one pattern. Nothing that it keeps changes what it makes; a test holds it to that."""

    def __init__(self, styles: Sequence[Path]) -> None:
        self.styles = styles
        self.kept, self.set = KeptParts(), KeptParts()
        self.prepared: tuple[Signature, _Prepared] | None = None
        self.photos: dict[bytes, Asset | str] = {}
        self.addresses: Mapping[str, str] = {}

    def edition(self) -> _Prepared:
        """The edition, read again where a file of the designer's styles changed. Raises StyleFault."""
        state, settled = state_of(self.styles)
        if self.prepared and self.prepared[0] == state:
            return self.prepared[1]
        prepared = _prepared(self.styles)
        self.prepared = (state, prepared) if settled else None
        return prepared

    def make(
        self,
        document: Document,
        sized: SizedPattern,
        worked: WorkedPattern | None,
        draft: Draft | None,
        dressed: Callable[[PrintDocument], PrintDocument] = lambda printed: printed,
    ) -> PageMade:
        """The page. dressed: what is done to its words before they are printed. Raises StyleFault."""
        edition = self.edition()
        folder, screen = edition.folder, edition.screen
        gauges = tuple(gauges_asked(sized)) if folder.worksheet else ()
        printed = dressed(set_page(document, folder, gauges, self.set))
        photos, findings = self.photos_in(document)
        watched = Watched(unproved(worked), self.kept if edition.by_blocks else None)
        html = print_html(printed, folder, screen, draft, photos, watched)
        sections = in_order(printed, folder.parts)
        parts = {each.key: f"part_{place}" for place, each in enumerate(sections, 1)}
        return PageMade(html, printed, parts, findings)

    def photos_in(self, document: Document) -> tuple[Mapping[str, str], tuple[Diagnostic, ...]]:
        """The photos as they stand in a page, by name, and what is wrong with those that are left blank."""
        photos = photos_of(document, self.photos)
        names = [figure.name for block in blocks_of(document) for figure in figures_in(block)]
        addresses = {name: photos.by_name[name].as_data if name in photos.by_name else NO_PHOTO for name in names}
        if addresses != self.addresses:
            self.addresses = addresses
        return self.addresses, photos.findings


class _HeldFolder(EditionFolder, frozen=True):
    """An edition whose files are read once. A file of the preview's own folder is found as well."""

    held: dict[str, str] = field(default_factory=dict)

    def read(self, file_name: str) -> str:
        """A file of the edition. Raises StyleFault."""
        if file_name not in self.held:
            self.held[file_name] = read_style_file((*self.layers, shipped_styles() / FRAME), file_name)
        return self.held[file_name]


class _Prepared(Struct, frozen=True):
    """The edition that the page is made by, its screen with the preview's style, and whether it prints by blocks."""

    folder: EditionFolder
    screen: Leaf
    by_blocks: bool


def _prepared(styles: Sequence[Path]) -> _Prepared:
    """The designer's own edition, or the shipped one where hers has no screen."""
    found = find_edition(EDITION, styles)
    if found.screen is None:
        found = find_edition(EDITION, ())
    leaf = found.screen
    assert leaf is not None, "the shipped edition has a screen"  # noqa: S101
    folder = _HeldFolder(**{name: getattr(found, name) for name in found.__struct_fields__}, held={})
    screen = replace(leaf, style=(*leaf.style, PAGE_STYLE))
    return _Prepared(folder, screen, prints_by_blocks(folder, leaf))


def errors_in(findings: Sequence[Diagnostic]) -> list[Diagnostic]:
    """Those that keep an edition from being made without `--draft`."""
    return [found for found in findings if found.severity is Severity.ERROR]


def draft_of(faults: FaultPlaces, findings: Sequence[Diagnostic]) -> Draft | None:
    """What marks a page as a draft; None where nothing is wrong."""
    errors = errors_in(findings)
    return Draft(len(errors), fault_marks(faults, errors)) if errors else None


def unproved(worked: WorkedPattern | None) -> dict[str, str]:
    """By identity: in words how far a row is proved, where that is not all the way."""
    if worked is None:
        return {}
    return {
        each.step.identity: said(SAID_OF[each.proof])
        for piece in worked.pieces
        for each in piece.steps
        if each.proof in SAID_OF
    }


def state_of(folders: Sequence[Path]) -> tuple[Signature, bool]:
    """All files below some folders with their state, and whether the last change lies back far enough to be told from another."""
    found = []
    newest = 0.0
    for folder in folders:
        if folder.is_dir():
            for path in sorted(folder.rglob("*")):
                try:
                    facts = path.stat()
                except OSError:
                    continue
                newest = max(newest, facts.st_mtime)
                found.append((str(path), facts.st_mtime_ns, facts.st_size, facts.st_ino))
    return tuple(found), time() - newest > SETTLED
