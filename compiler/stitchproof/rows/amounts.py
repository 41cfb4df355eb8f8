"""What every part of a row's tree points at and counts with: stretches of the line, and whole numbers per size."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.measures.values import PerSize


class Stretch(Struct, frozen=True):
    """Characters of a line, from `start` up to `end`."""

    start: int
    end: int


class Amount(Struct, frozen=True):
    """A whole number, one value per size; Absent where a size does not work it. written: it stands in the text."""

    values: PerSize
    at: Stretch
    written: bool = True
