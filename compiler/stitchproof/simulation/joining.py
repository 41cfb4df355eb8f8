"""A row worked over several pieces: each stretch takes stitches of one piece's live edge, in working order."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.rows.row_tree import Item, Mark, Remark, Repeat, Skip, StartAfter, Stretch, Work
from stitchproof.simulation.counted_places import like, outermost, spans_differ
from stitchproof.simulation.counts import Tally
from stitchproof.simulation.fabric import Fabric, Parts
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.live_row import LiveRow, RowBuilder
from stitchproof.simulation.position import stitch
from stitchproof.simulation.round_joins import join_slips
from stitchproof.simulation.row_work import RowWork, Trial, stated_of
from stitchproof.simulation.slips import (
    Absent,
    CannotWork,
    CountWrong,
    Joined,
    LeftOver,
    PartRoundEnds,
    PastEnd,
    Slip,
    StartsInSpan,
    Stopped,
)
from stitchproof.simulation.spans import SpanKnown, start_of
from stitchproof.simulation.stated import count_slips, plain_total
from stitchproof.simulation.walk import walked_by, work_items

Pieces = Callable[[str], Fabric | None]
"""A piece by what a line calls it: "body", "first sleeve"."""


class Edge(Struct):
    """A live edge in a row that meets several. row: its places in working order, the span that it starts after left out.

    spans: where those begin that are passed over, by name. cursor: the next place. begun: where the stretch at hand began;
    made_to: how much the row had made after it. last: the words of its last stitches. whole, left_out: all stitches of the
    piece, and those of the span left out.
    """

    called: str
    fabric: Fabric
    row: LiveRow
    marks: tuple[Marker, ...]
    spans: dict[str, tuple[int, SpanKnown]]
    whole: int
    left_out: int = 0
    cursor: int = 0
    begun: int = 0
    made_to: int = 0
    last: Stretch = field(default_factory=lambda: Stretch(0, 0))
    last_part: int = 0

    @property
    def limit(self) -> int:
        """Up to where it can be worked: the next span that is passed over, or its end."""
        ahead = [start for start, _ in self.spans.values() if start >= self.cursor]
        return min((*ahead, len(self.row)))


class Joining(Struct):
    """The row at hand. stretches: how many stitches it makes on each piece in turn, as written. totals: the same after repair."""

    work: RowWork
    pieces: Pieces
    hook: Hook
    edges: dict[str, Edge] = field(default_factory=dict)
    own_spans: dict[str, SpanKnown] = field(default_factory=dict)
    passed: frozenset[str] = frozenset()
    at_hand: Edge | None = None
    stretches: list[tuple[str, int]] = field(default_factory=list)
    slips: list[tuple[Slip, int]] = field(default_factory=list)
    put_right: int = 0

    @property
    def as_written(self) -> int:
        """Stitches that the row makes as it is written."""
        return self.hook.made.size - self.put_right


def meets_pieces(trees: Parts, fabric: Fabric, pieces: Pieces) -> bool:
    """Whether a row takes stitches of other pieces by name."""
    named = [item.target.piece for _, item in outermost(trees) if isinstance(item, Work) and item.target]
    return any(name and (found := pieces(name)) is not None and found is not fabric for name in named)


def join_pieces(trees: Parts, word: str, number: int | None, work: RowWork, pieces: Pieces) -> bool:
    """Work a row over several pieces. False: the edge of one of them is not known, and nothing is known after it."""
    ways = work.fabric.ways
    items = outermost(trees)
    joining = Joining(work, pieces, Hook(LiveRow(), ways.course.in_rounds, False))
    joining.passed = frozenset(name for _, item in items for name in _spans_passed(item))
    if not _own_spans_known(items, joining) or _any_lost(joining, items):
        work.restart(trees, word, number)
        work.fabric.shaken = True
        return False
    try:
        for index, (part, item) in enumerate(items):
            _work_item(item, tuple(each for _, each in items[index + 1 :]), part, joining)
        for edge in joining.edges.values():
            _close(edge, len(edge.row), joining)
    except Stopped as stopped:
        if isinstance(stopped.slip, CannotWork):
            return work.restart(trees, word, number)
        joining.slips.append((stopped.slip, 0))
    _enter(trees, word, number, joining)
    return True


def _any_lost(joining: Joining, items: list[tuple[int, Item]]) -> bool:
    """Whether a span that is passed over could not be found on its piece, which is reported there."""
    named = [item.target.piece for _, item in items if isinstance(item, Work) and item.target and item.target.piece]
    fabrics = [fabric for fabric in map(joining.pieces, named) if fabric is not None]
    return any(joining.passed & fabric.places.lost for fabric in fabrics)


def _enter(trees: Parts, word: str, number: int | None, joining: Joining) -> None:
    """Hold the count against what was worked, report the first fault, and keep the row."""
    work, hook = joining.work, joining.hook
    made = hook.made.row()
    below = LiveRow()
    for edge in joining.edges.values():
        below = below + edge.row
    slips = joining.slips or list(_count_slips(trees, made, below, joining))
    work.fabric.shaken = any(edge.fabric.shaken for edge in joining.edges.values())
    for slip, part in slips[:1]:
        work.tell(_with_totals(slip, trees, joining), part, trees)
    for join, part in () if slips else join_slips(made, trees, work.ways, work.size):
        work.once(join, part, trees)
    hook.base, hook.cursor, hook.marks = LiveRow(), 0, ()
    work.enter(trees, Trial(below, [walked_by(hook, False)], slips), word, number)
    if slips:
        work.fabric.shaken = True
    elif stated_of(trees):
        work.fabric.shaken, work.candidates = False, []


def _count_slips(trees: Parts, made: LiveRow, below: LiveRow, joining: Joining) -> Iterator[tuple[Slip, int]]:
    work = joining.work
    tally = Tally(made, below, joining.hook.slip_stitches, rows=len(work.fabric.rows) + 1)
    for part, tree in enumerate(trees):
        for stated in tree.stated:
            for slip in count_slips(stated, tally, work.ways, work.size, work.basis):
                if isinstance(slip, CountWrong) and not slip.change:
                    slip = replace(slip, parts=tuple(joining.stretches))
                yield slip, part


def _with_totals(slip: Slip, trees: Parts, joining: Joining) -> Slip:
    """A slip with what the whole row comes to as it is written."""
    if not isinstance(slip, LeftOver | PastEnd) or slip.joined is None:
        return slip
    stated = plain_total(tuple(each for tree in trees for each in tree.stated), joining.work.size)
    joined = replace(slip.joined, total=joining.as_written, stated=stated[0] if stated else None)
    return replace(slip, joined=joined)


def _own_spans_known(items: list[tuple[int, Item]], joining: Joining) -> bool:
    """Find the span that each piece starts after, and hold those against the spans passed over, in order.

    False: one of them, or an edge, is not known.
    """
    wanted: list[tuple[str, Fabric]] = []
    after: StartAfter | None = None
    for index, (_, item) in enumerate(items):
        if isinstance(item, StartAfter):
            after = item
        if not isinstance(item, Work) or not item.target or not item.target.piece:
            continue
        name = item.target.piece
        fabric = joining.pieces(name)
        if fabric is None or fabric.row is None:
            return False
        following = items[index + 1][1] if index + 1 < len(items) else None
        begins = isinstance(items[index - 1][1], StartAfter) if index else False
        same_way = isinstance(following, Remark) and "same way" in following.words
        if after and (begins or same_way) and name not in joining.own_spans:
            own = _own_span(after.span, fabric)
            if own is None:
                joining.work.report(Absent(after.span, "", after.at), 0)
                return False
            joining.own_spans[name] = own
            wanted.append((name, fabric))
    _pair(wanted, items, joining)
    return True


def _own_span(named: str, fabric: Fabric) -> SpanKnown | None:
    """The span of a piece that words mean: "underarm s", or "underarm" where it has one only."""
    spans = fabric.places.spans
    if named in spans:
        return spans[named]
    alike = [span for name, span in spans.items() if named in name.split()]
    return alike[0] if len(alike) == 1 else None


def _pair(wanted: list[tuple[str, Fabric]], items: list[tuple[int, Item]], joining: Joining) -> None:
    """The n-th span passed over meets the n-th span left out: one that differs is reported, and taken like the other."""
    passed = [name for _, item in items for name in _spans_passed(item)]
    if len(passed) != len(wanted):
        return
    others = [fabric for _, item in items if isinstance(item, Work) and item.target
              for fabric in [joining.pieces(item.target.piece)] if fabric is not None]  # fmt: skip
    told: set[int] = set()
    for (name, fabric), span_name in zip(wanted, passed, strict=True):
        of = next((each for each in others if span_name in each.places.spans), None)
        if of is None:
            continue
        other, own = of.places.spans[span_name], joining.own_spans[name]
        if other.number != own.number:
            if id(own) not in told:
                spans_differ(own, fabric, other, of)
            told.add(id(own))
            joining.own_spans[name] = like(own, other)


def _spans_passed(item: Item) -> list[str]:
    if not isinstance(item, Skip):
        return []
    return [thing.of for thing in item.target.things if thing.name == "span"]


def _work_item(item: Item, after: tuple[Item, ...], part: int, joining: Joining) -> None:
    hook, work = joining.hook, joining.work
    match item:
        case StartAfter():
            return
        case Mark() if item.what == "placed" and item.target is None:
            hook.new_marks = (*hook.new_marks, Marker(hook.made.size, item.name.lower()))
        case Skip() if _spans_passed(item):
            _pass_over(item, part, joining)
        case Work() if item.target and item.target.piece:
            _change_to(item, part, joining)
            _stretch(item, after, part, joining)
        case Work() | Repeat() | Skip() if joining.at_hand is not None:
            _stretch(item, after, part, joining)
        case _:
            work_items((item,), hook, work.ways, work.size, outermost=True)


def _change_to(item: Work, part: int, joining: Joining) -> None:
    """Go over to the piece that a stretch names."""
    name = item.target.piece if item.target else ""
    edge = joining.edges.get(name)
    if edge is joining.at_hand and edge is not None:
        return
    if edge is None:
        fabric = joining.pieces(name)
        if fabric is None or fabric.row is None:
            raise Stopped(CannotWork(f"stitches of {name}", item.at))
        if 1 < fabric.times <= sum(each.fabric is fabric for each in joining.edges.values()):
            raise Stopped(Absent(name, "", item.at))
        edge = joining.edges[name] = _edge(name, fabric, item, part, joining)
    edge.begun = edge.cursor
    joining.at_hand = edge


def _edge(name: str, fabric: Fabric, item: Work, part: int, joining: Joining) -> Edge:
    """The live edge of a piece in working order, begun after its own span where the row says so."""
    row = fabric.row or LiveRow()
    places, own = len(row), joining.own_spans.get(name)
    turn, left_out = 0, 0
    if own is not None:
        start = start_of(own, fabric.marks, places)
        if start is None:
            raise Stopped(Absent(own.name, "", item.at))
        turn, left_out = (start + own.number) % places, own.number
        row = (row.part(turn, places) + row.part(0, turn)).part(0, places - left_out)
    spans = {}
    for span in fabric.places.spans.values():
        start = start_of(span, fabric.marks, places)
        if start is not None and span.name in joining.passed:
            spans[span.name] = ((start - turn) % places, span)
    marks = tuple(mark.at((mark.before - turn) % places) for mark in fabric.marks)
    edge = Edge(name, fabric, row, marks, spans, places, left_out)
    for begin, span in spans.values():
        inside = begin + span.number - places
        if inside > 0 and turn == 0:
            _starts_inside(edge, span, inside, item, part, joining)
    return edge


def _starts_inside(edge: Edge, span: SpanKnown, inside: int, item: Work, part: int, joining: Joining) -> None:
    """The edge begins inside a span that is passed over: the round before it stopped in the wrong place. It is put right."""
    round_ = edge.fabric.places.part
    if round_ is not None:
        ends, marked = len(round_.made), len(round_.made) + inside - span.after
        slip = PartRoundEnds(
            round_.words, ends, ends + inside, span.name, span.marker, marked, span.after, round_.written.at
        )
        round_.written.slip(slip)
    else:
        joining.slips.append((StartsInSpan(span.name, inside, span.number, edge.called, item.at), part))
    places = len(edge.row)
    edge.row = edge.row.part(inside, places) + edge.row.part(0, inside)
    edge.spans = {name: ((begin - inside) % places, each) for name, (begin, each) in edge.spans.items()}
    edge.marks = tuple(mark.at((mark.before - inside) % places) for mark in edge.marks)


def _stretch(item: Work | Repeat | Skip, after: tuple[Item, ...], part: int, joining: Joining) -> None:
    """Work on the edge at hand, up to the next span that is passed over."""
    edge, hook, work = joining.at_hand, joining.hook, joining.work
    if edge is None:
        raise Stopped(CannotWork("stitches of no piece", item.at))
    limit, before, start = edge.limit, hook.made.size, edge.cursor
    hook.base, hook.cursor, hook.start_place, hook.worked = edge.row.part(0, limit), start, start, None
    hook.marks = tuple(mark for mark in edge.marks if mark.before > start)
    work_items((item,), hook, work.ways, work.size)
    joining.slips += [(slip, part) for slip in hook.slips]
    hook.slips = []
    made, taken = hook.made.size - before, hook.cursor - start
    joining.stretches.append((edge.called, made))
    if hook.cursor > limit:
        slip = PastEnd(limit - edge.begun, hook.cursor - edge.begun, hook.fit, item.at, _joined(edge))
        joining.slips.append((slip, part))
        if made == taken:
            kept = hook.made.row().part(0, before + limit - start)
            joining.put_right -= hook.made.size - len(kept)
            hook.made = RowBuilder()
            hook.made.add_row(kept)
    edge.cursor, edge.marks, edge.made_to = min(hook.cursor, limit), hook.marks, hook.made.size
    edge.last, edge.last_part = item.at, part


def _joined(edge: Edge) -> Joined:
    return Joined(edge.called, edge.whole, edge.left_out, 0, None)


def _pass_over(item: Skip, part: int, joining: Joining) -> None:
    """Leave a span out; the stretch before it must have come to it."""
    for name in _spans_passed(item):
        edge = next((each for each in joining.edges.values() if name in each.spans), None)
        if edge is None:
            raise Stopped(Absent(name, "", item.at))
        start, span = edge.spans[name]
        _close(edge, start, joining)
        del edge.spans[name]
        edge.cursor = edge.begun = max(start + span.number, edge.cursor)


def _close(edge: Edge, limit: int, joining: Joining) -> None:
    """Hold that a stretch came as far as it can; the stitches that are missing are put in where it stopped, and all goes on."""
    missing = limit - edge.cursor
    if missing <= 0:
        return
    slip = LeftOver(limit - edge.begun, edge.cursor - edge.begun, None, edge.last, _joined(edge))
    joining.slips.append((slip, edge.last_part))
    hook, at = joining.hook, edge.made_to
    row = hook.made.row()
    kind = hook.last_stitch or "sc"
    hook.made = RowBuilder()
    hook.made.add_row(row.part(0, at))
    hook.made.add(stitch(kind, joining.work.ways.facts(kind).base), missing)
    hook.made.add_row(row.part(at, len(row)))
    hook.new_marks = tuple(mark.at(mark.before + missing) if mark.before >= at else mark for mark in hook.new_marks)
    for other in joining.edges.values():
        other.made_to += missing if other.made_to >= at else 0
    joining.put_right += missing
    edge.cursor = limit
