"""Counts what a row has, on each basis on which the trade counts, and holds it against what the row states."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from stitchproof.rows.row_tree import StatedCount, Thing
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import GROUP, Kind, Position
from stitchproof.simulation.targets import CHAINS, GROUP_NAMES, SPACES, value
from stitchproof.simulation.ways import Ways

RIBS = ("rib", "ribs")
ROWS = ("row", "rows", "rnd", "rnds")
OF_ROWS = (*RIBS, *ROWS)
"""What is told by how many rows there are."""


class Basis(Enum):
    """What "sts" includes."""

    STITCHES = "stitches"
    AND_SPACES = "stitches and chain spaces"
    AND_CHAINS = "stitches and each chain of a space"
    NOT_STARTING_CHAIN = "stitches without the starting chain"
    WITH_STARTING_CHAIN = "stitches and the starting chain that does not count as one"


class Tally(Struct, frozen=True):
    """A row to be counted: its places, how many rows below had, slip stitches worked, chains, rows of the piece so far."""

    row: LiveRow
    before: LiveRow
    slip_stitches: int = 0
    old_chain: bool = False
    rows: int = 0


def total(row: LiveRow, basis: Basis, old_chain: bool = False) -> int:
    """All of a row on a basis."""
    match basis:
        case Basis.STITCHES:
            return row.size - row.spaces
        case Basis.AND_SPACES:
            return len(row)
        case Basis.AND_CHAINS:
            return row.total(lambda place: place.chains if place.kind is Kind.SPACE else 1)
        case Basis.NOT_STARTING_CHAIN:
            return row.count(lambda place: place.kind in (Kind.STITCH, Kind.CHAIN))
        case Basis.WITH_STARTING_CHAIN:
            return row.size - row.spaces + int(old_chain)


def counted(thing: Thing | None, tally: Tally, ways: Ways, size: int, basis: Basis) -> int | None:
    """How many of a thing a row has; None where that cannot be told from the row."""
    name = thing.name if thing else "st"
    row = tally.row
    if name in ("st", "place"):
        return total(row, basis, tally.old_chain)
    if name in SPACES and thing:
        chains = value(thing.chains, size)
        return row.count(lambda place: place.kind is Kind.SPACE and chains in (None, place.chains))
    if name in CHAINS:
        return row.total(lambda place: place.chains if place.kind in (Kind.SPACE, Kind.CHAIN) else 0)
    if name == "slst" and tally.slip_stitches:
        return tally.slip_stitches
    if name in RIBS:
        return tally.rows // 2 if tally.rows % 2 == 0 else None
    if name in ROWS:
        return tally.rows
    names = (name, GROUP) if ways.lenient and name in GROUP_NAMES else (name,)
    groups = row.count(lambda place: place.group in names and place.index == 0)
    if groups:
        return groups
    if ways.is_stitch(name) or _is_made(name, row):
        return row.count(lambda place: _is_a(place, name, ways))
    return None


def _is_made(name: str, row: LiveRow) -> bool:
    return row.find(0, lambda place: place.stitch == name) is not None


def _is_a(place: Position, name: str, ways: Ways) -> bool:
    return place.is_stitch and (name in (place.stitch, place.base) or ways.facts(name).base == place.base == name)


def of_count(stated: StatedCount, tally: Tally, ways: Ways, size: int, basis: Basis) -> int | None:
    """What a stated count should be: a total, or how many more or fewer than the row below."""
    if not stated.change:
        return counted(stated.thing, tally, ways, size, basis)
    return stated.change * (total(tally.row, basis) - total(tally.before, basis))
