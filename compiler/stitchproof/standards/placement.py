"""Where a body stands among the sizes of a table. A body between two sizes is never placed silently."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.standards.body import BodyTable
from stitchproof.standards.provenance import Column
from stitchproof.standards.ranges import Range


class Placement(Struct, frozen=True):
    """sizes: all sizes whose figure contains the measure. Where there are none, the neighbours: the size next below and
    the size next above, None past an end of the table.
    """

    sizes: tuple[str, ...]
    below: str | None
    above: str | None

    @property
    def is_between(self) -> bool:
        """Whether the body falls into a gap between two sizes, so that someone has to say which one it takes."""
        return not self.sizes and self.below is not None and self.above is not None

    def in_words(self) -> str:
        """The placement for a reader: "S", "3X and 4X", "between S and M", "smaller than XS"; "" in an empty column."""
        if self.sizes or self.is_between:
            words = " and ".join(self.sizes or (self.below or "", self.above or ""))
            return words if self.sizes else f"between {words}"
        return f"larger than {self.below}" if self.below else f"smaller than {self.above}" if self.above else ""


def place_between(table: BodyTable, measure: str, value: Fraction, column: Column) -> Placement:
    """The sizes that contain a measure taken in the unit of `column`, else the two sizes that it lies between.

    The other column is not looked at. Of sizes with the same figure the later one is the neighbour below, the earlier one
    the neighbour above. Rows need not rise: neighbours go by figure, not by order. Raises KeyError for an unknown measure.
    """
    row = table.row(measure)
    if row is None:
        raise KeyError(measure)
    figures = [(size, cell) for size, cell in zip(table.sizes, row.figures(column), strict=True) if cell is not None]
    containing = tuple(size for size, cell in figures if cell.contains(value))
    if containing:
        return Placement(containing, None, None)
    lower = [(cell.high, place, size) for place, (size, cell) in enumerate(figures) if _is_below(cell, value)]
    higher = [(cell.low, place, size) for place, (size, cell) in enumerate(figures) if not _is_below(cell, value)]
    below = max(lower, key=lambda found: (found[0] or 0, found[1]))[2] if lower else None
    above = min(higher, key=lambda found: (found[0] or 0, found[1]))[2] if higher else None
    return Placement((), below, above)


def _is_below(cell: Range, value: Fraction) -> bool:
    return cell.high is not None and cell.high < value
