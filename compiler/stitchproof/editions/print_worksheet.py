"""A tester's worksheet as it stands on the page."""

from __future__ import annotations

from msgspec import Struct


class PrintCheckpoint(Struct, frozen=True):
    """A line where a tester stops, and what she is asked there."""

    line: int
    piece: str
    words: str
    count: bool
    cm: bool


class PrintWorksheet(Struct, frozen=True):
    """What a tester fills in. gauges: each by its name, with the noun of its rows."""

    checkpoints: tuple[PrintCheckpoint, ...]
    gauges: tuple[tuple[str, str], ...]
