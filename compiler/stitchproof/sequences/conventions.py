"""The conventions that may be tried on a published row, each with its name in words, the more usual ones first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.rows.row_tree import Chain, Item, Reach, Remark, Repeat, RowTree, Skip, Target, Thing, Turn, Work
from stitchproof.sequences.trial import Habits, Strand
from stitchproof.simulation.position import Kind
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Course, Ways

MOST_TOGETHER = 2
"""Conventions that are changed at once; more would explain any row."""
NEVER = 1_000_000
_IN_PRINT = {"slst": "sl st"}


class Convention(Struct, frozen=True):
    """One change of habits. name: in words, as it is printed. subject: two changes of one subject exclude each other.

    held: whether it is tried first on the rows that follow.
    """

    name: str
    habits: Habits
    subject: str
    held: bool = True


def conventions_for(
    tree: RowTree, habits: Habits, strands: dict[int, Strand], most: int = MOST_TOGETHER
) -> Iterator[tuple[tuple[str, ...], Habits, Habits]]:
    """Sets of changes to try: first each alone, then two at once. Names, the habits to work with, and those to keep."""
    single = tuple(_single(tree, habits, strands))
    for number in range(1, most + 1):
        for chosen in combinations(single, number):
            if len({each.subject for each in chosen}) < number:
                continue
            ways = habits.ways
            kept = habits.ways
            for each in chosen:
                ways = _joined(ways, habits.ways, each.habits.ways)
                kept = _joined(kept, habits.ways, each.habits.ways) if each.held else kept
            yield tuple(each.name for each in chosen), replace(habits, ways=ways), replace(habits, ways=kept)


def _joined(ways: Ways, before: Ways, after: Ways) -> Ways:
    """The ways with what another change makes different."""
    fields = {
        name: getattr(after, name) for name in after.__struct_fields__ if getattr(after, name) != getattr(before, name)
    }
    for name in ("chain_counts", "passed_counts"):
        if name in fields:
            fields[name] = {**getattr(ways, name), **fields[name]}
    return replace(ways, **fields)


def _single(tree: RowTree, habits: Habits, strands: dict[int, Strand]) -> Iterator[Convention]:
    ways = habits.ways
    yield from _starting_chain(tree, habits)
    yield from _passed_chains(tree, habits)
    items = tuple(flat_items(tree.items))
    if any(isinstance(item, Repeat) and item.extent and item.extent.doubtful and item.starred for item in items):
        name = "“rep from * … times” is so many in all" if ways.further else "“rep from * … times” is so many further"
        yield _changed(name, habits, "times", further=not ways.further)
    if any(isinstance(item, Work) and item.target is None and _is_several(item) for item in items):
        name = (
            "a number before a stitch is one in each" if ways.bare_in_one else "a number before a stitch is all in one"
        )
        yield _changed(name, habits, "bare", bare_in_one=not ways.bare_in_one)
    if _has_spaces(strands):
        name = "“st” is a stitch only" if ways.st_is_any_place else "“st” may be a chain space"
        yield _changed(name, habits, "st", st_is_any_place=not ways.st_is_any_place)
    stacked = any(
        isinstance(item, Repeat) and [type(each) for each in item.items] == [Work, Chain] for item in items[:3]
    )
    if stacked and not ways.stacked:
        yield _changed("a stitch with chains on it stands for one taller stitch", habits, "stacked", stacked=True)
    if any(isinstance(item, Repeat) and item.ending for item in items):
        name = (
            "“ending with” comes after the last repeat"
            if ways.ending_replaces
            else "“ending with” stands for the end of the last repeat"
        )
        yield _changed(name, habits, "ending", ending_replaces=not ways.ending_replaces)
    if ways.course.in_rounds and _has_spaces(strands):
        other = Course.JOINED if ways.course is Course.SPIRAL else Course.SPIRAL
        yield _changed(f"worked in {other.value}", habits, "course", course=other)
    if any(isinstance(item, Work | Skip) and item.target and _names_stitch(item.target.things, ways) for item in items):
        yield _changed("the name of a stitch stands for any stitch", habits, "names", held=False, any_name=True)


def _names_stitch(things: tuple[Thing, ...], ways: Ways) -> bool:
    return any(ways.is_stitch(thing.name) for thing in things)


def _changed(name: str, habits: Habits, subject: str, held: bool = True, **fields: object) -> Convention:
    return Convention(name, replace(habits, ways=replace(habits.ways, **fields)), subject, held)


def _starting_chain(tree: RowTree, habits: Habits) -> Iterator[Convention]:
    """What the chain at the row's start counts as, where the row does not say so."""
    found = starting_chain(tree)
    if found is None:
        return
    chains, first = found
    counts = habits.ways.counts_as(chains, first)
    base = habits.ways.facts(first).base
    printed = _IN_PRINT.get(base, base)
    if (chains, first) in habits.told or (chains, "") in habits.told:
        return
    if counts and chains <= max(habits.ways.facts(base).height, 1):
        yield _counted(habits, chains, first, (), f"ch {chains} before {printed} does not count")
    if not counts and chains > 1:
        yield _counted(habits, chains, first, (base,), f"ch {chains} before {printed} counts as a stitch")
    height = habits.ways.facts(base).height
    if chains > max(height, 1) and counts != (base, "chsp"):
        yield _counted(
            habits, chains, first, (base, "chsp"), f"ch {chains} counts as {printed} and ch {chains - height}"
        )
    if "chsp" in counts:
        yield _counted(habits, chains, first, (base,), f"ch {chains} counts as {printed} alone")


def _counted(habits: Habits, chains: int, first: str, counts: tuple[str, ...], name: str) -> Convention:
    held = {**habits.ways.chain_counts, (chains, first): counts}
    return _changed(name, habits, "chain", chain_counts=held)


def _passed_chains(tree: RowTree, habits: Habits) -> Iterator[Convention]:
    """What the chains count as that the first stitch of a foundation passes over."""
    for item in tree.items[:4]:
        if isinstance(item, Work | Skip) and item.target and item.target.counts is None:
            chains, first = _passed(item.target, item, tree)
            if chains < 1:
                continue
            base = habits.ways.facts(first).base
            counts = habits.ways.passed_count_as(chains, first)
            printed = _IN_PRINT.get(base, base)
            height = habits.ways.facts(base).height
            for others, words, fewest in (
                ((), "do not count", 1),
                ((base,), f"count as {printed}", 2),
                ((base, "chsp"), f"count as {printed} and a space", max(height + 1, 3)),
                (("chsp",), "count as a space", 3 if base == "sc" else NEVER),
            ):
                if others != counts and chains >= fewest:
                    held = {**habits.ways.passed_counts, (chains, first): others}
                    yield _changed(f"the {chains} ch passed over {words}", habits, "passed", False, passed_counts=held)
            return


def _passed(target: Target, item: Work | Skip, tree: RowTree) -> tuple[int, str]:
    number = next((value(target.count, size) for size in range(len(target.count.values))), None) if target.count else 1
    if isinstance(item, Work):
        return ((number or 1) - 1 if target.reach is Reach.FROM_HOOK else 0), item.stitch
    things = {thing.name for thing in target.things}
    following = next((each.stitch for each in flat_items(tree.items) if isinstance(each, Work)), "")
    return (number or 1 if things & {"ch", "base ch"} else 0), following


def starting_chain(tree: RowTree) -> tuple[int, str] | None:
    """Chains at the start of a row and the stitch they start; None where there are none, or the row says what they count as."""
    chains = 0
    for item in flat_items(tree.items):
        if isinstance(item, Chain):
            number = next((value(item.number, size) for size in range(len(item.number.values))), None)
            if item.counts is not None or number is None:
                return None
            chains += number
        elif isinstance(item, Work):
            if item.stitch == "slst" and not chains:
                continue
            from_hook = item.target is not None and item.target.reach is Reach.FROM_HOOK
            return (chains, item.stitch) if chains and not from_hook else None
        elif not isinstance(item, Turn | Remark | Skip | Repeat):
            continue
    return None


def flat_items(items: tuple[Item, ...]) -> Iterator[Item]:
    """All items, those of repeats after their repeat."""
    waiting = list(reversed(items))
    while waiting:
        item = waiting.pop()
        yield item
        if isinstance(item, Repeat):
            waiting += reversed((*item.items, *(item.ending or ())))


def _is_several(item: Work) -> bool:
    return item.number is not None and any(
        (value(item.number, size) or 0) > 1 for size in range(len(item.number.values))
    )


def _has_spaces(strands: dict[int, Strand]) -> bool:
    rows = (strand.fabric.row for strand in strands.values())
    return any(row is not None and row.find(0, lambda place: place.kind is Kind.SPACE) is not None for row in rows)
