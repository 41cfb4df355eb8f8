"""The body table of a pattern, worked out: which table, which of its sizes and rows, and what it gives each size."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.measures.published import Published
from stitchproof.source import Span


class TableRow(Struct, frozen=True):
    """A row of the body table as the pattern takes it. One entry per size of the pattern in `given` and `open_sizes`.

    name: in full, `body.bust`. given: what the table gives, in words ("36–38 in / 91.5–96.5 cm"), "" where it gives nothing.
    take: low, middle or high where the designer says which figure of a range; else "". open_sizes: the indexes of the sizes
    in which that leaves more than one figure, or none. memory: what of it is from memory, in words, or "". how: how to
    measure, or "". own: whether a row of the designer's stands in its place. places: where each size's figure is written.
    """

    name: str
    given: tuple[str, ...]
    take: str
    open_sizes: tuple[int, ...]
    published: Published
    memory: str
    how: str
    own: bool
    places: tuple[Span, ...]

    @property
    def words(self) -> str:
        """The measure as a maker would say it: "upper arm"."""
        return self.name.removeprefix("body.").replace("_", " ")


class SizedBody(Struct, frozen=True):
    """The body table of a pattern.

    name: its key, or the file it stands in. source: organisation, title and edition, "" for the designer's own table.
    sizes: for each size of the pattern, the table's label of it. asked: the measure by which the designer
    asked for it, "" where by its label; or ().
    """

    name: str
    title: str
    source: str
    sizes: tuple[str, ...]
    asked: tuple[str, ...]
    rows: tuple[TableRow, ...]
    remarks: tuple[str, ...]
    named: Span

    def row(self, name: str) -> TableRow | None:
        """The row of a full name, None where the table has none."""
        return next((row for row in self.rows if row.name == name), None)
