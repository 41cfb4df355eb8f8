"""The places of a row in order, held as runs: the cost of a row follows its written text, not its number of stitches."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from itertools import accumulate

from stitchproof.once import once
from stitchproof.simulation.position import CHAIN, Kind, Position

Unit = tuple[tuple[Position, int], ...]
"""Places one after the other, alike ones together: (hdc, 6), (hdc2tog, 1)."""
Test = Callable[[Position], bool]

LONGEST_UNIT = 64
"""A repeat whose pass makes more changes of kind than this is not held as a unit."""


class Run:
    """A unit of places, so many times."""

    __slots__ = ("_starts", "size", "times", "unit", "unit_size")

    def __init__(self, unit: Unit, times: int) -> None:
        self.unit = unit
        self.times = times
        self.unit_size = unit[0][1] if len(unit) == 1 else sum([number for _, number in unit])
        self.size = self.unit_size * times
        self._starts: tuple[int, ...] = ()

    @property
    def starts(self) -> tuple[int, ...]:
        """Where each kind of place begins in the unit, and where the unit ends."""
        if not self._starts:
            self._starts = (0, *accumulate([number for _, number in self.unit]))
        return self._starts

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Run) and self.times == other.times and self.unit == other.unit

    def __hash__(self) -> int:
        return hash((self.unit, self.times))


class LiveRow:
    """Places in the order in which they are come to. Indexes count from 0."""

    def __init__(self, runs: Iterable[Run] = (), size: int | None = None) -> None:
        self.runs = tuple(runs)
        self.size = sum([run.size for run in self.runs]) if size is None else size

    def __eq__(self, other: object) -> bool:
        return self is other or (isinstance(other, LiveRow) and self.runs == other.runs)

    def __hash__(self) -> int:
        return self._hash

    @once
    def _hash(self) -> int:
        return hash(self.runs)

    def __len__(self) -> int:
        return self.size

    def __iter__(self) -> Iterator[Position]:
        """Every single place: for tests and for short rows."""
        for run in self.runs:
            for _ in range(run.times):
                for position, number in run.unit:
                    for _ in range(number):
                        yield position

    @once
    def kinds(self) -> frozenset[Position]:
        """The places that differ, each once."""
        return frozenset(position for run in self.runs for position, _ in run.unit)

    @once
    def main_stitch(self) -> str:
        """The plain stitch that most of it is made of; "" where there is none."""
        counts: dict[str, int] = {}
        for run in self.runs:
            for position, number in run.unit:
                if position.is_stitch:
                    counts[position.base] = counts.get(position.base, 0) + number * run.times
        return max(counts, key=lambda name: counts[name]) if counts else ""

    @once
    def spaces(self) -> int:
        """How many of the places are chain spaces."""
        found = 0
        for run in self.runs:
            for position, number in run.unit:
                if position.kind is Kind.SPACE:
                    found += number * run.times
        return found

    @once
    def _starts(self) -> tuple[int, ...]:
        return (0, *accumulate(run.size for run in self.runs))

    def run_at(self, index: int) -> tuple[Run, int]:
        """The run that holds a place, and the index of its first place."""
        if len(self.runs) == 1:
            return self.runs[0], 0
        number = bisect_right(self._starts, index) - 1
        return self.runs[number], self._starts[number]

    def at(self, index: int) -> Position:
        return self.alike_from(index)[0]

    def alike_from(self, index: int) -> tuple[Position, int]:
        """The place, and how many alike follow each other from it on, itself included, within its run."""
        run, start = self.run_at(index)
        if len(run.unit) == 1:
            return run.unit[0][0], start + run.size - index
        offset = (index - start) % run.unit_size
        element = bisect_right(run.starts, offset) - 1
        return run.unit[element][0], run.starts[element + 1] - offset

    def find(self, index: int, test: Test) -> int | None:
        """The first place from `index` on that passes the test. Each run is looked at once."""
        size = len(self)
        while index < size:
            run, start = self.run_at(index)
            offset = (index - start) % run.unit_size
            turns = 1 + (index - start + run.unit_size < run.size)
            for turn in range(turns):
                for element, (position, _) in enumerate(run.unit):
                    end = run.starts[element + 1] + turn * run.unit_size
                    if end > offset and test(position):
                        return index - offset + max(offset, run.starts[element] + turn * run.unit_size)
            index = start + run.size
        return None

    def count(self, test: Test) -> int:
        """How many places pass the test."""
        found = 0
        for run in self.runs:
            for position, number in run.unit:
                if test(position):
                    found += number * run.times
        return found

    def total(self, worth: Callable[[Position], int]) -> int:
        """The sum of what each place is worth."""
        found = 0
        for run in self.runs:
            for position, number in run.unit:
                found += number * worth(position) * run.times
        return found

    def part(self, start: int, end: int) -> LiveRow:
        """The places from `start` up to `end`."""
        if start <= 0 and end >= self.size:
            return self
        if start >= end:
            return LiveRow()
        building = RowBuilder()
        index = max(start, 0)
        end = min(end, len(self))
        while index < end:
            run, first = self.run_at(index)
            offset = (index - first) % run.unit_size
            whole = min(end, first + run.size) - index
            if offset == 0 and whole >= run.unit_size:
                building.add_unit(run.unit, whole // run.unit_size)
                index += whole // run.unit_size * run.unit_size
            else:
                position, alike = self.alike_from(index)
                number = min(alike, end - index)
                building.add(position, number)
                index += number
        return building.row()

    def turned(self) -> LiveRow:
        """The same places as they are come to after a turn."""
        return LiveRow([Run(run.unit[::-1], run.times) for run in reversed(self.runs)], self.size)

    def opened(self) -> LiveRow:
        """The same with every space as its single chains."""
        building = RowBuilder()
        for run in self.runs:
            unit = tuple(
                (CHAIN, number * position.chains) if position.kind is Kind.SPACE else (position, number)
                for position, number in run.unit
            )
            building.add_unit(unit, run.times)
        return building.row()

    def __add__(self, other: LiveRow) -> LiveRow:
        building = RowBuilder()
        for run in (*self.runs, *other.runs):
            building.add_unit(run.unit, run.times)
        return building.row()


class RowBuilder:
    """Puts a row together, alike places that meet in one run."""

    def __init__(self) -> None:
        self._runs: list[Run] = []
        self.size = 0

    @property
    def last(self) -> Position | None:
        """The last place added."""
        return self._runs[-1].unit[-1][0] if self._runs else None

    def add(self, position: Position, number: int) -> None:
        """So many alike places."""
        if number <= 0:
            return
        self.size += number
        last = self._runs[-1] if self._runs else None
        if last is None or last.times > 1:
            self._runs.append(Run(((position, number),), 1))
        elif last.unit[-1][0] == position:
            unit = (*last.unit[:-1], (position, last.unit[-1][1] + number))
            self._runs[-1] = Run(unit, 1)
        elif len(last.unit) < LONGEST_UNIT:
            self._runs[-1] = Run((*last.unit, (position, number)), 1)
        else:
            self._runs.append(Run(((position, number),), 1))
        if len(self._runs) > 1:
            self._join_last()

    def _join_last(self) -> None:
        """Places that make one more of the unit before them are counted with it, so that rows alike are held alike."""
        whole, last = self._runs[-2:]
        if last.times == 1 and last.unit == whole.unit:
            self._runs[-2:] = [Run(whole.unit, whole.times + 1)]

    def add_unit(self, unit: Unit, times: int) -> None:
        """A unit, so many times."""
        unit = _merged(unit)
        if not unit or times <= 0:
            return
        if len(unit) == 1:
            self.add(unit[0][0], unit[0][1] * times)
            return
        if times == 1:
            for position, number in unit:
                self.add(position, number)
            return
        self.size += sum(number for _, number in unit) * times
        while self._runs and self._runs[-1].times == 1 and self._runs[-1].unit[-len(unit) :] == unit:
            before, times = self._runs.pop().unit[: -len(unit)], times + 1
            if before:
                self._runs.append(Run(before, 1))
        if self._runs and self._runs[-1].unit == unit:
            times += self._runs.pop().times
        self._runs.append(Run(unit, times))

    def add_row(self, row: LiveRow) -> None:
        for run in row.runs:
            self.add_unit(run.unit, run.times)

    def repeat_from(self, size: int, times: int) -> None:
        """Add what stands from place `size` on so many times more."""
        whole = self.row()
        made = whole.part(size, self.size)
        flat = [(position, number) for run in made.runs for _ in range(run.times) for position, number in run.unit][
            : LONGEST_UNIT + 1
        ]
        if len(flat) <= LONGEST_UNIT:
            self._runs, self.size = list(whole.part(0, size).runs), size
            self.add_unit(tuple(flat), times + 1)
            return
        for _ in range(times):
            self.add_row(made)

    def row(self) -> LiveRow:
        return LiveRow(self._runs, self.size)

    def copy(self) -> RowBuilder:
        """The row so far, to be gone on with apart."""
        other = RowBuilder()
        other._runs, other.size = list(self._runs), self.size
        return other


def _merged(unit: Unit) -> Unit:
    merged: list[tuple[Position, int]] = []
    for position, number in unit:
        if number <= 0:
            continue
        if merged and merged[-1][0] == position:
            merged[-1] = (position, merged[-1][1] + number)
        else:
            merged.append((position, number))
    return tuple(merged)


def row_of(*parts: tuple[Position, int]) -> LiveRow:
    """A row of plain runs."""
    building = RowBuilder()
    for position, number in parts:
        building.add(position, number)
    return building.row()
