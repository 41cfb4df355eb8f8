"""Unfolds the text of a pattern, once for all sizes, and builds the Document."""

from __future__ import annotations

import re

from msgspec import Struct

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.blocks import ACCEPTANCE, FENCE, HEADING, BlockReader, Surroundings
from stitchproof.expansion.document import Document, Heading, Piece, Section, Served, SizeList, TitleBlock
from stitchproof.expansion.document_parts import DocumentParts
from stitchproof.expansion.drawings import drawing_sections
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.expansion.faults.piece_not_known import piece_begun_twice, piece_not_known
from stitchproof.expansion.front import back_sections, front_sections, title_block
from stitchproof.expansion.inlines import marked_down
from stitchproof.expansion.k_values import ks_in_use
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine
from stitchproof.expansion.rendering import Occurrence, Renderer
from stitchproof.expansion.slots import Known, SlotReader
from stitchproof.kept import Kept, made_once
from stitchproof.reading.pattern_source import Header
from stitchproof.sizing.sized_pattern import SizedPattern


def expand_pattern(sized: SizedPattern, report: Report, kept: Kept | None = None) -> ExpandedPattern:
    """The Document of a pattern: its text unfolded, every slot a number per size, every step verbatim.

    kept: what earlier expansions of the same pattern made; what is made of the same numbers and lines is used again.
    """
    header = sized.source.header
    occurrences: list[Occurrence] = []
    known: Known = made_once(kept, "slots", (header,), report, lambda _: {})
    reader = SlotReader(sized, occurrences, report, known)
    renderer = Renderer(sized.source, tuple(sized.scope.names()), reader.count_to, reader.highest, report, occurrences)
    parts = DocumentParts(kept, BlockReader(reader, report), renderer, report)
    lines: list[PlacedLine] = []
    for text in sized.source.texts:
        lines += [line for line in parts.unfolded(text) if not ACCEPTANCE.match(line.text)]
    outline = _Outline(sized, parts)
    for heading, body in _split_at_headings(lines):
        outline.add(heading, body)
    front = parts.part("front", (), lambda report: _front(header, reader, report))
    headings = {piece.name: piece.heading for piece in outline.pieces}
    drawn = (
        parts.part("drawings", tuple(headings.items()), lambda _: drawing_sections(reader, headings))
        if sized.schematics
        else ()
    )
    placed = frozenset(parts.blocks.placed)
    pictured = header.photos or header.tutorials
    figures = parts.part("figures", (placed,), lambda _: _figures(reader, placed)) if pictured else ()
    sizes = header.sizes
    document = Document(
        front.title,
        SizeList(sizes.names, sizes.called_by_number, sizes.groups, reader.all),
        header.identity.units,
        (*front.sections, *figures, *outline.front),
        tuple(outline.pieces),
        (*outline.finishing, *drawn),
        front.back,
    )
    asked = frozenset(reader.asked)
    in_use = made_once(kept, "k in use", (header, asked), report, lambda _: ks_in_use(sized, reader.asked))
    return ExpandedPattern(sized, document, sized.source.whole and renderer.whole, in_use, tuple(reader.late))


def _figures(reader: SlotReader, placed: frozenset[str]) -> tuple[Section, ...]:
    from stitchproof.expansion.figures import figure_sections  # most patterns have none yet

    return figure_sections(reader, placed)


class _Front(Struct, frozen=True):
    """What pattern.yaml alone gives the Document, before and after its text."""

    title: TitleBlock
    sections: tuple[Section, ...]
    back: tuple[Section, ...]


def _front(header: Header, reader: SlotReader, report: Report) -> _Front:
    return _Front(title_block(header, reader), front_sections(header, reader, report), back_sections(header))


def _split_at_headings(lines: list[PlacedLine]) -> list[tuple[PlacedLine | None, list[PlacedLine]]]:
    """The text cut at its headings of the first two levels outside blocks; what stands before the first has none."""
    found: list[tuple[PlacedLine | None, list[PlacedLine]]] = [(None, [])]
    depth = 0
    for line in lines:
        fence = FENCE.match(line.text)
        if fence:
            depth += 1 if fence["words"] else -1
        heading = HEADING.match(line.text) if depth <= 0 else None
        if heading and len(heading["marks"]) <= 2:
            found.append((line, []))
        else:
            found[-1][1].append(line)
    return found


class _Outline:
    """Sorts the parts of the text: before the first piece, the pieces, and after them."""

    def __init__(self, sized: SizedPattern, parts: DocumentParts) -> None:
        self.sized = sized
        self.parts = parts
        self.reader = parts.reader
        self.front: list[Section] = []
        self.pieces: list[Piece] = []
        self.finishing: list[Section] = []

    def add(self, line: PlacedLine | None, body: list[PlacedLine]) -> None:
        heading = HEADING.match(line.text) if line else None
        if line is None or heading is None:
            self.section("notes", "Notes", body)
            return
        title, name = heading["title"], heading["piece"]
        if name is None:
            self.section(re.sub(r"\W+", "_", title.lower()).strip("_"), title, body)
            return
        name = name.strip()
        served = self.served(line, name)
        # A name that is used twice has the steps of both numbered through, so the second one is made of both.
        before = tuple(piece for piece in self.pieces if piece.name == name)
        made = self.parts.part(
            ("piece", name, len(before)),
            (line, *body, before),
            lambda _: self.piece(line, heading, served, body),
        )
        self.pieces.append(made)

    def piece(self, line: PlacedLine, heading: re.Match[str], served: Served, body: list[PlacedLine]) -> Piece:
        """A piece: its heading, and the blocks below."""
        name = heading["piece"].strip()
        calls = {int(each[1]): line.place_of(each.start(), each.end()).calls for each in SLOT_MARK.finditer(line.text)}
        inlines = marked_down(heading["title"], line.place, lambda slot: self.reader.number(slot, served, calls[slot]))
        gauge = self.gauge(name)
        blocks = self.parts.blocks.blocks(body, Surroundings(name, served, gauge=gauge, piece_gauge=gauge))
        return Piece(name, Heading(len(heading["marks"]), inlines, line.place), served, blocks)

    def gauge(self, name: str) -> str:
        """The gauge that a piece is worked at, or ""."""
        entry = next((piece.entry for piece in self.sized.pieces if piece.entry.name == name), None)
        return entry.gauge.text.strip() if entry and entry.gauge else ""

    def section(self, key: str, title: str, body: list[PlacedLine]) -> None:
        number = len(self.front) + len(self.finishing)
        blocks = self.parts.part(
            ("section", key, number),
            tuple(body),
            lambda _: self.parts.blocks.blocks(body, Surroundings("", self.reader.all)),
        )
        if blocks:
            (self.finishing if self.pieces else self.front).append(Section(key, title, blocks))

    def served(self, line: PlacedLine, name: str) -> tuple[int, ...]:
        """The sizes that work a piece; all of them where it is not known (reported)."""
        known = {piece.entry.name: piece.served for piece in self.sized.pieces}
        if name not in known and "pieces" not in self.sized.source.header.unreadable:
            self.parts.report.add(piece_not_known(line.place.span, name, tuple(known)))
        elif any(piece.name == name for piece in self.pieces):
            self.parts.report.add(piece_begun_twice(line.place.span, name))
        return known.get(name, self.reader.all)
