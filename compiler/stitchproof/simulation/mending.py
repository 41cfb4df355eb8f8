"""After a fault: which single number of the line, changed, makes it come out. What is found is a likely cause, no more."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import cast

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.measures.values import PerSize
from stitchproof.rows.row_tree import Amount, Reach, Reading, RowTree, Stated, Stretch, Target
from stitchproof.simulation.slips import CountWrong, DoesNotDivide, LeftOver, PastEnd, RowsRunOut, Slip
from stitchproof.simulation.targets import value
from stitchproof.simulation.worked_pattern import Mend

MOST_TRIED = 60
"""Ways of working a line that are tried after a fault in it, in one size."""

Trial = Callable[[tuple[Reading, ...]], Slip | None]
"""Works a line again, read otherwise, and gives what goes wrong first; None where nothing does."""


def mends(readings: tuple[Reading, ...], slip: Slip, size: int, trial: Trial) -> tuple[Mend, ...]:
    """The numbers of a line of which one, changed alone, takes the fault away; the most likely first."""
    found: list[tuple[int, Mend]] = []
    left = MOST_TRIED
    for part, amount in _amounts(readings):
        places = _Places(readings, amount)
        for number in _tries(places, slip, size, trial):
            left -= 1
            if left < 0:
                break
            if trial(places.with_number(number, size)) is None:
                found.append((_roughness(amount.values, size, number), Mend(part, amount.at, amount.values, number)))
                break
    return tuple(mend for _, mend in sorted(found, key=lambda each: each[0]))


def _amounts(readings: tuple[Reading, ...]) -> list[tuple[int, Amount]]:
    """The numbers that a line works by, as they stand in it; what it states is not among them."""
    found: list[tuple[int, Amount]] = []
    for part, reading in enumerate(readings):
        for amount in _inside(reading) if isinstance(reading, RowTree) else ():
            if amount.written and all(amount is not other for _, other in found):
                found.append((part, amount))
    return found


def _inside(node: object) -> Iterator[Amount]:
    if isinstance(node, Amount):
        yield node
    elif isinstance(node, tuple):
        for each in node:
            yield from _inside(each)
    elif isinstance(node, Target) and node.reach is Reach.FROM_HOOK:
        return  # which chain the first stitch goes into follows from its height
    elif isinstance(node, Struct) and not isinstance(node, Stated | Stretch):
        for name in node.__struct_fields__:
            yield from _inside(getattr(node, name))


def _tries(places: _Places, slip: Slip, size: int, trial: Trial) -> list[int]:
    """Numbers worth trying: where one more shows by how much the sum changes, the one that closes it; else those nearby.

    Never 0, which would leave the maker with "in each of next 0 sts".
    """
    now = value(places.amount, size)
    if now is None:
        return []
    off, near = off_by(slip), [number for number in (now + 1, now - 1) if number > 0]
    probed = trial(places.with_number(now + 1, size)) if off is not None else None
    if off is None or probed is None or not _are_one_sum(slip, probed):
        return near
    then = off_by(probed)
    if then is None or then == off:
        return []
    steps, rest = divmod(off, off - then)
    return [now + steps] if not rest and now + steps > 0 else near


def _are_one_sum(one: Slip, other: Slip) -> bool:
    """Whether what two slips are off by can be held against each other: stitches left and stitches too few can, rows cannot."""
    ends = (LeftOver, PastEnd)
    return type(one) is type(other) or (isinstance(one, ends) and isinstance(other, ends))


def off_by(slip: Slip) -> int | None:
    """By how much a sum is too large; below 0, too small."""
    match slip:
        case LeftOver():
            return slip.taken - slip.available
        case PastEnd():
            return slip.needed - slip.available
        case CountWrong():
            return slip.worked - slip.stated
        case RowsRunOut():
            return slip.done - slip.wanted
        case DoesNotDivide():
            return None
    return None


class _Places:
    """A number of a line, wherever it stands in it."""

    def __init__(self, readings: tuple[Reading, ...], amount: Amount) -> None:
        self.readings, self.amount = readings, amount
        self.paths = tuple(_paths_to(amount, readings))

    def with_number(self, number: int, size: int) -> tuple[Reading, ...]:
        """The same line with another number in a size."""
        values = self.amount.values
        new = replace(self.amount, values=(*values[:size], Fraction(number), *values[size + 1 :]))
        changed: object = self.readings
        for path in self.paths:
            changed = _put(changed, path, new)
        return cast(tuple[Reading, ...], changed)


Path = tuple[int | str, ...]
"""The way to a part of a line: places in tuples, and names of fields."""


def _paths_to(amount: Amount, node: object) -> Iterator[Path]:
    if node is amount:
        yield ()
    elif isinstance(node, tuple):
        for place, each in enumerate(node):
            for path in _paths_to(amount, each):
                yield place, *path
    elif isinstance(node, Struct) and not isinstance(node, Stretch | Amount):
        for name in node.__struct_fields__:
            for path in _paths_to(amount, getattr(node, name)):
                yield name, *path


def _put(node: object, path: Path, new: object) -> object:
    """The same with another part at the end of a path. What is beside the path stays the same objects."""
    if not path:
        return new
    step, rest = path[0], path[1:]
    if isinstance(step, int) and isinstance(node, tuple):
        return (*node[:step], _put(node[step], rest, new), *node[step + 1 :])
    return replace(cast(Struct, node), **{str(step): _put(getattr(node, str(step)), rest, new)})


def _roughness(values: PerSize, size: int, number: int) -> int:
    """How unevenly a number goes from size to size with another value put in; the likelier slip leaves less of it."""
    before = [int(each) for each in values if isinstance(each, Fraction)]
    whole = [number if index == size else int(each) for index, each in enumerate(values) if isinstance(each, Fraction)]
    steps = [later - sooner for sooner, later in pairwise(whole)]
    old = [later - sooner for sooner, later in pairwise(before)]
    return _bends(steps) - _bends(old)


def _bends(steps: list[int]) -> int:
    return sum(abs(later - sooner) for sooner, later in pairwise(steps))
