"""Turning chains and foundations, and what stitches make of rows and rounds. Common practice: a pattern may differ and say so."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Memory, read_keys, read_memory
from stitchproof.standards.ranges import Range, exact, read_range

FIRST_CHAIN = 2
"""No stitch is worked into the chain next to the hook."""


class TurningChain(Struct, frozen=True):
    """The chains that lift the hook to a stitch's height, by convention.

    stitch: its neutral key (US). counts: whether they stand for the row's first stitch, None where there are none.
    disputed: makers do not agree whether they count, so a pattern has to say.
    """

    stitch: str
    chains: int
    counts: bool | None
    disputed: bool
    memory: Memory
    confirmed_by: tuple[str, ...]


class Foundation(Struct, frozen=True):
    """more_chains: foundation chains beyond the row's number of stitches. first_chain: which one from the hook takes Row 1's
    first worked stitch, 2 for the second.
    """

    more_chains: int
    first_chain: int


class FlatCircle(Struct, frozen=True):
    """Stitches in round 1 of a flat circle, and added in each later round: the usual number, and what is in use."""

    stitch: str
    usual: int
    in_use: Range
    memory: Memory
    confirmed_by: tuple[str, ...]


class StitchFigure(Struct, frozen=True):
    """A rule of thumb for a stitch: single crochet along the end of one row of it, or its height in rows of single crochet."""

    stitch: str
    figure: Fraction
    memory: Memory


@cache
def turning_chains() -> tuple[TurningChain, ...]:
    """From slip stitch to the tallest stitch."""
    return tuple(
        TurningChain(
            stitch,
            row["turning_chain"],
            row["counts"],
            row.get("disputed") == "counts",
            read_memory(row),
            read_keys(row, "confirmed_by"),
        )
        for stitch, row in _data()["stitches"].items()
    )


def foundation(turning_chain: int, counts: bool) -> Foundation:
    """The foundation of a first row of stitches whose turning chain has so many chains and counts as a stitch or does not.

    Formula: the first stitch goes into chain turning_chain + 1, but never before the second; n stitches need
    n + first_chain - 1 chains, one less where the turning chain is one of the stitches. Common practice, no source.
    """
    first = max(FIRST_CHAIN, turning_chain + 1)
    return Foundation(first - 2 if counts else first - 1, first)


@cache
def flat_circles() -> tuple[FlatCircle, ...]:
    """The rule of thumb of each stitch that has one."""
    data = _data()["flat_circles"]
    return tuple(
        FlatCircle(
            stitch,
            row["usual"],
            read_range(row["range"]) or Range(None, None),
            read_memory(row),
            (*read_keys(data, "confirmed_by"), *read_keys(data, "range_confirmed_by")),
        )
        for stitch, row in data["stitches"].items()
    )


@cache
def row_ends() -> tuple[StitchFigure, ...]:
    """Stitches of single crochet worked along the end of one row of each stitch."""
    rows = _data()["row_ends"]["stitches"].items()
    return tuple(StitchFigure(stitch, exact(row["per_row"]), read_memory(row)) for stitch, row in rows)


@cache
def fabric_heights() -> tuple[StitchFigure, ...]:
    """Row height of each stitch in rows of single crochet. Too rough to size anything: the swatch gives the rows."""
    data = _data()["fabric_heights"]
    return tuple(StitchFigure(stitch, exact(figure), read_memory(data)) for stitch, figure in data["of_sc"].items())


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("stitch_heights.yaml"))
