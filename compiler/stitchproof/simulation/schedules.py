"""Shapings at the two edges that are worked at the same time: what each row of the stretch loses, and where."""

from __future__ import annotations

from msgspec import Struct, field

from stitchproof.rows.row_tree import (
    Amount,
    Item,
    Leave,
    Loops,
    OnRows,
    Reach,
    RowTree,
    Segment,
    Shaping,
    Stop,
    Stretch,
    Target,
    Thing,
    Work,
)
from stitchproof.simulation.side import Side
from stitchproof.simulation.targets import value

MOST_ROWS = 10_000


class EdgeShaping(Struct):
    """What is worked at one edge, by row number. at_start: whether the edge is at the start of RS rows.

    losses: stitches left unworked on a row; shapings: stitches worked at the edge on a row ("hdc2tog").
    """

    name: str
    at_start: bool | None
    at: Stretch
    losses: dict[int, Amount] = field(default_factory=dict)
    shapings: dict[int, Work] = field(default_factory=dict)

    @property
    def last(self) -> int:
        return max((*self.losses, *self.shapings), default=0)


def edge_shaping(tree: RowTree, side_of_first: Side, size: int) -> tuple[EdgeShaping, str] | None:
    """The shaping that a line tells, and the word of its rows ("V Row"); None where it tells none."""
    named = next((item.words for item in tree.items if isinstance(item, Segment)), "")
    first = next((item for item in tree.items if isinstance(item, Shaping) and not item.row), None)
    if first is None:
        return None
    found = EdgeShaping(named, None, first.at)
    word, last = "", 0
    for number, item in enumerate(tree.items):
        if isinstance(item, Shaping) and not item.row:
            word = word or next((on.word for on in item.when if on.word), "")
            rows, last = _rows(item.when, last, size)
            at_start = _at_start(item, tree.items[number + 1 :], min(rows, default=1), side_of_first)
            found.at_start = at_start if found.at_start is None else found.at_start
            _enter(item, tree.items[number + 1 :], rows, found)
    return found, word


def _enter(item: Shaping, after: tuple[Item, ...], rows: list[int], found: EdgeShaping) -> None:
    body = item.items or after
    loss = _loss(body)
    work = next((each for each in item.items if isinstance(each, Work)), None) if loss is None else None
    for row in rows:
        if loss is not None:
            found.losses[row] = loss
        elif work is not None:
            found.shapings[row] = work


def _loss(after: tuple[Item, ...]) -> Amount | None:
    """Stitches that a row told in full slips over at its start, or leaves at its end."""
    for item in after:
        if isinstance(item, Shaping):
            return None
        if isinstance(item, Work) and item.stitch == "slst" and item.target:
            return item.target.count
        if isinstance(item, Leave) and item.target:
            return item.target.count
    return None


def _at_start(item: Shaping, after: tuple[Item, ...], row: int, side_of_first: Side) -> bool | None:
    """Whether the edge lies at the start of RS rows; None where the line does not say."""
    on_rs = (side_of_first is Side.RS) == (row % 2 == 1)
    if item.edge in ("beginning", "end"):
        return (item.edge == "beginning") == on_rs
    if item.edge:
        return None
    for each in item.items or after:
        if isinstance(each, Shaping):
            return None
        if isinstance(each, Work) and each.stitch == "slst":
            return on_rs
        if isinstance(each, Leave):
            return not on_rs
    return None


def _rows(when: tuple[OnRows, ...], last: int, size: int) -> tuple[list[int], int]:
    """The rows meant, in order, and the last of them."""
    rows: list[int] = []
    for on in when:
        run, first = value(on.run, size) if on.run else None, value(on.on, size) if on.on else None
        if on.run is not None:
            new = list(range(last + 1, last + 1 + min(run or 0, MOST_ROWS)))
        elif on.on is not None:
            new = [first] if first is not None else []
        else:
            new = [last + 1]
        last = new[-1] if new else last
        rows += new
        for every, times in on.then:
            step, more = value(every, size), value(times, size)
            if step and more and step * more <= MOST_ROWS:
                rows += [last + step * each for each in range(1, more + 1)]
                last = rows[-1]
    return rows, last


def shaped_row(number: int, side: Side, edges: list[EdgeShaping], at: Stretch) -> RowTree:
    """The row of a number with what is worked at its two edges."""
    start: list[Item] = []
    end: list[Item] = []
    leave: list[Item] = []
    for edge in edges:
        here_at_start = bool(edge.at_start) == (side is Side.RS)
        work, loss = edge.shapings.get(number), edge.losses.get(number)
        if work is not None:
            (start if here_at_start else end).append(Work(work.stitch, work.loops, None, None, None, at))
        if loss is not None and here_at_start:
            start.append(Work("slst", Loops.BOTH, None, None, Target(Reach.FIRST, (), loss, at), at))
        elif loss is not None:
            leave.append(Leave(Target(Reach.LAST, (), loss, at), at))
    stop = _stop_before(edges, number, side, at)
    each = Target(Reach.EACH, (Thing("st", at),), None, at, stop=stop)
    return RowTree((*start, Work("", Loops.BOTH, None, None, each, at), *end, *leave), ())


def _stop_before(edges: list[EdgeShaping], number: int, side: Side, at: Stretch) -> Stop | None:
    for edge in edges:
        loss = edge.losses.get(number)
        if loss is not None and bool(edge.at_start) != (side is Side.RS):
            return Stop(loss, None, True, None, at)
    return None
