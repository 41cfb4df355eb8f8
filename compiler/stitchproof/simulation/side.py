"""The side of a fabric that faces while a row is worked."""

from __future__ import annotations

from enum import Enum


class Side(Enum):
    """The side that faces while a row is worked."""

    RS = "RS"
    WS = "WS"

    @property
    def other(self) -> Side:
        return Side.WS if self is Side.RS else Side.RS
