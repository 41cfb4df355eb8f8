"""What of a figure is from memory, and how a reader is told."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from typing import Any, Protocol

FROM_MEMORY = "from memory, not checked against a published table"


class Column(Enum):
    """The two published columns of a table of measurements. Neither is ever worked out from the other."""

    CM = "cm"
    INCHES = "in"


class Memory(Enum):
    """Which figures of an entry are recalled; the others were found on the pages that confirm it."""

    NONE = "none"
    ALL = "all"
    CM = "cm"
    INCHES = "in"

    def covers(self, column: Column) -> bool:
        """Whether the figures of a column are from memory."""
        return self is Memory.ALL or self.value == column.value


class Recalled(Protocol):
    """An entry of a table that says what of it is from memory."""

    @property
    def memory(self) -> Memory:
        """Which of its figures are from memory."""


def memory_note(entry: Recalled, column: Column | None = None) -> str:
    """What a reader has to be told of an entry, or of one column of it; "" where nothing is from memory."""
    memory = entry.memory
    if column is not None:
        return FROM_MEMORY if memory.covers(column) else ""
    words = {
        Memory.NONE: "",
        Memory.ALL: FROM_MEMORY,
        Memory.CM: f"centimetres {FROM_MEMORY}",
        Memory.INCHES: f"inches {FROM_MEMORY}",
    }
    return words[memory]


def read_memory(entry: Mapping[str, Any], otherwise: bool = False) -> Memory:
    """The marks of an entry of a data file. otherwise: what holds where it carries none."""
    whole = bool(entry.get("from_memory", otherwise))
    cm, inches = bool(entry.get("cm_from_memory", whole)), bool(entry.get("in_from_memory", whole))
    if cm and inches:
        return Memory.ALL
    return Memory.CM if cm else Memory.INCHES if inches else Memory.NONE


def read_keys(entry: Mapping[str, Any], name: str) -> tuple[str, ...]:
    """A list of words of an entry of a data file, () where it has none."""
    return tuple(str(key) for key in entry.get(name) or ())
