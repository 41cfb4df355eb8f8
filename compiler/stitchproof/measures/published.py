"""Lengths as a table publishes them in two columns, neither worked out from the other."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.print_grid import QUARTERS
from stitchproof.measures.values import exact_text

FROM_MEMORY_MARK = "†"
"""Stands beside printed figures that are from memory."""
Figure = Fraction | None
"""A figure in its column's own unit; None where the column gives none."""


class Published(Struct, frozen=True):
    """One figure per size in each column. from_memory: the units, cm or in, whose figures nobody checked on the page."""

    cm: tuple[Figure, ...]
    inches: tuple[Figure, ...]
    from_memory: tuple[str, ...] = ()

    def figure(self, unit: str, size: int) -> Figure:
        """What the column of a unit gives a size; None for a unit that has no column."""
        return {"cm": self.cm, "in": self.inches}.get(unit, (None,) * (size + 1))[size]

    def of_one(self, size: int) -> Published:
        """The figures of one size, for every size."""
        return Published((self.cm[size],) * len(self.cm), (self.inches[size],) * len(self.inches), self.from_memory)


def figure_text(figure: Fraction, unit: str) -> str:
    """A figure as a table prints it, without its unit: "91.5", and in inches "10¼"."""
    whole, rest = divmod(figure, 1)
    if unit == "in" and rest in QUARTERS:
        return f"{whole or ''}{QUARTERS[rest]}" or "0"
    text = exact_text(figure)
    return text if "/" not in text else f"{whole or ''} {rest}".strip()
