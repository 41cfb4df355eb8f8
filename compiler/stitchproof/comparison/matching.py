"""Which line of the old pattern is which line of the new one: by its identity, by its words, by likeness."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from difflib import SequenceMatcher

from msgspec import Struct

from stitchproof.comparison.line_words import template_words
from stitchproof.record.record import Record, RecordedBlock

LIKE_ENOUGH = 0.55
"""Share of words in common from which a line of the same part counts as the same line, rewritten."""

MOST_WORK = 100_000_000
"""Pairs of words held against each other in all: what is left over after that was added or removed. Rows are known by their names
and lines that stayed by their words, so that few come here."""


class Matched(Struct, frozen=True):
    """pairs: lines of both, in the order of the new pattern; moved: the identities (new) of those that stand elsewhere."""

    pairs: tuple[tuple[RecordedBlock, RecordedBlock], ...]
    added: tuple[RecordedBlock, ...]
    removed: tuple[RecordedBlock, ...]
    moved: frozenset[str]


def matched(old: Record, new: Record) -> Matched:
    """Every line of both records, once."""
    found: dict[int, int] = {}
    _by_identity(old.blocks, new.blocks, found)
    _by_words(old.blocks, new.blocks, found)
    _by_likeness(old.blocks, new.blocks, found)
    taken = set(found.values())
    pairs = [(old.blocks[found[place]], block) for place, block in enumerate(new.blocks) if place in found]
    order = [found[place] for place in sorted(found)]
    stay = _longest_rising(order)
    moved = {new.blocks[place].identity for place in found if found[place] not in stay}
    return Matched(
        tuple(pairs),
        tuple(block for place, block in enumerate(new.blocks) if place not in found),
        tuple(block for place, block in enumerate(old.blocks) if place not in taken),
        frozenset(moved),
    )


def _by_identity(old: Sequence[RecordedBlock], new: Sequence[RecordedBlock], found: dict[int, int]) -> None:
    """Rows have names of their own; other lines only numbers, which move when one is put before them."""
    places = {block.identity: place for place, block in enumerate(old) if block.kind == "row"}
    for place, block in enumerate(new):
        if block.kind == "row" and block.identity in places:
            found[place] = places[block.identity]


def _by_words(old: Sequence[RecordedBlock], new: Sequence[RecordedBlock], found: dict[int, int]) -> None:
    """The same words, first in the same part, then anywhere."""
    for same_part in (True, False):
        free: dict[tuple[object, ...], list[int]] = {}
        taken = set(found.values())
        for place, block in enumerate(old):
            if place not in taken:
                free.setdefault(_key(block, same_part), []).append(place)
        for place, block in enumerate(new):
            held = free.get(_key(block, same_part)) if place not in found else None
            if held:
                found[place] = held.pop(0)


def _key(block: RecordedBlock, same_part: bool) -> tuple[object, ...]:
    return (block.kind, template_words(block), *((block.under,) if same_part else ()))


def _by_likeness(old: Sequence[RecordedBlock], new: Sequence[RecordedBlock], found: dict[int, int]) -> None:
    """What is left over of one kind in one part, the likest pair first."""
    taken = set(found.values())
    candidates = []
    work = 0
    for place, block in enumerate(new):
        if place in found:
            continue
        words = template_words(block)
        for other, before in enumerate(old):
            if other not in taken and (before.kind, part_of(before)) == (block.kind, part_of(block)):
                held = template_words(before)
                work += 1 + len(held) * len(words)
                if work > MOST_WORK:
                    continue
                ratio = _likeness(held, words, block.kind == "heading")
                if ratio >= LIKE_ENOUGH or block.kind == "heading":
                    candidates.append((-ratio, place, other))
    for _, place, other in sorted(candidates):
        if place not in found and other not in taken:
            found[place] = other
            taken.add(other)


def _likeness(one: Sequence[str], other: Sequence[str], exact: bool) -> float:
    """The share of words in common; 0 where a quick look shows that it is not enough, unless it is wanted exactly."""
    found = SequenceMatcher(None, one, other, autojunk=False)
    if not exact and min(found.real_quick_ratio(), found.quick_ratio()) < LIKE_ENOUGH:
        return 0.0
    return found.ratio()


def part_of(block: RecordedBlock) -> str:
    """A part keeps its name in the identity when its title is worded otherwise."""
    return block.identity.partition("/")[0]


def _longest_rising(order: Sequence[int]) -> frozenset[int]:
    """The most lines that kept their order: all others were moved. Patience sorting, in n log n."""
    ends: list[int] = []
    piles: list[int] = []
    before: dict[int, int | None] = {}
    for number in order:
        pile = bisect_left(ends, number)
        before[number] = piles[pile - 1] if pile else None
        if pile == len(ends):
            ends.append(number)
            piles.append(number)
        else:
            ends[pile] = piles[pile] = number
    kept: set[int] = set()
    last = piles[-1] if piles else None
    while last is not None:
        kept.add(last)
        last = before[last]
    return frozenset(kept)
