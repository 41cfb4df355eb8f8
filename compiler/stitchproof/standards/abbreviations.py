"""The published list of crochet abbreviations in US terms. The list as a whole is recalled.

Source: Craft Yarn Council, Abbreviations, Crochet Master List.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Memory, read_keys


class Abbreviation(Struct, frozen=True):
    """An abbreviation as printed, its other spellings and its meaning.

    listed: in the council's list; else in common use. memory: from memory unless seen in an independent list as well.
    """

    written: str
    also: tuple[str, ...]
    meaning: str
    listed: bool
    source: str
    memory: Memory


class RepeatMark(Struct, frozen=True):
    """A mark that rows use to say what is repeated, and what it says. From memory, wording ours."""

    mark: str
    meaning: str
    memory: Memory = Memory.ALL


@cache
def abbreviations() -> tuple[Abbreviation, ...]:
    """The council's list with its units of measure, and what is in common use beside it."""
    return tuple(_entries(_data()))


@cache
def repeat_marks() -> tuple[RepeatMark, ...]:
    """The asterisk and the brackets."""
    return tuple(RepeatMark(row["mark"], row["meaning"]) for row in _data()["repeat_marks"])


def abbreviations_written(written: str) -> tuple[Abbreviation, ...]:
    """The entries that a spelling may stand for, as capitals have it: "m" is a marker and a metre, "BL" a back loop."""
    wanted = " ".join(written.split())
    return tuple(entry for entry in abbreviations() if wanted in (entry.written, *entry.also))


def _entries(data: dict[str, Any]) -> Iterator[Abbreviation]:
    for part, listed in (("abbreviations", True), ("measures", True), ("common", False)):
        for row in data[part]:
            memory = Memory.NONE if row.get("seen", False) else Memory.ALL
            source = str(data["source"]) if listed else ""
            yield Abbreviation(row["abbr"], read_keys(row, "also"), row["term"], listed, source, memory)


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("abbreviations.yaml"))
