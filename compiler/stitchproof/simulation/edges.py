"""What a piece starts from: the live edge, the row-ends, the foundation or the held stitches of pieces made before it."""

from __future__ import annotations

from collections.abc import Iterable

from stitchproof.rows.row_tree import Item, Repeat, RowTree, Skip, Thing, Work
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.live_row import LiveRow, RowBuilder
from stitchproof.simulation.position import CHAIN, Kind, Position


def edge_for(trees: tuple[RowTree, ...], sources: list[Fabric]) -> LiveRow | None:
    """The edge that a first row is worked into, by what it names; None where no source has it."""
    things = [thing for tree in trees for item in tree.items for thing in things_of(item)]
    names = {thing.name for thing in things}
    if any(thing.of == "held" for thing in things):
        return held_ring(sources)
    if "row-end" in names:
        return _joined(row_ends(source) for source in sources)
    if "base ch" in names:
        return next((source.foundation for source in sources if source.foundation is not None), None)
    return next((source.row for source in reversed(sources) if source.row is not None), None)


def things_of(item: Item) -> list[Thing]:
    """What an item works into."""
    match item:
        case Work() | Skip():
            return list(item.target.things) if item.target else []
        case Repeat():
            into = list(item.target.things) if item.target else []
            return into + [thing for inner in item.items for thing in things_of(inner)]
        case _:
            return []


def row_ends(source: Fabric) -> LiveRow:
    """One end of each row of a piece, in the order worked."""
    building = RowBuilder()
    for row in source.rows:
        building.add(Position(Kind.ROW_END, row.stitch, row.stitch), 1)
    return building.row()


def held_ring(sources: list[Fabric]) -> LiveRow | None:
    """Stitches held and the chains that were made under them, from the chains on: a sleeve's first round."""
    held = next((each for source in sources for each in source.held), None)
    if held is None:
        return None
    ahead = held.chains // 2
    building = RowBuilder()
    building.add(CHAIN, ahead)
    building.add_row(held.row)
    building.add(CHAIN, held.chains - ahead)
    return building.row()


def _joined(rows: Iterable[LiveRow]) -> LiveRow:
    whole = LiveRow()
    for row in rows:
        whole = whole + row
    return whole
