"""Unfolds the texts of a pattern once for all sizes: a plain text at once, one with Jinja of its own by Jinja."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from msgspec import Struct, field

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.handles import Handle, full_name, handles_for
from stitchproof.expansion.placed_text import marks_are_whole
from stitchproof.expansion.plain_text import Parts, PlainUnfolding, Rounds, plain_parts
from stitchproof.expansion.spent import Spent, TooMuchText
from stitchproof.reading.marks import SLOT, mark
from stitchproof.reading.pattern_source import PatternSource, TextFile

if TYPE_CHECKING:
    from stitchproof.expansion.jinja_texts import JinjaTexts

Bindings = tuple[tuple[str, Fraction | str], ...]
"""What a slot was handed: a loop's number, or the full name behind a handle, by the name it has in the slot."""


class Occurrence(Struct, frozen=True):
    """One time that a slot or condition came up: which island, and with what at hand."""

    island: int
    bindings: Bindings


class Renderer(Struct, dict=True):
    """Renders the texts of one pattern; collects the occurrences of their islands.

    whole: whether all texts asked for could be unfolded. spent: what they have come to.
    """

    source: PatternSource
    names: tuple[str, ...]
    count_to: Callable[[int, Bindings], range]
    highest: Callable[[str], int | None]
    report: Report
    occurrences: list[Occurrence] = field(default_factory=list)
    whole: bool = True
    spent: Spent = field(default_factory=Spent)
    by_jinja: JinjaTexts | None = None

    @property
    def stopped(self) -> bool:
        """Whether the bounds of all texts together were met."""
        return self.by_jinja is not None and self.by_jinja.stopped

    def rendered(self, text: TextFile) -> str:
        """The unfolded text with its marks; nothing, where it cannot be unfolded (reported)."""
        if self.stopped:
            return ""
        out = self._plain(text)
        if out is None:
            out = self._jinja().rendered(text, self.report)
        self.whole = self.whole and out is not None
        return out or ""

    def _plain(self, text: TextFile) -> str | None:
        """A text without Jinja of its own; None where Jinja must unfold it, or knows at which line it stops."""
        parts = plain_parts(text)
        if parts is None or any(name in self.names for name in _counters(parts)):
            return None
        before, rounds, made = len(self.occurrences), self.spent.rounds, self.spent.made
        try:
            out = PlainUnfolding(self._slot, self._each, self.spent).text(parts, self._handles)
        except TooMuchText:
            del self.occurrences[before:]
            self.spent.rounds, self.spent.made = rounds, made
            return None
        return out if marks_are_whole(out, len(self.source.marks), len(self.occurrences)) else None

    def _jinja(self) -> JinjaTexts:
        if self.by_jinja is None:
            from stitchproof.expansion.jinja_texts import JinjaTexts  # most patterns do without

            self.by_jinja = JinjaTexts(
                self.source,
                self.names,
                self._slot,
                self._each,
                self.highest,
                lambda: len(self.occurrences),
                self.spent,
            )
        return self.by_jinja

    @cached_property
    def _handles(self) -> dict[str, object]:
        return {**handles_for(self.names)}

    def _slot(self, number: int, names: Mapping[str, object]) -> str:
        self.occurrences.append(Occurrence(number, _bindings(names)))
        return mark(SLOT, len(self.occurrences) - 1)

    def _each(self, number: int, names: Mapping[str, object]) -> range:
        return self.count_to(number, _bindings(names))


def _counters(parts: Parts) -> set[str]:
    """What the loop blocks of a text count by."""
    found: set[str] = set()
    for part in parts:
        if isinstance(part, Rounds):
            found |= {part.variable, *_counters(part.parts)}
    return found


def _bindings(names: Mapping[str, object]) -> Bindings:
    held: dict[str, Fraction | str] = {}
    for name, value in names.items():
        if isinstance(value, Handle):
            held[name] = full_name(value)
        elif isinstance(value, int) and not isinstance(value, bool):
            held[name] = Fraction(value)
    return tuple(held.items())
