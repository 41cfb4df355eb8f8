"""Rows as they may have been meant, after a fault: built from what the text states."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stitchproof.rows.row_tree import Stated, StatedCount
from stitchproof.simulation.live_row import LiveRow, RowBuilder, row_of
from stitchproof.simulation.position import Position, space, stitch
from stitchproof.simulation.stated import plain_total
from stitchproof.simulation.targets import SPACES, value

ANY = ("st", "sts", "")


def rows_stated(stated: tuple[Stated, ...], main: str, size: int) -> Iterator[LiveRow]:
    """The rows that a stated count may mean: so many of the row's own stitch, or two kinds by turns in either order."""
    plain = plain_total(stated, size)
    if plain:
        yield row_of((stitch(main if plain[1] in ANY else plain[1]), plain[0]))
    elif stated and len(stated[-1].counts) == 2:
        one, other = (_kind(count, size) for count in stated[-1].counts)
        if one and other and abs(one[1] - other[1]) <= 1:
            yield from _by_turns(one, other)


def _kind(count: StatedCount, size: int) -> tuple[Position, int] | None:
    number = value(count.amount, size)
    if number is None or count.thing is None or count.change:
        return None
    name = count.thing.name
    return (space(value(count.thing.chains, size) or 1) if name in SPACES else stitch(name), number)


def _by_turns(one: tuple[Position, int], other: tuple[Position, int]) -> Iterator[LiveRow]:
    first, second = (one, other) if one[1] >= other[1] else (other, one)
    building = RowBuilder()
    building.add_unit(((first[0], 1), (second[0], 1)), second[1])
    building.add(first[0], first[1] - second[1])
    yield building.row()
    if first[1] == second[1]:
        building = RowBuilder()
        building.add_unit(((second[0], 1), (first[0], 1)), first[1])
        yield building.row()


def unlike(rows: Iterable[LiveRow]) -> list[LiveRow]:
    """The same rows, each once."""
    found: list[LiveRow] = []
    for row in rows:
        if row not in found:
            found.append(row)
    return found
