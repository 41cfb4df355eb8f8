"""A line's inlines set in type: numbers as vectors, stitch words as written, one of a thing in the singular."""

from __future__ import annotations

from collections.abc import Callable
from urllib.parse import urlsplit

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.closing_count import counts_after_dash
from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.no_break import hold_prose, hold_row, one_line
from stitchproof.editions.print_document import (
    EmphasisText,
    Entry,
    LinkText,
    PlainText,
    PrintInline,
    StrongText,
    Vector,
)
from stitchproof.editions.vectors import set_number, single_value
from stitchproof.expansion.document import Emphasis, Inline, Link, Number, Served, SizeList, Strong, Text, Word
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.singulars import SINGULARS, once, singular
from stitchproof.measures.values import PerSize

SAFE_SCHEMES = ("http", "https", "mailto")


class LineType(Struct, frozen=True):
    """How the lines of a document are set: its sizes, and its units of length in the order they print.

    named: whether numbers keep the formula that they were written as. kept: numbers that were set before.
    """

    sizes: SizeList
    units: tuple[str, ...]
    named: bool = False
    kept: KeptParts | None = None

    def prose(self, inlines: tuple[Inline, ...]) -> tuple[PrintInline, ...]:
        return self._once("prose", inlines, lambda: hold_prose(self._set(inlines)))

    def row(self, inlines: tuple[Inline, ...]) -> tuple[PrintInline, ...]:
        """A part of a step, without blanks at its ends."""
        return self._once("row", inlines, lambda: stripped(hold_row(stripped(self._set(counts_after_dash(inlines))))))

    def _once(
        self, how: str, inlines: tuple[Inline, ...], make: Callable[[], tuple[PrintInline, ...]]
    ) -> tuple[PrintInline, ...]:
        """A line as it was set before, where its words and numbers are those of a line then, wherever they stand now."""
        if self.kept is None:
            return make()
        values: list[PerSize] = []
        told: list[object] = [how]
        for inline in inlines:
            match inline:
                case Text(text=text):
                    told.append(text)
                case Word(entry=entry, as_written=text):
                    told.append((entry, text))
                case Number():
                    values.append(inline.values)
                    told.append(_facts(inline))
                case _:
                    return make()
        return self.kept.get_of(tuple(values), tuple(told), make)

    def _set(self, inlines: tuple[Inline, ...]) -> tuple[PrintInline, ...]:
        line: list[PrintInline] = []
        lone_one: Served = ()
        for inline in inlines:
            match inline:
                case Text(text=text) | Word(as_written=text):
                    text = one_line(text)
                    if lone_one and text.strip():
                        text, lone_one = self._mended(line, text, lone_one), ()
                    _add_text(line, text)
                case Number():
                    line.extend(self._number(inline))
                    lone_one = self._readers_of_lone_one(inline)
                case _:
                    line.append(self._wrapped(inline))
                    lone_one = ()
        return tuple(line)

    def _number(self, number: Number) -> tuple[PrintInline, ...]:
        """A number as vectors. The values of a slot that was worked out before are the same object."""

        def make() -> tuple[PrintInline, ...]:
            return self.named_as(number.written, set_number(number, self.sizes, self.units))

        if self.kept is None:
            return make()
        return self.kept.get_of((number.values,), _facts(number), make)

    def named_as(self, written: str, line: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
        """The vectors of a number with its formula, where they keep it."""
        if not self.named:
            return line
        return tuple(replace(each, written=written) if isinstance(each, Vector) else each for each in line)

    def _wrapped(self, inline: Strong | Emphasis | Link) -> PrintInline:
        inner = self.prose(inline.inlines)
        match inline:
            case Strong():
                return StrongText(inner)
            case Emphasis():
                return EmphasisText(inner)
            case Link(address=address):
                return LinkText(inner, address) if urlsplit(address).scheme in SAFE_SCHEMES else StrongText(inner)

    def _readers_of_lone_one(self, number: Number) -> Served:
        """The sizes that read a number which prints as a 1 alone, as it is 1 for all of them; () of any other number."""
        readers = tuple(size for size in number.served if size in self.sizes.chosen)
        countable = number.dimension not in (LENGTH, WEIGHT) and number.print_as in (PrintAs.USUAL, PrintAs.WORDS)
        return readers if countable and single_value(number, self.sizes) == 1 else ()

    def _mended(self, line: list[PrintInline], text: str, readers: Served) -> str:
        """The text after a lone 1, which may stand after a blank or be a stitch word of its own."""
        if text in SINGULARS:
            return SINGULARS[text]
        blank = line[-1].text if isinstance(line[-1], PlainText) else ""
        number_at = -2 if blank else -1
        number = line[number_at]
        replaced = once(blank + text)
        if replaced is None or not isinstance(number, Vector):
            return singular(blank + text)[len(blank) :]
        words, rest = replaced
        size = readers[0] if len(readers) == 1 else None
        line[number_at:] = [Vector(((Entry(size, words),),), "", number.role, written=number.written)]
        return rest


def _facts(number: Number) -> tuple[object, ...]:
    """All that a number is set by besides its values."""
    return number.served, number.dimension, number.print_as, number.role, number.written, number.published


def _add_text(line: list[PrintInline], text: str) -> None:
    """Text joined to the text before it, so that the rules for line breaks see it whole."""
    if line and isinstance(line[-1], PlainText):
        line[-1] = PlainText(line[-1].text + text)
    elif text:
        line.append(PlainText(text))


def stripped(line: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """A line without the blanks at its ends."""
    inlines = list(line)
    if inlines and isinstance(inlines[0], PlainText):
        inlines[0] = PlainText(inlines[0].text.lstrip())
    if inlines and isinstance(inlines[-1], PlainText):
        inlines[-1] = PlainText(inlines[-1].text.rstrip())
    return tuple(inline for inline in inlines if inline != PlainText(""))
