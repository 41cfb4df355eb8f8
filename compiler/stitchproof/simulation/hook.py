"""Where the hook is: the row it works into, what it has made, and what it has still to reach."""

from __future__ import annotations

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.rows.row_tree import Stretch
from stitchproof.simulation.live_row import LiveRow, RowBuilder, Test
from stitchproof.simulation.position import CHAIN, Kind, Position, stitch
from stitchproof.simulation.slips import Fit, Slip

NOWHERE = Stretch(0, 0)


class Marker(Struct, frozen=True):
    """A marker, before the place of an index. name: "" of one without a name; in small letters if the text names it; a name
    with a blank in it is one by which simulation follows a place. in_stitch: it hangs in the stitch of that index.
    """

    before: int
    name: str = ""
    in_stitch: bool = False

    @property
    def is_placed(self) -> bool:
        """Whether the maker has placed it, so that "next marker" may mean it."""
        return " " not in self.name

    def at(self, before: int) -> Marker:
        """The same marker elsewhere."""
        return Marker(before, self.name, self.in_stitch)

    def turned(self, places: int) -> Marker:
        """Where it is come to after a turn, in a row of so many places."""
        return self.at(places - self.before - int(self.in_stitch))


class Hook(Struct):
    """base: the places to work into, in the order they are come to. cursor: index of the next one.

    worked: index of the place worked last. start_place: the place that "same" means before anything is worked. old_chain: whether
    an uncounted starting chain stands beyond the last place. pending_chain: chains just made at the start, not yet told apart.
    marks: markers of the row below that lie ahead; new_marks: in the row being made; marks_passed: how many are behind.
    held: stitches passed over after chains (from, to, number of chains). main_stitch: what the row below is mostly made of. part:
    which part of the row is being worked; last: part and words of what was worked last; past: of what first went too far.
    chain_said: what the row says that chains before a foundation count as. passes: of the repeat that fills the row.
    passed_stitches, passed_spaces: the most that was passed over at once without a word.
    """

    base: LiveRow
    ring: bool
    spiral: bool
    old_chain: bool = False
    cursor: int = 0
    made: RowBuilder = field(default_factory=RowBuilder)
    worked: int | None = None
    start_place: int = 0
    started: bool = False
    pending_chain: int = 0
    next_chain: int = 0
    travelled: int = 0
    slip_stitches: int = 0
    marks: tuple[Marker, ...] = ()
    new_marks: tuple[Marker, ...] = ()
    marks_passed: int = 0
    last_stitch: str = ""
    last_was_skip: bool = False
    to_end: bool = False
    left_declared: bool = False
    left_said: tuple[int, Stretch] | None = None
    turned: bool = False
    joined: bool = False
    cut_off: bool = False
    cut_short: bool = False
    fit: Fit | None = None
    held: tuple[tuple[int, int, int], ...] = ()
    chain_said: tuple[str, ...] | None = None
    passes: int = 0
    passed_stitches: int = 0
    passed_spaces: int = 0
    main_stitch: str = ""
    slips: list[Slip] = field(default_factory=list)
    part: int = 0
    last: tuple[int, Stretch] = (0, NOWHERE)
    past: tuple[int, Stretch] | None = None

    @property
    def end(self) -> int:
        return self.base.size

    @property
    def left(self) -> int:
        return self.base.size - self.cursor

    def open_left(self, silently: bool) -> int:
        """Places still to be worked; silently: without those that the row passes over in silence wherever it meets them."""
        return self.open_before(self.end) if silently else self.left

    def open_before(self, stop: int) -> int:
        """Places before a stop that are not of a kind passed over in silence."""
        if self.cursor >= stop:
            return stop - self.cursor
        rest = self.base.part(self.cursor, stop)
        spaces = rest.spaces
        stitches = len(rest) - spaces
        if spaces <= self.passed_spaces and stitches <= self.passed_stitches:
            return 0
        return stop - self.cursor

    def passed_over(self, start: int, end: int) -> None:
        """Remember what was passed over in silence."""
        passed = self.base.part(start, end)
        self.passed_spaces = max(self.passed_spaces, passed.spaces)
        self.passed_stitches = max(self.passed_stitches, len(passed) - passed.spaces)

    def copy(self) -> Hook:
        """Where the hook is now, to be gone on with apart."""
        other = replace(self)
        other.made, other.slips = self.made.copy(), list(self.slips)
        return other

    def become(self, other: Hook) -> None:
        """Take over where another, tried on its own, has got to."""
        for name in self.__struct_fields__:
            setattr(self, name, getattr(other, name))

    def place(self, index: int) -> Position | None:
        """The place at an index; beyond the end of a spiral, what the same round has made; None where there is nothing."""
        if index < self.end:
            return self.base.at(index)
        if self.spiral and index - self.end < self.made.size and self.has_spaces:
            return self.made.row().at(index - self.end)
        return None

    @property
    def has_spaces(self) -> bool:
        """Whether the row below has chain spaces: only there a spiral may go on over its own first stitch."""
        return self.base.spaces > 0

    def find(self, index: int, test: Test) -> int | None:
        """The first place from an index on that passes the test."""
        found = self.base.find(index, test) if index < self.end else None
        if found is None and self.spiral:
            beyond = self.made.row().find(max(index - self.end, 0), test)
            found = None if beyond is None else beyond + self.end
        return found

    def make(self, position: Position, number: int) -> None:
        """Leave so many alike places in the new row."""
        self.made.add(position, number)
        if position.stitch and position.kind is Kind.STITCH and number:
            self.last_stitch = position.base
        self.started = True

    def move(self, to: int, number: int, per_place: int, takes: int) -> None:
        """Go on to place `to`, having worked `number` places on the way; markers that are passed go up into the new row."""
        if self.marks:
            self._take_marks(to, number, per_place, takes)
        self.cursor = to

    def _take_marks(self, to: int, number: int, per_place: int, takes: int) -> None:
        passed = [mark for mark in self.marks if self.cursor < mark.before <= to and mark.before <= self.end]
        if not passed:
            return
        for mark in passed:
            whole = to - self.cursor == number
            along = mark.before - self.cursor if whole else self._worked_before(mark.before, to, number)
            self.new_marks = (*self.new_marks, mark.at(self.made.size + along * per_place // takes))
        self.marks = tuple(mark for mark in self.marks if mark not in passed)
        self.marks_passed += sum(mark.is_placed for mark in passed)

    def _worked_before(self, mark: int, to: int, number: int) -> int:
        return number * (mark - self.cursor) // max(to - self.cursor, 1)

    def rotate(self, to: int) -> None:
        """Begin the ring at another of its places: what lies before it comes last."""
        size = self.end
        self.base = self.base.part(to, size) + self.base.part(0, to)
        self.marks = tuple(mark.at((mark.before - to) % size or size) for mark in self.marks)
        self.cursor = self.start_place = 0

    def add_chain_before(self, chains: int) -> None:
        """Chains made now lie before the places that are left: cast on at the side."""
        self.base = LiveRow([*_chain_row(chains).runs, *self.base.part(self.cursor, self.end).runs])
        self.cursor = self.start_place = 0

    def open_spaces(self) -> None:
        """Have the spaces ahead as their single chains; markers beyond them move along."""
        ahead = self.base.part(self.cursor, self.end)
        self.marks = tuple(
            mark.at(mark.before + _more_chains(ahead.part(0, mark.before - self.cursor))) for mark in self.marks
        )
        self.base = self.base.part(0, self.cursor) + ahead.opened()

    def marks_kept(self) -> tuple[Marker, ...]:
        """The markers as they stand in the new row; one at the very start stays there."""
        return (*self.new_marks, *(mark for mark in self.marks if mark.before == 0))

    def come_to(self, at: Stretch) -> None:
        """Remember the words that are being worked."""
        self.last = (self.part, at)

    def slip(self, slip: Slip) -> None:
        self.slips.append(slip)


def _more_chains(row: LiveRow) -> int:
    return row.total(lambda place: place.chains - 1 if place.kind is Kind.SPACE else 0)


def _chain_row(chains: int) -> LiveRow:
    building = RowBuilder()
    building.add(CHAIN, chains)
    return building.row()


def foundation(chains: int) -> LiveRow:
    """A starting chain as places, nearest the hook first."""
    return _chain_row(chains)


def filler(hook: Hook) -> Position:
    """What is imagined beyond the end, so that a row that asks for too much can be added up."""
    return hook.base.at(hook.end - 1) if hook.end else stitch("sc")
