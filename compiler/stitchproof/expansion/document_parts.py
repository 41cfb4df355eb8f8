"""Parts of a Document that were made of the same before, with what making them left behind."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TypeVar, cast

from msgspec import Struct

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.blocks import BlockReader
from stitchproof.expansion.expanded_pattern import LateSlot
from stitchproof.expansion.placed_text import PlacedLine, placed
from stitchproof.expansion.rendering import Occurrence, Renderer
from stitchproof.expressions import expression
from stitchproof.formulas.asked import Asked
from stitchproof.kept import Kept
from stitchproof.reading.pattern_source import TextFile

Made = TypeVar("Made")
_TAKES_OTHERS = expression(r"\{%[-+]?\s*(?:include|import|from|extends)\b")


class _Part(Struct, frozen=True, eq=False):
    """A part, and what else came of it: the values with a k that it asks for, its late slots, the rows of the body table that
    it uses, the photos and tutorials that it places, and the identities of its steps."""

    made: object
    asked: frozenset[Asked]
    late: tuple[LateSlot, ...]
    rows: frozenset[str]
    placed: frozenset[str]
    identities: tuple[tuple[str, int], ...]


class _Unfolded(Struct, frozen=True, eq=False):
    """A text unfolded: its lines, the islands that came up, and what that cost of the bounds of all texts together."""

    lines: tuple[PlacedLine, ...]
    occurrences: tuple[Occurrence, ...]
    whole: bool
    rounds: int
    made: int


class DocumentParts:
    """Makes the parts of one Document, or takes those that were made of the same. Numbers are the same where the header is."""

    def __init__(self, kept: Kept | None, blocks: BlockReader, renderer: Renderer, report: Report) -> None:
        self.kept = kept
        self.blocks = blocks
        self.reader = blocks.reader
        self.renderer = renderer
        self.report = report

    def unfolded(self, text: TextFile) -> tuple[PlacedLine, ...]:
        """The lines of a text. One that takes in others of the pattern is made of all of them."""
        source, occurrences, work = self.reader.sized.source, self.renderer.occurrences, self.renderer.spent
        others = source.texts if _TAKES_OTHERS.search(text.file.text) else ()
        state = (len(occurrences), self.renderer.stopped)
        inputs = (text, source.header, *state, source.shared_texts, others)
        held = self.kept.held(("unfolded", text.name), inputs, self.report) if self.kept else None
        if held is not None:
            unfolded = cast(_Unfolded, held.made)
            occurrences += unfolded.occurrences
            self.renderer.whole = self.renderer.whole and unfolded.whole
            work.rounds += unfolded.rounds
            work.made += unfolded.made
            return unfolded.lines
        whole, rounds, made = self.renderer.whole, work.rounds, work.made
        apart = self._apart()
        self.renderer.whole = True
        rendered = self.renderer.rendered(text)
        lines = tuple(placed(rendered, source.marks, text.file.whole).lines())
        new = _Unfolded(
            lines, tuple(occurrences[state[0] :]), self.renderer.whole, work.rounds - rounds, work.made - made
        )
        self.renderer.whole = whole and new.whole
        self._together(apart)
        if self.kept and not self.renderer.stopped:
            self.kept.hold(("unfolded", text.name), inputs, new, apart.findings())
        return lines

    def part(self, what: Hashable, inputs: tuple[object, ...], make: Callable[[Report], Made]) -> Made:
        """A part that is made of these inputs, the header, and the occurrences of its lines."""
        if self.kept is None:
            return make(self.report)
        reader, scope = self.reader, self.reader.sized.scope
        first_late = len(reader.late)
        inputs = (*inputs, reader.sized.source.header, first_late)
        held = self.kept.held(what, inputs, self.report)
        part = cast(_Part, held.made) if held else self._made(what, inputs, first_late, make)
        reader.asked |= part.asked
        reader.late += part.late
        scope.asked |= part.rows
        self.blocks.placed |= part.placed
        self.blocks.identities.update(part.identities)
        return cast(Made, part.made)

    def _made(
        self, what: Hashable, inputs: tuple[object, ...], first_late: int, make: Callable[[Report], object]
    ) -> _Part:
        """The part made, with what it left behind taken out of the readers again."""
        reader, scope, blocks = self.reader, self.reader.sized.scope, self.blocks
        before, known = (reader.asked, scope.asked, blocks.placed), dict(blocks.identities)
        reader.asked, scope.asked, blocks.placed = set(), set(), set()
        apart = self._apart()
        made = self._same_as_held(what, make(apart))
        late = tuple(reader.late[first_late:])
        del reader.late[first_late:]
        named = tuple(each for each in blocks.identities.items() if known.get(each[0]) != each[1])
        part = _Part(made, frozenset(reader.asked), late, frozenset(scope.asked), frozenset(blocks.placed), named)
        reader.asked, scope.asked, blocks.placed = before
        self._together(apart)
        if self.kept:
            self.kept.hold(what, inputs, part, apart.findings())
        return part

    def _same_as_held(self, what: Hashable, made: object) -> object:
        """What is held, where it is the same although it was made of something else: what goes by it need not look closer."""
        held = self.kept.last(what) if self.kept else None
        earlier = cast(_Part, held.made).made if held else None
        return earlier if earlier == made else made

    def _apart(self) -> Report:
        """A report of its own for what is made next."""
        apart = Report(self.report.names)
        self._report_to(apart)
        return apart

    def _together(self, apart: Report) -> None:
        self._report_to(self.report)
        self.report.extend(apart.findings())

    def _report_to(self, report: Report) -> None:
        self.reader.report = self.blocks.report = self.renderer.report = report
