"""The drawings of the pieces as a part of the Document: lettered measures, each letter with its line of the table."""

from __future__ import annotations

from stitchproof.expansion.document import (
    Heading,
    Inline,
    MeasureLine,
    Number,
    Schematic,
    Schematics,
    Section,
    SizeLine,
)
from stitchproof.expansion.inlines import header_inlines, plain_inlines
from stitchproof.expansion.slots import SlotReader
from stitchproof.formulas.slot import PrintAs, Slot
from stitchproof.sizing.sized_schematics import SizedMeasure, SizedSchematic

ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which look like figures (common practice, no source)."""
KEY = "schematics"


def drawing_sections(reader: SlotReader, headings: dict[str, Heading]) -> tuple[Section, ...]:
    """One section with every drawing that can be drawn in some size; none where there are none.

    headings: of the pieces by name, for the titles of drawings that give none.
    """
    letters = _Letters(reader)
    drawings = []
    for each in reader.sized.schematics:
        served = tuple(size for size in each.served if each.outlines[size] is not None)
        if served:
            title = _title(each, reader, headings)
            lines = tuple(letters.line(measure, served) for measure in each.measures)
            drawings.append(Schematic(each.name, title, served, each.outlines, each.lines, lines))
    if not drawings:
        return ()
    block = Schematics(tuple(drawings), tuple(letters.lines.values()), tuple(letters.lines), _sample(reader))
    return (Section(KEY, "Schematic" if len(drawings) == 1 else "Schematics", (block,)),)


def _title(schematic: SizedSchematic, reader: SlotReader, headings: dict[str, Heading]) -> tuple[Inline, ...]:
    if schematic.title:
        return header_inlines(schematic.title, reader, reader.all)
    if schematic.name in headings:
        return headings[schematic.name].inlines
    words = schematic.name.replace("_", " ").capitalize()
    return plain_inlines(words, schematic.span)


def _sample(reader: SlotReader) -> int | None:
    sizes = reader.sized.source.header.sizes
    name = sizes.sample.text.strip() if sizes.sample else ""
    return sizes.names.index(name) if name in sizes.names else None


class _Letters:
    """Gives each measure its letter: the same one where label and number are the same. `lines`: of the table, by letter."""

    def __init__(self, reader: SlotReader) -> None:
        self.reader = reader
        self.lines: dict[str, SizeLine] = {}
        self.by_measure: dict[tuple[str, str], str] = {}

    def line(self, measure: SizedMeasure, served: tuple[int, ...]) -> MeasureLine:
        """The measure with its letter; the first of its kind gets a line in the table."""
        label = measure.label.text if measure.label else measure.shows.formula.text
        key = (" ".join(label.split()), measure.shows.formula.text)
        letter = self.by_measure.setdefault(key, _letter(len(self.by_measure)))
        if letter not in self.lines:
            words = header_inlines(measure.label, self.reader, self.reader.all) if measure.label else ()
            self.lines[letter] = SizeLine(words, self.number(measure, ()))
        held = self.lines[letter].number
        together = tuple(sorted({*held.served, *served}))
        self.lines[letter] = SizeLine(self.lines[letter].label, self.number(measure, together))
        return MeasureLine(
            letter,
            self.number(measure, served),
            measure.start,
            measure.end,
            measure.run,
            measure.around,
            measure.beside,
        )

    def number(self, measure: SizedMeasure, served: tuple[int, ...]) -> Number:
        formula = measure.shows.formula
        return self.reader.header_number(Slot(formula, PrintAs.USUAL, formula.span), served)


def _letter(number: int) -> str:
    """A, B, … Z without I and O, then AA, AB, …"""
    rounds, place = divmod(number, len(ALPHABET))
    return (_letter(rounds - 1) if rounds else "") + ALPHABET[place]
