"""The technical editor's worksheet as data. Frozen; made of the record and of the sums behind it."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.record.record import Record, RecordedBlock


class SheetValue(Struct, frozen=True):
    """A number in a size. k: of one that takes it, "" of any other. raw, value: exact, None where there is no number.

    shown, raw_shown: with their unit. deviation: what rounding added, exact, in the number's unit; deviation_cm: the same at
    its gauge; None where nothing was rounded or no gauge is known. multiple: what it was rounded to, 0 where it was not.
    """

    size: str
    k: str
    raw: Fraction | None
    value: Fraction | None
    shown: str
    raw_shown: str
    deviation: Fraction | None
    deviation_cm: Fraction | None
    deviation_shown: str


class SheetQuantity(Struct, frozen=True):
    """A named value. came_by: "given", "by hand", "worked out", "plan", "body table" or "from the rows".

    sentence: how it comes about, in one line. printed: the lines that print it. sums: its sums, size by size, as text.
    """

    name: str
    came_by: str
    unit: str
    sentence: str
    formula: str
    inputs: tuple[str, ...]
    rounding: str
    gauge: str
    why: str
    printed: tuple[str, ...]
    values: tuple[SheetValue, ...]
    sums: str

    @property
    def is_given(self) -> bool:
        """Whether it is one value that the designer gives for all sizes."""
        return self.came_by == "given"

    @property
    def by_k(self) -> tuple[str, ...]:
        """Each k that some size has; () where it takes none."""
        return tuple(dict.fromkeys(each.k for each in self.values if each.k))

    def at(self, size: str, k: str = "") -> SheetValue | None:
        """Its value in a size, at a k."""
        return next((each for each in self.values if each.size == size and each.k == k), None)


class SheetGroup(Struct, frozen=True):
    """The named values of one section of pattern.yaml."""

    title: str
    quantities: tuple[SheetQuantity, ...]


class SheetLine(Struct, frozen=True):
    """A written line, and how it reads in each size, "" in those that do not read it."""

    block: RecordedBlock
    label: str
    read_by_size: tuple[str, ...]


class SheetCheck(Struct, frozen=True):
    """A check of the editor's list. outcome: "nothing found", the codes found, or that it is left to her."""

    id: str
    group: str
    catches: str
    codes: tuple[str, ...]
    outcome: str
    note: str


class EditorSheet(Struct, frozen=True):
    """The worksheet of a pattern."""

    record: Record
    groups: tuple[SheetGroup, ...]
    lines: tuple[SheetLine, ...]
    checks: tuple[SheetCheck, ...]
