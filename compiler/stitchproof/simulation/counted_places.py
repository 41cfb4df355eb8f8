"""Lines that hang markers into counted stitches, name spans around them, and say where a round ends."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import pairwise

from stitchproof.rows.row_tree import EndsWith, FastenOff, Item, JoinAs, MarkedStitch, NamedSpan, Remark, RowTree, Sewn
from stitchproof.simulation.fabric import Fabric, Parts
from stitchproof.simulation.hook import Marker
from stitchproof.simulation.row_work import RowWork
from stitchproof.simulation.slips import (
    Absent,
    CountingUnsaid,
    CountWrong,
    MarkerBeyond,
    MarkerCounted,
    PartRoundEnds,
    Slip,
    SpansDiffer,
)
from stitchproof.simulation.spans import Counted, SpanKnown, Written, index_of, start_of
from stitchproof.simulation.targets import value

LINES = (MarkedStitch, NamedSpan, EndsWith, JoinAs, Sewn)
"""Items that make a line of their own."""
SpanFinder = Callable[[str], tuple[Fabric, SpanKnown] | None]
"""The span of a name, and the piece that it is on."""


def no_span(name: str) -> tuple[Fabric, SpanKnown] | None:
    """Where no piece is looked at but the one at hand."""
    return None


def cut_at_places(tree: RowTree) -> list[RowTree]:
    """A line of several such items, or of a row and such items, as lines of one each; counts go with what they follow."""
    begins = [number for number, item in enumerate(tree.items) if isinstance(item, LINES)]
    if not begins or (len(begins) == 1 and begins[0] == 0):
        return [tree]
    edges = sorted({0, *begins, len(tree.items)})
    pieces = [tree.items[start:end] for start, end in pairwise(edges)]
    cuts = [items[0].at.start for items in pieces[1:]]
    found = []
    for number, items in enumerate(pieces):
        begin = cuts[number - 1] if number else -1
        end = cuts[number] if number < len(cuts) else None
        stated = tuple(each for each in tree.stated if each.at.start >= begin and (end is None or each.at.start < end))
        found.append(RowTree(items, stated, tree.only))
    return found


def tells_places(trees: Parts) -> bool:
    """Whether lines only tell of counted places and their seams."""
    items = [item for tree in trees for item in tree.items]
    return any(isinstance(item, LINES) for item in items) and all(
        isinstance(item, (*LINES, Remark, FastenOff)) for item in items
    )


def work_places(trees: Parts, work: RowWork, find_span: SpanFinder, sewn: Iterable[tuple[str, ...]]) -> bool:
    """Find the places, and hold what is said of them against the fabric. False: its live edge is not known.

    sewn: groups of spans that are sewn to each other somewhere in the pattern.
    """
    if work.fabric.row is None or not len(work.fabric.row):
        return False
    for part, tree in enumerate(trees):
        for item in tree.items:
            match item:
                case MarkedStitch():
                    _mark(item, work, part)
                case NamedSpan():
                    _span(item, tree, work, part, find_span, sewn)
                case EndsWith():
                    _ends_with(item, work, part)
                case _:
                    pass
    return True


def _mark(item: MarkedStitch, work: RowWork, part: int) -> None:
    """Hang a marker into the stitch that is counted to."""
    fabric, nth = work.fabric, value(item.nth, work.size)
    row = fabric.row
    if nth is None or row is None:
        return
    begins = len(row) - len(fabric.places.part.made) if fabric.places.part else 0
    marked_is, start = item.marked_is, begins
    if item.counted_from:
        found = index_of(fabric.marks, item.counted_from, len(row))
        if found is None:
            _lose(item.name, item.counted_from, Absent("marker", "", item.at), work, part)
            return
        start = found
        if marked_is is None:
            work.report(CountingUnsaid(item.name, nth, item.counted_from, item.at), part)
            marked_is = 1
    first = 1 if marked_is is None else marked_is
    index = start + nth - first
    if nth < 1 or index >= len(row):
        slip = MarkerBeyond(item.name, nth, item.row or "rnd", len(row) - start - 1 + first, item.nth.at)
        _lose(item.name, "", slip, work, part)
        return
    others = tuple(mark for mark in fabric.marks if mark.name != item.name)
    fabric.marks = (*others, Marker(index, item.name, in_stitch=True))
    offset = start - begins + 1 - first
    written = Written(work.report, part, item.nth.at)
    fabric.places.markers[item.name] = Counted(item.name, nth, offset, item.counted_from, written)


def _lose(name: str, because: str, slip: Slip, work: RowWork, part: int) -> None:
    """Report that a marker or a span cannot be found, unless what it needs is lost already."""
    lost = work.fabric.places.lost
    if because not in lost:
        work.report(slip, part)
    lost.add(name)


def _span(
    item: NamedSpan, tree: RowTree, work: RowWork, part: int, find_span: SpanFinder, sewn: Iterable[tuple[str, ...]]
) -> None:
    """Keep a span, and hold it against its stated count and against the spans that it is sewn to."""
    fabric, size = work.fabric, work.size
    before, after = value(item.before, size) or 0, value(item.after, size) or 0
    number = before + after + int(item.with_marked)
    if fabric.row is None or index_of(fabric.marks, item.marker, len(fabric.row)) is None:
        _lose(item.name, item.marker, Absent("marker", "", item.at), work, part)
        return
    for count in (count for stated in tree.stated for count in stated.counts):
        said = value(count.amount, size)
        if said is not None and said != number:
            work.report(CountWrong(said, number, "sts", 0, count.at), part)
    span = SpanKnown(item.name, item.marker, before, after, number, Written(work.report, part, item.at), number)
    fabric.places.spans[item.name] = _as_its_partner(span, fabric, find_span, sewn)


def _as_its_partner(
    span: SpanKnown, fabric: Fabric, find_span: SpanFinder, sewn: Iterable[tuple[str, ...]]
) -> SpanKnown:
    """The span; where it is sewn to one of another number, that is reported, and work goes on with the other's."""
    partners = [name for group in sewn if span.name in group for name in group if name != span.name]
    for name in partners:
        found = find_span(name)
        if found is not None and found[1].number != span.number:
            spans_differ(span, fabric, found[1], found[0])
            return like(span, found[1])
    return span


def like(span: SpanKnown, other: SpanKnown) -> SpanKnown:
    """A span with the numbers of another."""
    return SpanKnown(span.name, span.marker, other.before, other.after, other.number, span.written, span.number)


def spans_differ(one: SpanKnown, fabric: Fabric, other: SpanKnown, other_fabric: Fabric) -> None:
    """Report that two spans that meet differ, where the first of them is written."""
    live = len(fabric.row) if fabric.row is not None else 0
    slip = SpansDiffer(
        one.name, one.number, fabric.piece, other.name, other.number, other_fabric.piece, live, one.written.at
    )
    one.written.slip(slip)


def _ends_with(item: EndsWith, work: RowWork, part: int) -> None:
    """Hold the end of the last row against the last stitch of a span; after a fault go on as if it ended there."""
    fabric = work.fabric
    span = fabric.places.spans.get(item.span)
    row, round_ = fabric.row, fabric.places.part
    if span is None or row is None:
        _lose(item.span, item.span, Absent(item.span, "", item.at), work, part)
        return
    places = len(row)
    start = start_of(span, fabric.marks, places)
    if start is None or (start + span.number) % places == 0:
        return
    made = len(round_.made) if round_ else places
    begins = places - made
    marked = (index_of(fabric.marks, span.marker, places) or 0) - begins + 1
    span_ends = marked + span.after
    counted = fabric.places.markers.get(span.marker)
    due = _due_marker(counted, span, made, work) if counted else None
    if round_ is not None and (round_.faulty or fabric.shaken):
        _end_part_at(span_ends, work)
    elif counted and due is not None:
        counted.written.slip(
            MarkerCounted(
                counted.name,
                counted.nth,
                due - counted.offset,
                counted.counted_from,
                counted.offset == 0,
                places,
                span.name,
                span_ends,
                made,
                item.row,
                counted.written.at,
            )
        )
        _hang(span.marker, begins + due - 1, fabric)
    else:
        written = round_.written if round_ else Written(work.report, part, item.at)
        written.slip(PartRoundEnds(item.row, made, span_ends, span.name, span.marker, marked, span.after, written.at))
        _end_part_at(span_ends, work)


def _due_marker(counted: Counted, span: SpanKnown, made: int, work: RowWork) -> int | None:
    """The number of the stitch opposite the one counted from, if the marker is not there and the span would then end well.

    In a ring of 2n stitches the opposite of stitch 1 is stitch n + 1. None: the marker is not what is wrong.
    """
    fabric = work.fabric
    places = len(fabric.row) if fabric.row is not None else 0
    first = index_of(fabric.marks, counted.counted_from, places) if counted.counted_from else None
    if first is None or places % 2:
        return None
    opposite = (first + places // 2) % places - (places - made) + 1
    is_there = counted.nth + counted.offset == opposite
    return opposite if not is_there and opposite + span.after == made else None


def _hang(name: str, index: int, fabric: Fabric) -> None:
    fabric.marks = tuple(mark.at(index) if mark.name == name else mark for mark in fabric.marks)


def _end_part_at(number: int, work: RowWork) -> None:
    """Go on as if the part round had stopped after another number of stitches."""
    fabric, round_ = work.fabric, work.fabric.places.part
    if round_ is None or not 0 < number < len(round_.below):
        return
    places = len(round_.ring())
    moved = number - round_.number
    fabric.places.part = round_.end_at(number)
    fabric.row = fabric.places.part.ring()
    fabric.marks = tuple(mark.at((mark.before - moved) % places) for mark in fabric.marks)


def outermost(trees: Parts) -> list[tuple[int, Item]]:
    """The items of a row in order, with the number of the part that each stands in."""
    return [(number, item) for number, tree in enumerate(trees) for item in tree.items]
