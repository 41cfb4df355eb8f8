"""The numbers of a sequence's rows: which come next, which are given twice, where rows are left out."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from msgspec import Struct

from stitchproof.rows.row_tree import Label
from stitchproof.sequences.outcomes import WrongLabel
from stitchproof.simulation.stretches import key_of
from stitchproof.simulation.targets import value

_KINDS = ("row", "rnd", "r")


class Place(Struct, frozen=True):
    """Where a row stands among the others. begins: it may begin a part of its own. after_a_gap: rows before it may be left out.

    wrong: its number has been given already.
    """

    begins: bool = False
    after_a_gap: bool = False
    wrong: WrongLabel | None = None


class _Numbered(Struct, frozen=True):
    """A label taken apart: "body rnd 4-6" is part "body", kind "rnd", 4 to 6."""

    part: str
    kind: str
    first: int
    last: int

    def is_of_one_kind(self, other: _Numbered) -> bool:
        kinds = {self.kind, other.kind} - {"r"}
        return self.part == other.part and len(kinds) < 2


@dataclass(slots=True)
class Labels:
    """The labels so far. last: of each size, that of its row before."""

    last: dict[int, _Numbered] = field(default_factory=dict)
    is_first: bool = True

    def place(self, label: Label | None, served: tuple[int, ...], name: str = "") -> Place:
        """Where the next row stands. An excerpt may leave rows out and go on with another part. name: the label as written."""
        first_of_all, self.is_first = self.is_first, False
        if label is None:
            self._after_unread(name, served)
        places = [self._of_size(label, size, first_of_all) for size in served]
        wrong = next((place.wrong for place in places if place.wrong), None)
        return Place(
            any(place.begins for place in places), any(place.after_a_gap for place in places) and not wrong, wrong
        )

    def _after_unread(self, name: str, served: tuple[int, ...]) -> None:
        """A label that cannot be read still tells with which number the rows go on."""
        numbers = [int(each) for each in re.findall(r"\d{1,4}", name)]
        for size in served:
            before = self.last.get(size)
            if numbers and before:
                self.last[size] = _Numbered(before.part, before.kind, numbers[0], max(numbers[-1], numbers[0]))

    def _of_size(self, label: Label | None, size: int, first_of_all: bool) -> Place:
        if label is None or label.rows is None:
            return Place(begins=first_of_all or bool(label and label.name))
        now = _numbered(label, size)
        before = self.last.get(size)
        if now is None:
            return Place(begins=first_of_all)
        self.last[size] = now
        if before is None:
            return Place(begins=True)
        due = before.last + 1
        if not now.is_of_one_kind(before):
            return Place(begins=True, after_a_gap=now.first != due)
        if before.first <= now.first <= before.last and now.first != 1:
            return Place(wrong=WrongLabel(now.first, due))
        return Place(begins=now.first == 1, after_a_gap=now.first != due)


def _numbered(label: Label, size: int) -> _Numbered | None:
    rows = label.rows
    if rows is None:
        return None
    listed = [value(each, size) for each in rows.listed]
    first = value(rows.first, size) if rows.first else next(iter(listed), None)
    last = value(rows.last, size) if rows.last else (listed[-1] if listed else first)
    if first is None or last is None:
        return None
    words = key_of(rows.word).split()
    kind = words[-1] if words and words[-1] in _KINDS else ""
    return _Numbered(" ".join(words[:-1] if kind else words), kind or "row", first, last)
