"""Groups that a published row names as it makes them: "5 dc in next st (shell)", or that its notes define: "shell = 5 dc"."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from stitchproof.late_pattern import LatePattern
from stitchproof.rows.line import Line
from stitchproof.rows.row_tree import Chain, Item, Remark, Repeat, RowTree, Work
from stitchproof.rows.row_words import RowWords, StitchWord, name_of
from stitchproof.simulation.targets import value
from stitchproof.stitches.facts import StitchFacts

_NAME = LatePattern(
    r"(?i)\(?\s*(?:the\s+|a\s+|first\s+|1st\s+|beg(?:inning)?\s+|corner\s+)*(?P<name>[a-z]+(?:-?st)?)s?(?:\s+made|\s+complete[d]?)?\s*\)?"
)
GROUPS = frozenset({"shell", "fan", "vst", "scallop", "group", "corner"})
MOST_PARTS = 40


def learn_groups(tree: RowTree, line: Line, words: RowWords, sizes: int) -> None:
    """Take up the groups that a row names in brackets behind them; a name that is known already stays as it is."""
    for items in _lists(tree.items):
        for item, after in pairwise(items):
            if isinstance(after, Remark):
                match = _NAME.fullmatch(after.words.strip())
                parts = parts_of(item, sizes)
                if match and len(parts) > 1:
                    learn(match["name"], parts, words)


def learn(name: str, parts: tuple[str, ...], words: RowWords) -> None:
    """A group of the pattern's own, by name."""
    key = name_of(name)
    known = words.find(key) if key else None
    id_ = known.id if isinstance(known, StitchWord) else "".join(key)
    if id_ not in GROUPS or id_ in words.facts:
        return
    facts = StitchFacts(id_, 1, len(parts), parts[0], parts=parts)
    words.add(name, facts)
    words.add(f"{name}s", facts)


def parts_of(item: Item, sizes: int) -> tuple[str, ...]:
    """What an item leaves in one place, in order; () where it is not the same in all sizes, or no group."""
    if isinstance(item, Work):
        each = {value(item.each, size) for size in range(sizes)} if item.each else {1}
        number = each.pop() if len(each) == 1 else None
        return (item.stitch,) * number if number and number <= MOST_PARTS else ()
    if isinstance(item, Repeat):
        return group_parts(item.items, sizes)
    return ()


def group_parts(items: Iterable[Item], sizes: int) -> tuple[str, ...]:
    """The stitches and spaces of a group for one place."""
    parts: list[str] = []
    for item in items:
        if isinstance(item, Chain):
            parts.append(f"chsp{value(item.number, 0) or 1}")
        elif isinstance(item, Work):
            number = value(item.number, 0) or value(item.each, 0) or 1
            parts += [item.stitch] * min(number, MOST_PARTS)
        else:
            return ()
    return tuple(parts[:MOST_PARTS])


def _lists(items: tuple[Item, ...]) -> Iterable[tuple[Item, ...]]:
    yield items
    for item in items:
        if isinstance(item, Repeat):
            yield from _lists(item.items)
