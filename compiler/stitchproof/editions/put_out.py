"""Puts out the editions of a pattern: sizes chosen, faults marked beside their rows in a draft, printing faults reported."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import NOTHING_BESIDE, Beside, EditionFile, EditionsToMake, Wanted
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.fault_places import FaultPlaces, fault_marks
from stitchproof.editions.faults.page_not_printed import page_not_printed, style_not_usable
from stitchproof.editions.html import Draft
from stitchproof.editions.photos import photos_of
from stitchproof.editions.presses import Presses
from stitchproof.editions.size_choice import SizeChoice
from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.styles import edition_names
from stitchproof.editions.terms_told import in_terms_told
from stitchproof.expansion.document import Document
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.tree import Amount
from stitchproof.reading.pattern_source import EditionEntry
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.worksheets.checkpoints import GaugeAsked


class PutOut(Struct, frozen=True):
    """Files by name, and what the printer of pages found wrong. pdfs: those among them, each with what it may be kept by, its
    sizes, and where its lines stand."""

    files: dict[str, bytes]
    findings: tuple[Diagnostic, ...]
    pdfs: tuple[EditionFile, ...] = ()


class Order(Struct, frozen=True):
    """What is to be made. editions: by name; () for those that the pattern names, or else the usual ones. terms: "US", "UK"
    or "" for the pattern's own."""

    sizes: SizeChoice
    editions: tuple[str, ...] = ()
    terms: str = ""


class Begun(Struct, frozen=True):
    """Editions whose first page is asked for while it is still looked for faults. left: what was left in its own terms."""

    document: Document
    sized: SizedPattern
    editions: EditionsToMake
    left: tuple[Diagnostic, ...]


def put_out(
    document: Document,
    sized: SizedPattern,
    findings: tuple[Diagnostic, ...],
    order: Order,
    styles: Sequence[Path],
    beside: Beside = NOTHING_BESIDE,
    begun: Begun | None = None,
) -> PutOut:
    """The files that are asked for. With errors among the findings they are drafts and say so. beside: what else goes in.
    begun: what was asked for ahead; it counts where it is the same pattern, without an error."""
    errors = [found for found in findings if found.severity is Severity.ERROR]
    draft = Draft(len(errors), fault_marks(FaultPlaces(document, sized), errors)) if errors else None
    try:
        if draft or begun is None or begun.document is not document or begun.sized is not sized:
            ready = _begun(document, sized, draft, order, styles)
            if isinstance(ready, PutOut):
                return ready
            begun = ready
        made = begun.editions.made(beside)
    except StyleFault as fault:
        return PutOut({}, (style_finding(fault),))
    messages = dict.fromkeys((edition.name, message) for edition in made for message in edition.messages)
    files = {file.name: file.content for edition in made for file in edition.files}
    pdfs = tuple(file for edition in made for file in edition.files if file.sizes)
    return PutOut(files, (*begun.left, *(page_not_printed(name, message) for name, message in messages)), pdfs)


def begin(
    document: Document, sized: SizedPattern, order: Order, styles: Sequence[Path], presses: Presses
) -> Begun | None:
    """Ask for the first page of a pattern that may turn out to be without faults. Raises what `put_out` tells, which tells it
    later."""
    begun = _begun(document, sized, None, order, styles)
    if isinstance(begun, PutOut):
        return None
    begun.editions.ask_ahead(presses)
    return begun


def _begun(
    document: Document, sized: SizedPattern, draft: Draft | None, order: Order, styles: Sequence[Path]
) -> Begun | PutOut:
    turned, left = in_terms_told(document, order.terms) if order.terms else (document, ())
    chosen = choose_sizes(turned, order.sizes.chosen, order.sizes.size_of)
    ending = order.terms.lower() if turned is not document else ""
    photos = photos_of(chosen)
    if photos.findings:
        return PutOut({}, photos.findings)
    wanted = _wanted(sized.source.header.editions, order, chosen, styles)
    if isinstance(wanted, Diagnostic):
        return PutOut({}, (wanted,))
    gauges = tuple(gauges_asked(sized))
    editions = EditionsToMake(chosen, wanted, styles, draft, ending, gauges, photos.by_name)
    return Begun(document, sized, editions, left)


def style_finding(fault: StyleFault) -> Diagnostic:
    """A style that cannot be used, as a finding."""
    return style_not_usable(fault.path, fault.message)


def _wanted(
    entries: tuple[EditionEntry, ...], order: Order, document: Document, styles: Sequence[Path]
) -> tuple[Wanted, ...] | Diagnostic:
    """The editions to make, each with the sizes that it is for."""
    if order.editions:
        return tuple(map(Wanted, dict.fromkeys(order.editions)))
    names, chosen = document.sizes.names, document.sizes.chosen
    whole = len(chosen) == len(names) and not order.sizes.size_of
    if not entries or not whole:
        choice = "all" if whole else "one" if len(chosen) == 1 or order.sizes.size_of else "some"
        usual = [name for name in edition_names(styles) if choice in find_edition(name, styles).usual_for]
        return tuple(map(Wanted, usual))
    found = []
    for entry in entries:
        for words in entry.sizes:
            if words.text.strip() not in names:
                return size_not_in_pattern(words.span, names)
        sizes = tuple(names.index(words.text.strip()) for words in entry.sizes)
        found.append(Wanted(entry.name.text.strip(), document.sizes.chosen if entry.each else sizes or None))
    return tuple(found)


def gauges_asked(sized: SizedPattern) -> Iterator[GaugeAsked]:
    """The gauges of a pattern as a tester measures them, over the length that each is given over."""
    for gauge in sized.source.header.gauges:
        node = gauge.over.node if gauge.over else None
        if not isinstance(node, Amount):
            continue
        noun = {"rnds": "rounds"}.get(gauge.rows_noun, gauge.rows_noun)
        counts = (sized.scope.value(f"gauges.{gauge.name}.{word}", 0, None) for word in ("stitches", noun))
        stitches, rows = (each * node.value if isinstance(each, Fraction) else None for each in counts)
        yield GaugeAsked(gauge.name, stitches, rows, noun, node.value)
