"""Short ways to write the tree of a row, for tests of one size."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.rows.row_tree import (
    Amount,
    Chain,
    Extent,
    Item,
    Join,
    Loops,
    Reach,
    Repeat,
    RowTree,
    Skip,
    Stop,
    Stretch,
    Target,
    Thing,
    Turn,
    Work,
)
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.walk import Walked, walk
from stitchproof.simulation.ways import Course, Ways
from stitchproof.stitches.facts import StitchFacts

HERE = Stretch(0, 0)
FACTS = {
    facts.id: facts
    for facts in (
        StitchFacts("sc", base="sc", height=1),
        StitchFacts("hdc", base="hdc", height=2),
        StitchFacts("dc", base="dc", height=3),
        StitchFacts("tr", base="tr", height=4),
        StitchFacts("sc2tog", 2, base="sc"),
        StitchFacts("hdc2tog", 2, base="hdc"),
        StitchFacts("dc3tog", 3, base="dc"),
        StitchFacts("fsc", 0, base="sc", foundation=True),
        StitchFacts("vst", base="vst", parts=("dc", "chsp1", "dc")),
    )
}


def amount(number: int | None) -> Amount | None:
    return None if number is None else Amount((Fraction(number),), HERE)


def thing(name: str = "st", chains: int | None = None) -> Thing:
    return Thing(name, HERE, amount(chains))


def next_(number: int | None = None, name: str = "st", chains: int | None = None) -> Target:
    return Target(Reach.NEXT, (thing(name, chains),), amount(number), HERE)


def at(reach: Reach, number: int | None = None, name: str = "st") -> Target:
    return Target(reach, (thing(name),), amount(number), HERE)


def each(*names: str, but_last: int | None = None) -> Target:
    stop = Stop(amount(but_last), None, True, None, HERE) if but_last is not None else None
    return Target(Reach.EACH, tuple(thing(name) for name in names or ("st",)), None, HERE, stop=stop)


def work(stitch: str, target: Target | None = None, into_each: int | None = None, number: int | None = None) -> Work:
    return Work(stitch, Loops.BOTH, amount(into_each), amount(number), target, HERE)


def ch(number: int, counts: tuple[str, ...] | None = None) -> Chain:
    found = amount(number)
    assert found
    return Chain(found, counts, HERE)


def sk(number: int | None = None, name: str = "st") -> Skip:
    return Skip(next_(number, name), HERE)


def times(number: int, *items: Item) -> Repeat:
    return Repeat(items, Extent(amount(number), None, False, False, HERE), None, None, None, False, HERE)


def around(*items: Item, but_last: int | None = None, ending: tuple[Item, ...] | None = None) -> Repeat:
    stop = Stop(amount(but_last), None, True, None, HERE) if but_last is not None else None
    return Repeat(items, Extent(None, stop, False, False, HERE), None, None, ending, True, HERE)


def group(target: Target, *items: Item) -> Repeat:
    return Repeat(items, None, target, None, None, False, HERE)


JOIN = Join("slst", None, False, HERE)
TURN = Turn(False, HERE)


def walked(base: LiveRow, *items: Item, course: Course = Course.ROWS, **ways: object) -> Walked:
    """One row worked on another. In rows the base is given as it is come to, after the turn."""
    hook = Hook(base, course.in_rounds, course is Course.SPIRAL)
    return walk(RowTree(items, ()), hook, Ways(course, FACTS, **ways), 0)  # type: ignore[arg-type]
