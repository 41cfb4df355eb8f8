"""Findings as they stand beside the page: in the order of the text, each with the place on the page that it leads to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.facts import Facts, facts_of
from stitchproof.diagnostics.sums_told import sums_told
from stitchproof.diagnostics.terminal import printable
from stitchproof.editions.fault_places import FaultPlaces, overlap
from stitchproof.expansion.document import Block, Document, Step, blocks_within, inlines_of
from stitchproof.measures.print_grid import change_text
from stitchproof.preview.shown import ExcerptLine, ExcerptShown, FindingShown, OfferShown, SumShown
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.source import Span

MOST = 200
"""Findings that are shown; how many more there are is said."""


def in_text_order(findings: Sequence[Diagnostic], source: PatternSource | None) -> list[Diagnostic]:
    """pattern.yaml first, then the texts as the pattern reads them, each from top to bottom."""
    files = [source.header_file.path, *(text.file.path for text in source.texts)] if source else []
    rank = {path: place for place, path in enumerate(files)}

    def place(found: Diagnostic) -> tuple[int, str, int, int, str]:
        path, start, end = found.primary.span.order
        return rank.get(path, len(rank)), path, start, end, found.page.code

    return sorted(findings, key=place)


def finding_shown(found: Diagnostic, pattern: str, row: str, part: str) -> FindingShown:
    """One finding. pattern: the name of its folder, which its places are told without. row, part: where it leads to."""
    facts = facts_of(found)
    return FindingShown(
        facts["severity"],
        facts["code"],
        facts["name"],
        printable(facts["headline"]),
        tuple(_excerpt(each, pattern) for each in (facts["primary"], *facts["related"])),
        tuple(_sums(facts["sum"])),
        tuple(_offers(found)),
        tuple(map(printable, facts["left_out"])),
        tuple(map(printable, facts["help"])),
        printable(facts["accepted"]),
        row,
        part,
        bool(found.proposals) or found.causes_open,
    )


def _excerpt(facts: Facts, pattern: str) -> ExcerptShown:
    _, inside, rest = facts["path"].rpartition(f"{pattern}/")
    path = rest if inside else facts["path"]
    place = f"{path}, line {facts['start']['line']}" if facts["lines"] else path
    return ExcerptShown(printable(place), printable(facts["label"]), tuple(_lines(facts)))


def _lines(facts: Facts) -> Iterator[ExcerptLine]:
    start, end = facts["start"], facts["end"]
    for line in facts["lines"]:
        text, skipped = line["text"], line["skipped"]
        indent = len(text) - len(text.lstrip())
        first = start["column"] - 1 - skipped if line["number"] == start["line"] else indent
        last = end["column"] - 1 - skipped if line["number"] == end["line"] else len(text)
        first, last = max(first, 0), max(last, 0)
        parts = (text[:first], text[first:last], text[max(first, last) :])
        yield ExcerptLine(line["number"], *map(printable, parts))


def _sums(sums: list[Facts]) -> Iterator[SumShown]:
    for line in sums_told(sums):
        sizes = "" if line.all else ", ".join(line.sizes)
        yield SumShown(printable(sizes), printable(line.expression), printable(line.note))


def _offers(found: Diagnostic) -> Iterator[OfferShown]:
    for each in found.alternatives:
        change = change_text(each.change_cm) if each.change_cm else ""
        yield OfferShown(printable(each.size), printable(each.value), change, each.name, each.written)


class Places:
    """Where on the page findings lead to. parts: the id of each section of the page, by its key or the name of its piece."""

    def __init__(self, faults: FaultPlaces, document: Document, parts: dict[str, str]) -> None:
        self.faults, self.document, self.parts = faults, document, parts

    def of(self, found: Diagnostic) -> tuple[str, str]:
        """The row, or else the part of the page; "" for what it has none of."""
        rows = self.faults.rows_of(found)
        if rows:
            return found.row if found.row in rows else rows[0], ""
        return "", next((self.parts.get(key, "") for key in self._keys(found.primary.span)), "")

    def _keys(self, span: Span) -> Iterator[str]:
        document = self.document
        for section in (*document.front, *document.finishing, *document.back):
            if any(_stands_in(span, block) for block in section.blocks):
                yield section.key
        for piece in document.pieces:
            if any(_stands_in(span, block) for block in (piece.heading, *piece.blocks)):
                yield piece.name


def _stands_in(span: Span, block: Block) -> bool:
    return any(
        overlap(span, inline.place.span)
        for each in blocks_within(block)
        if not isinstance(each, Step)
        for inline in inlines_of(each)
        if hasattr(inline, "place")
    )
