"""A garment whose pieces are made in different sizes: whether they still meet, by working them on one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from stitchproof.expansion.document import Number, Piece, steps_of
from stitchproof.measures.dimension import ROWS, STITCHES
from stitchproof.measures.values import Value
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.simulation.rows_walked import RowsWalked
from stitchproof.simulation.work_pattern import work_in_sizes
from stitchproof.simulation.worked_pattern import RowFinding

LOOKED_AT = (STITCHES, ROWS)


class SharedCount(Struct, frozen=True):
    """A count that two pieces which meet both print. written: its formula; values: in the one's size and in the other's."""

    written: str
    one: str
    other: str
    values: tuple[Value, Value]
    number: Number


class Mismatch(Struct, frozen=True):
    """Why pieces do not meet. slips: rows that do not come out; shared: counts that both print, and differ."""

    slips: tuple[RowFinding, ...]
    shared: tuple[SharedCount, ...]


class Tried:
    """A pattern whose pieces are tried in one size and another: what was worked once is not worked again."""

    def __init__(self, written: WrittenPattern) -> None:
        self.written = written
        self._walked: dict[str, RowsWalked] = {}
        self._slips: dict[tuple[tuple[str, int], ...], tuple[RowFinding, ...]] = {}

    def slips(self, size_of: Mapping[str, int]) -> tuple[RowFinding, ...]:
        """The rows that do not come out in these sizes (a size for each piece)."""
        key = tuple(size_of.items())
        if key not in self._slips:
            self._slips[key] = work_in_sizes(self.written, size_of, self._walked)
        return self._slips[key]

    def meeting(self, size_of: Mapping[str, int]) -> Mismatch | None:
        """What keeps pieces apart in these sizes, or None where they meet.

        A row that is at fault in its own size anyway is no reason.
        """
        wrong_anyway = {
            (id(found.step), found.size)
            for size in set(size_of.values())
            for found in self.slips(dict.fromkeys(size_of, size))
        }
        slips = tuple(found for found in self.slips(size_of) if (id(found.step), found.size) not in wrong_anyway)
        shared = tuple(_shared(self.written, size_of))
        return Mismatch(slips, shared) if slips or shared else None

    def sizes_that_meet(self, size_of: Mapping[str, int], piece: str) -> tuple[int, ...]:
        """The sizes in which a piece meets the others as they are, the sizes that it is worked in only."""
        served = next(each.served for each in self.written.document.pieces if each.name == piece)
        return tuple(size for size in served if self.meeting({**size_of, piece: size}) is None)


def _shared(written: WrittenPattern, size_of: Mapping[str, int]) -> Iterator[SharedCount]:
    """Counts that linked pieces of different sizes both print, with another value in each."""
    starts = _starts(written)
    pieces = [piece for piece in written.document.pieces if piece.name in size_of]
    for place, one in enumerate(pieces):
        for other in pieces[place + 1 :]:
            a, b = size_of[one.name], size_of[other.name]
            if a == b or not _linked(one.name, other.name, starts):
                continue
            printed = _counts(other, b)
            for formula, number in _counts(one, a).items():
                if formula in printed and number.values[a] != printed[formula].values[b]:
                    values = number.values[a], printed[formula].values[b]
                    yield SharedCount(formula, one.name, other.name, values, number)


def _starts(written: WrittenPattern) -> dict[str, set[str]]:
    """What each piece starts from: the pieces it names, else the one before it."""
    entries = {each.entry.name: each.entry for each in written.expanded.sized.pieces}
    return {name: {words.text.strip() for words in entry.starts_from} for name, entry in entries.items()}


def _linked(one: str, other: str, starts: dict[str, set[str]]) -> bool:
    """Whether one is worked from the other, or a third from both."""
    direct = other in starts.get(one, ()) or one in starts.get(other, ())
    return direct or any({one, other} <= sources for sources in starts.values())


def _counts(piece: Piece, size: int) -> dict[str, Number]:
    """The stitch and row counts that a piece prints in a size, by their formula as written."""
    found: dict[str, Number] = {}
    for step in steps_of(piece.blocks):
        for token in (token for part in step.parts for token in part.tokens):
            if isinstance(token, Number) and size in token.served and token.dimension in LOOKED_AT:
                found.setdefault(token.written, token)
    return found
