"""What is known of a piece after each row, in one size."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.rows.row_tree import RowTree
from stitchproof.simulation.hook import Marker
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import Kind
from stitchproof.simulation.schedules import EdgeShaping
from stitchproof.simulation.side import Side
from stitchproof.simulation.spans import Places
from stitchproof.simulation.ways import Ways


class RowDone(Struct, frozen=True):
    """A row that is worked. word, number: of its label. stitch: the plain stitch most of it is made of. side: if known."""

    word: str
    number: int | None
    stitch: str
    side: Side | None
    count: int


class Held(Struct, frozen=True):
    """Stitches passed over and left live, with the number of chains made over the gap before them."""

    row: LiveRow
    chains: int


Parts = tuple[RowTree, ...]
"""A row as written: one tree for each part that serves the size."""
_ROW_WORDS = ("row", "rows", "rnd", "rnds", "round", "rounds", "in", "all")


_OWN = frozenset(
    ("ways", "worked", "named", "by_label", "plain", "schedule", "schedule_word", "schedule_slips", "seam", "places")
)
"""What a fabric has for its own rows, and what is compared in another way."""


class Fabric(Struct):
    """A piece in one size, as far as it is worked.

    row: the live edge in the order in which it was made; None where it is not known. rows: all rows worked; worked: the same as
    written. counters: by word ("armhole"), how many rows were done when counting began. named: rows that are defined by name
    and worked when they are called for. by_label: rows by word and number, to be worked again. plain: the last row without
    shaping. last_made: the last row as it was made. skipped: stitches passed over where the piece was divided,
    after `divided` rows. divided_from: rows done when the first
    side was begun. own_foundation: it began with chains or foundation stitches of its own. schedule: shapings at its edges
    that are worked at the same time, not yet finished; schedule_slips: what is to be reported of them when they are.
    rows_known: whether each row could be worked, so that their number is sure. shaken: a fault was reported, and no row
    since has shown on which reading of it the text goes on; until then what does not close is taken to follow from it.
    shifts: what the numbers of rows in the text may differ by from those counted, after one of them was wrong.
    side_doubted, left_doubted: the same of the side that faces, and of what a row left unworked. has_fault: whether any row
    of the piece had a slip. seam: the row that closed it, as written. times: how many are made. places: markers and spans
    found by counting. chain_unknown: its starting chain could not be worked out.
    """

    piece: str
    ways: Ways
    row: LiveRow | None = None
    foundation: LiveRow | None = None
    old_chain: bool = False
    next_chain: int = 0
    left: LiveRow | None = None
    held: list[Held] = field(default_factory=list)
    marks: tuple[Marker, ...] = ()
    rows: list[RowDone] = field(default_factory=list)
    worked: list[Parts] = field(default_factory=list)
    counters: dict[str, int] = field(default_factory=dict)
    named: dict[str, Parts] = field(default_factory=dict)
    by_label: dict[tuple[str, int], Parts] = field(default_factory=dict)
    plain: Parts = ()
    side: Side | None = None
    cut_off: bool = False
    skipped: LiveRow | None = None
    divided: int = 0
    divided_from: int | None = None
    own_foundation: bool = False
    schedule: list[EdgeShaping] = field(default_factory=list)
    schedule_word: str = ""
    schedule_slips: list[Callable[[], None]] = field(default_factory=list)
    last_made: LiveRow = field(default_factory=LiveRow)
    gauge: str = ""
    census: dict[tuple[str, str], int] = field(default_factory=dict)
    restarted: bool = False
    rows_known: bool = True
    shaken: bool = False
    shifts: tuple[int, ...] = (0,)
    side_doubted: bool = False
    left_doubted: bool = False
    has_fault: bool = False
    seam: Parts = ()
    times: int = 1
    places: Places = field(default_factory=Places)
    chain_unknown: bool = False
    aside: int = 0

    def copied(self) -> Fabric:
        """The fabric as it is now, to be worked on apart."""
        other = replace(self)
        other.held = self.held.copy()
        other.rows = self.rows.copy()
        other.worked = self.worked.copy()
        other.counters = self.counters.copy()
        other.named = self.named.copy()
        other.by_label = self.by_label.copy()
        other.schedule = self.schedule.copy()
        other.schedule_slips = self.schedule_slips.copy()
        other.census = self.census.copy()
        other.places = self.places.copied()
        return other

    def leaves_the_same(self, other: Fabric) -> bool:
        """Whether other pieces find here what they find in another fabric, but for the words in which its rows are written."""
        settled = not (self.schedule or self.schedule_slips or other.schedule or other.schedule_slips)
        alike = all(getattr(self, name) == getattr(other, name) for name in self.__struct_fields__ if name not in _OWN)
        return settled and alike and bool(self.seam) is bool(other.seam) and self.places.are_those_of(other.places)

    @property
    def main_stitch(self) -> str:
        """The plain stitch that the last row is mostly made of."""
        return self.rows[-1].stitch if self.rows else ""

    @property
    def first_side(self) -> Side | None:
        """The side of its first row, if known."""
        return self.rows[0].side if self.rows else None

    @property
    def height(self) -> int:
        """How many rows lie one above the other, up to the one worked last."""
        return len(self.rows) - self.aside

    @property
    def ends(self) -> tuple[int, ...]:
        """The stitches it ends in: of its last row, and of the last row of the first side of a neck; () if they are not sure."""
        if not self.rows or not self.rows_known or self.restarted or self.has_fault or self.row is None:
            return ()
        first_side = (self.rows[self.divided - 1].count,) if self.aside and self.divided else ()
        return (self.rows[-1].count, *first_side)

    @property
    def is_one_above_the_other(self) -> bool:
        """Whether its rows are all known, without a fault, and none lies beside another, as the two sides of a neck do."""
        return self.rows_known and not self.has_fault and self.divided_from is None

    def count_from(self, word: str, only_first: bool = False) -> None:
        """Count the rows of a word from here on."""
        prefix = prefix_of(word)
        if not (only_first and prefix in self.counters):
            self.counters[prefix] = self.height

    def done(self, noun: str) -> int:
        """How many rows are complete of those that a noun means: "rows in all", "hdc rows", "armhole rows", "yoke rnds"."""
        prefix = prefix_of(noun)
        if prefix in self.counters:
            return self.height - self.counters[prefix]
        if self.ways.is_stitch(prefix):
            return sum(row.stitch == prefix for row in self.rows)
        return self.height

    def counts_stitches(self, noun: str) -> bool:
        """Whether the rows that a noun means are those of a stitch: "hdc rows"."""
        prefix = prefix_of(noun)
        return prefix not in self.counters and self.ways.is_stitch(prefix)

    def keep(self, done: RowDone, row: LiveRow, parts: Parts) -> None:
        """Enter a worked row."""
        self.rows.append(done)
        self.worked.append(parts)
        self.last_made = row
        self._count(row, 1)

    def keep_part(self, row: LiveRow) -> None:
        """Enter a round that stopped part of the way: it is no row more, but its stitches count."""
        self.last_made = row
        self._count(row, 1)

    def repeat_last(self, times: int) -> None:
        """Enter the last row so many times more."""
        if times <= 0:
            return
        last = self.rows[-1]
        turns = self.ways.course.turns and last.side is not None
        for number in range(times):
            side = last.side.other if turns and last.side and number % 2 == 0 else last.side
            self.rows.append(RowDone("", None, last.stitch, side, last.count))
        if turns and times % 2 and self.side:
            self.side = self.side.other
        self.worked.extend(self.worked[-1:] * times)
        self._count(self.last_made, times)

    def _count(self, row: LiveRow, times: int) -> None:
        for run in row.runs:
            for position, number in run.unit:
                name = position.stitch if position.kind is not Kind.SPACE else "ch"
                worth = position.chains if position.kind is Kind.SPACE else 1
                key = (self.gauge, name)
                self.census[key] = self.census.get(key, 0) + number * worth * run.times * times


def prefix_of(noun: str) -> str:
    """What a word says of its rows: "armhole" of "armhole rows"."""
    return " ".join(word for word in noun.lower().split() if word not in _ROW_WORDS)
