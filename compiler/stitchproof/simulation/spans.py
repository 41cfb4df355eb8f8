"""Places found by counting: markers in stitches, spans around them, and rounds that stop part of the way."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct, field

from stitchproof.rows.row_tree import Stretch
from stitchproof.simulation.hook import Marker
from stitchproof.simulation.live_row import LiveRow, row_of
from stitchproof.simulation.slips import Slip


class Written(Struct, frozen=True, eq=False):
    """Where a thing is written, so that a slip that shows later can be reported there. at: the words, in their part."""

    report: Callable[[Slip, int], None]
    part: int
    at: Stretch

    def slip(self, slip: Slip) -> None:
        """Report a slip where this is written."""
        self.report(slip, self.part)


class Counted(Struct, frozen=True, eq=False):
    """A marker in a stitch found by counting. nth: as written; offset: what is added to it to get its number in the row."""

    name: str
    nth: int
    offset: int
    counted_from: str
    written: Written


class SpanKnown(Struct, frozen=True, eq=False):
    """A span: so many stitches before and after a marker, in all `number`; told: what its line says, where that was put right."""

    name: str
    marker: str
    before: int
    after: int
    number: int
    written: Written
    told: int


class PartRound(Struct, frozen=True, eq=False):
    """A round that stopped part of the way. below: the whole ring that it was worked on; number: stitches worked into.

    words: its name as written. faulty: its own count was wrong, so that its number is not sure.
    """

    below: LiveRow
    made: LiveRow
    number: int
    words: str
    faulty: bool
    written: Written

    def ring(self) -> LiveRow:
        """The live edge in working order: what the round has not come to, then what it has made."""
        return self.below.part(self.number, len(self.below)) + self.made

    def end_at(self, number: int) -> PartRound:
        """The same round, stopped after another number of stitches; as many as it makes of one kind are added or taken."""
        made = self.made.part(0, min(number, len(self.made)))
        if number > len(made) and made:
            more = self.made.at(len(self.made) - 1)
            made = made + row_of((more, number - len(made)))
        return PartRound(self.below, made, number, self.words, self.faulty, self.written)


class Places(Struct):
    """What a piece has of them. markers and spans by name; part: the last row, if it was a part round.

    lost: markers and spans that could not be found, which is reported; what needs them says nothing more.
    """

    markers: dict[str, Counted] = field(default_factory=dict)
    spans: dict[str, SpanKnown] = field(default_factory=dict)
    part: PartRound | None = None
    lost: set[str] = field(default_factory=set)

    def copied(self) -> Places:
        """The same as they are now, to be worked on apart."""
        return Places(dict(self.markers), dict(self.spans), self.part, set(self.lost))

    def are_those_of(self, other: Places) -> bool:
        """Whether they are the same places, wherever they are written."""
        return self._facts() == other._facts()

    def _facts(self) -> tuple[object, ...]:
        part = self.part
        markers = [(each.name, each.nth, each.offset, each.counted_from) for each in self.markers.values()]
        spans = [
            (each.name, each.marker, each.before, each.after, each.number, each.told) for each in self.spans.values()
        ]
        return markers, spans, part and (part.below, part.made, part.number, part.faulty), self.lost


def index_of(marks: tuple[Marker, ...], name: str, places: int) -> int | None:
    """The place that a named marker is at, in a ring of so many; None where there is none."""
    found = next((mark.before for mark in marks if mark.name == name), None)
    return None if found is None or not places else found % places


def start_of(span: SpanKnown, marks: tuple[Marker, ...], places: int) -> int | None:
    """The first place of a span in a ring of so many; None where its marker has gone."""
    at = index_of(marks, span.marker, places)
    return None if at is None else (at - span.before) % places


def marks_of_part(
    marks: tuple[Marker, ...], left: tuple[Marker, ...], cursor: int, not_worked: int, places: int
) -> tuple[Marker, ...]:
    """Markers of the ring of so many places after a part round. marks: in what it made; left: those it did not come to, by the
    row below. A marker in the first stitch that it did not work is at the new start.
    """
    ahead = [mark.at(mark.before - cursor) for mark in left if mark.before > cursor]
    behind = [mark.at(mark.before + not_worked) for mark in marks]
    return (*ahead, *(mark.at(mark.before % places) if mark.in_stitch else mark for mark in behind))
