"""What a piece starts from: the live edge, the row-ends, the foundation or the held stitches of pieces made before it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from stitchproof.rows.row_tree import Item, Repeat, RowTree, Segment, Skip, Thing, Work
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.live_row import LiveRow, RowBuilder
from stitchproof.simulation.position import CHAIN, Kind, Position, stitch
from stitchproof.sizing.sized_pattern import EdgeStretch


def edge_for(trees: tuple[RowTree, ...], sources: list[Fabric], before: list[Fabric]) -> LiveRow | None:
    """The edge that a first row is worked into, by what it names; None where it cannot be told.

    sources: the pieces it starts from; before: all pieces made so far, last one last.
    """
    items = [item for tree in trees for item in tree.items]
    things = [thing for item in items for thing in things_of(item)]
    names = {thing.name for thing in things}
    along = [edge for item in items if isinstance(item, Segment) for edge in _edges_named(item.words, before)]
    known = [edge for edge in along if edge is not None]
    if any(thing.of == "held" for thing in things):
        return held_ring([*sources, *reversed(before)])
    if len(along) > 1:
        return _joined(known) if len(known) == len(along) else None
    if "row-end" in names and any(thing.of == "underarm" for thing in things):
        return None  # an edge made of parts of several pieces: which of their row-ends it takes is not known
    if "row-end" in names:
        return _joined(row_ends(source) for source in sources) if all(each.rows_known for each in sources) else None
    if "base ch" in names:
        return _foundation([*sources, *reversed(before)])
    return next((source.row for source in reversed(sources) if source.row is not None), None)


def told_edge(stretches: tuple[EdgeStretch, ...], size: int) -> LiveRow | None:
    """The edge that pattern.yaml tells in numbers; None where one of them is not known."""
    building = RowBuilder()
    for stretch in stretches:
        number = stretch.numbers[size]
        if not isinstance(number, Fraction) or number.denominator != 1:
            return None
        building.add(Position(Kind.ROW_END) if stretch.row_ends else stitch("st"), int(number))
    return building.row()


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
    return _ends(source, 0, len(source.rows))


def _ends(source: Fabric, first: int, last: int) -> LiveRow:
    building = RowBuilder()
    for row in source.rows[first:last]:
        building.add(Position(Kind.ROW_END, row.stitch, row.stitch), 1)
    return building.row()


def _edges_named(words: str, before: list[Fabric]) -> list[LiveRow | None]:
    """The edge that words name by its piece: "up right front" is its row-ends, "back neck" the neck of the back.

    None in place of one whose rows are not all known.
    """
    said = " ".join(words.lower().replace("_", " ").split())
    for source in sorted(before, key=lambda each: -len(each.piece)):
        if source.piece.lower().replace("_", " ") in said:
            known = source.rows_known
            return [(neck(source) if "neck" in said else row_ends(source)) if known else None]
    return []


def neck(source: Fabric) -> LiveRow:
    """The neck of a divided piece: the row-ends of one side, the stitches passed over, the row-ends of the other."""
    begun = source.divided_from or 0
    one, other = _ends(source, begun, source.divided), _ends(source, source.divided, len(source.rows))
    return _joined((one, source.skipped or LiveRow(), other))


def _foundation(sources: Iterable[Fabric]) -> LiveRow | None:
    """The loops along the beginning of the nearest piece that has a foundation of its own."""
    for source in sources:
        if source.own_foundation and source.foundation is not None:
            building = RowBuilder()
            building.add(CHAIN, len(source.foundation))
            return building.row()
    return None


def held_ring(sources: Iterable[Fabric]) -> LiveRow | None:
    """Stitches held and the chains that were made under them, begun in the middle of the chains: a sleeve's first round."""
    held = next((each for source in sources for each in source.held), None)
    if held is None:
        return None
    building = RowBuilder()
    building.add(CHAIN, held.chains // 2)
    building.add_row(held.row)
    building.add(CHAIN, held.chains - held.chains // 2)
    return building.row()


def _joined(rows: Iterable[LiveRow]) -> LiveRow:
    whole = LiveRow()
    for row in rows:
        whole = whole + row
    return whole
