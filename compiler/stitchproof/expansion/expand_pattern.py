"""Unfolds the text of a pattern, once for all sizes, and builds the Document."""

from __future__ import annotations

import re

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.blocks import ACCEPTANCE, FENCE, HEADING, BlockReader, Surroundings
from stitchproof.expansion.document import Document, Heading, Piece, Section, SizeList
from stitchproof.expansion.drawings import drawing_sections
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.expansion.faults.piece_not_known import piece_begun_twice, piece_not_known
from stitchproof.expansion.figures import figure_sections
from stitchproof.expansion.front import back_sections, front_sections, title_block
from stitchproof.expansion.inlines import marked_down
from stitchproof.expansion.k_values import ks_in_use
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine, placed
from stitchproof.expansion.rendering import Occurrence, Renderer
from stitchproof.expansion.slots import SlotReader
from stitchproof.sizing.sized_pattern import SizedPattern


def expand_pattern(sized: SizedPattern, report: Report) -> ExpandedPattern:
    """The Document of a pattern: its text unfolded, every slot a number per size, every step verbatim."""
    header = sized.source.header
    occurrences: list[Occurrence] = []
    reader = SlotReader(sized, occurrences, report)
    renderer = Renderer(sized.source, tuple(sized.scope.names()), reader.count_to, reader.highest, report, occurrences)
    lines: list[PlacedLine] = []
    for text in sized.source.texts:
        unfolded = placed(renderer.rendered(text), sized.source.marks, text.file.whole)
        lines += [line for line in unfolded.lines() if not ACCEPTANCE.match(line.text)]
    outline = _Outline(sized, reader, report)
    for heading, body in _split_at_headings(lines):
        outline.add(heading, body)
    sizes = header.sizes
    drawn = (
        drawing_sections(reader, {piece.name: piece.heading for piece in outline.pieces}) if sized.schematics else ()
    )
    figures = figure_sections(reader, frozenset(outline.blocks.placed)) if header.photos or header.tutorials else ()
    document = Document(
        title_block(header, reader),
        SizeList(sizes.names, sizes.called_by_number, sizes.groups, reader.all),
        header.identity.units,
        (*front_sections(header, reader, report), *figures, *outline.front),
        tuple(outline.pieces),
        (*outline.finishing, *drawn),
        back_sections(header),
    )
    in_use = ks_in_use(sized, reader.asked)
    return ExpandedPattern(sized, document, sized.source.whole and renderer.whole, in_use, tuple(reader.late))


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

    def __init__(self, sized: SizedPattern, reader: SlotReader, report: Report) -> None:
        self.sized = sized
        self.reader = reader
        self.report = report
        self.blocks = BlockReader(reader, report)
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
        served = self.served(line, name.strip())
        calls = {int(each[1]): line.place_of(each.start(), each.end()).calls for each in SLOT_MARK.finditer(line.text)}
        inlines = marked_down(title, line.place, lambda slot: self.reader.number(slot, served, calls[slot]))
        gauge = self.gauge(name.strip())
        blocks = self.blocks.blocks(body, Surroundings(name.strip(), served, gauge=gauge, piece_gauge=gauge))
        self.pieces.append(Piece(name.strip(), Heading(len(heading["marks"]), inlines, line.place), served, blocks))

    def gauge(self, name: str) -> str:
        """The gauge that a piece is worked at, or ""."""
        entry = next((piece.entry for piece in self.sized.pieces if piece.entry.name == name), None)
        return entry.gauge.text.strip() if entry and entry.gauge else ""

    def section(self, key: str, title: str, body: list[PlacedLine]) -> None:
        blocks = self.blocks.blocks(body, Surroundings("", self.reader.all))
        if blocks:
            (self.finishing if self.pieces else self.front).append(Section(key, title, blocks))

    def served(self, line: PlacedLine, name: str) -> tuple[int, ...]:
        """The sizes that work a piece; all of them where it is not known (reported)."""
        known = {piece.entry.name: piece.served for piece in self.sized.pieces}
        if name not in known and "pieces" not in self.sized.source.header.unreadable:
            self.report.add(piece_not_known(line.place.span, name, tuple(known)))
        elif any(piece.name == name for piece in self.pieces):
            self.report.add(piece_begun_twice(line.place.span, name))
        return known.get(name, self.reader.all)
