"""What differs between two records of a pattern. Frozen; texts as they print, exact numbers as text."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

FORMAT = "stitchproof-comparison"
VERSION = 1
COUNT_OUT, AT_FAULT = "count does not come out", "with a fault"
"""In place of a proof, of a row that an error tells of: of its count, or of something else."""


class Side(Struct, frozen=True):
    """One of the two. where: what was asked for, as the user wrote it."""

    where: str
    title: str
    revision: str
    date: str
    sizes: tuple[str, ...]


class Pair(Struct, frozen=True):
    """A value before and after, "" where it is not there."""

    old: str
    new: str


class WordsChanged(Struct, frozen=True):
    """Something of the title block, or another fact in words, that was changed."""

    what: str
    words: Pair


class InputChanged(Struct, frozen=True):
    """A name whose writing changed: a value, a formula, a rounding, a key of a rate or plan; or that is new or gone.

    what: which part of its writing. by_size: where every size is given by itself, those that changed; else () and `all`.
    """

    name: str
    what: str
    all: Pair | None = None
    by_size: tuple[tuple[str, Pair], ...] = ()


class Chain(Struct, frozen=True):
    """A cause: from what changed (not itself named) through the values between to the input: ("hat_around", "ease")."""

    names: tuple[str, ...]

    @property
    def root(self) -> str:
        return self.names[-1]


class SizeChange(Struct, frozen=True):
    """A number in a size before and after. k: of one that takes it. change: in its unit; change_cm: in cm and inches; both ""
    where there are none."""

    size: str
    k: str
    values: Pair
    change: str = ""
    change_cm: str = ""


class NumberChanged(Struct, frozen=True):
    """A named value that came to something else. causes: one chain for each input behind it."""

    name: str
    unit: str
    changes: tuple[SizeChange, ...]
    causes: tuple[Chain, ...]


class How(Enum):
    """What became of a line."""

    CHANGED = "changed"
    ADDED = "added"
    REMOVED = "removed"
    MOVED = "moved"


class Stretch(Struct, frozen=True):
    """A run of words, the same before and after, or not."""

    words: Pair

    @property
    def same(self) -> bool:
        return self.words.old == self.words.new


class LineChanged(Struct, frozen=True):
    """A row, a paragraph or the like that reads otherwise. sizes: those that would notice.

    stretches: its words with the numbers of all sizes in brackets, word by word. numbers: by size, the numbers that changed.
    causes: what the changed numbers go back to; () where words were changed by hand. page: where it is printed, by edition,
    before and after, as far as known. identity: its names before and after. part: the key of its section or
    piece. only_numbers: whether its words, and the formulas in it, are the same. proof: how far a row was proved before and is
    now, COUNT_OUT or AT_FAULT where an error tells of it in one of these sizes. counts_held: whether it states a count that was
    held against its stitches both times, in the same words. roles: what the changed numbers do in it, as in the record.
    """

    how: How
    under: str
    label: str
    kind: str
    sizes: tuple[str, ...]
    stretches: tuple[Stretch, ...]
    numbers: tuple[tuple[str, tuple[Pair, ...]], ...] = ()
    causes: tuple[Chain, ...] = ()
    pages: tuple[tuple[str, Pair], ...] = ()
    piece: str = ""
    identity: Pair = Pair("", "")
    part: str = ""
    only_numbers: bool = False
    proof: Pair = Pair("", "")
    counts_held: bool = False
    roles: tuple[str, ...] = ()


class FindingSeen(Struct, frozen=True):
    """A report that is only in one of the two."""

    code: str
    severity: str
    headline: str
    sizes: tuple[str, ...]
    accepted: str


class Comparison(Struct, frozen=True):
    """Two records held against each other.

    same_sizes: the sizes of both in which no number and no line differs. same_numbers, same_lines: how many named values and
    lines are the same in every size of both. stitches: what the pieces hold in all, where that changed.
    """

    format: str
    version: int
    pattern: str
    old: Side
    new: Side
    sizes_added: tuple[str, ...]
    sizes_removed: tuple[str, ...]
    words: tuple[WordsChanged, ...]
    inputs: tuple[InputChanged, ...]
    numbers: tuple[NumberChanged, ...]
    lines: tuple[LineChanged, ...]
    findings_new: tuple[FindingSeen, ...]
    findings_gone: tuple[FindingSeen, ...]
    same_sizes: tuple[str, ...]
    same_numbers: int
    same_lines: int

    @property
    def differs(self) -> bool:
        """Whether a maker or an editor would notice anything."""
        return bool(
            self.words
            or self.inputs
            or self.numbers
            or self.lines
            or self.findings_new
            or self.findings_gone
            or self.sizes_added
            or self.sizes_removed
        )
