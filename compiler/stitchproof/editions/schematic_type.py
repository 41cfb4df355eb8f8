"""Drawings set in type: one size chosen to be drawn, its numbers as they print, and the whole in words for a screen reader."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from stitchproof.editions.line_type import LineType
from stitchproof.editions.number_text import settings_of, size_text
from stitchproof.editions.print_document import (
    NO_BREAK,
    PrintDrawing,
    PrintMeasure,
    PrintSchematics,
    PrintSizeTable,
    visible_text,
)
from stitchproof.expansion.document import MeasureLine, Number, Schematic, Schematics, SizeLine, Strong, Text

SAID = {
    "drawn_pieces": "All pieces are drawn to one scale.",
    "drawn_pieces_of_size": "All pieces are drawn to one scale, for size {size}; other sizes differ a little in shape.",
    "drawn_piece": "Drawn to scale.",
    "drawn_piece_of_size": "Drawn to scale for size {size}; other sizes differ a little in shape.",
    "drawn_around": "What goes around lies double: half of it is to be seen.",
}
"""What is said above the drawings, by its key in a style's words."""


def lettered(block: Schematics) -> tuple[SizeLine, ...]:
    """The lines of the table, each label with its letter before it."""
    lines = zip(block.letters, block.lines, strict=True)
    return tuple(
        SizeLine(
            (
                Strong((Text(letter, line.number.place),)),
                *((Text(NO_BREAK, line.number.place), *line.label) if line.label else ()),
            ),
            line.number,
        )
        for letter, line in lines
    )


def set_schematics(block: Schematics, line_type: LineType, table: PrintSizeTable) -> PrintSchematics:
    """The drawings for the sample's size, or else the middle one of those that print; a drawing that this size does not
    have is drawn for the size nearest to it."""
    chosen = line_type.sizes.chosen
    size = block.sample if block.sample in chosen else chosen[len(chosen) // 2]
    labels = {
        letter: visible_text(line_type.prose(line.label))
        for letter, line in zip(block.letters, block.lines, strict=True)
    }
    drawings = [_drawing(each, size, labels, line_type) for each in block.drawings]
    set_block = PrintSchematics(
        "",
        tuple(drawings),
        table if table.rows else None,
        _called(size, line_type) if len(line_type.sizes.chosen) > 1 else "",
        any(measure.around for each in block.drawings for measure in each.measures),
    )
    return said_of_drawings(set_block, SAID)


def said_of_drawings(block: PrintSchematics, words: Mapping[str, str]) -> PrintSchematics:
    """The drawings with what one has to know to read them, in these words; a word that is missing is the usual one."""
    keys = [("pieces" if len(block.drawings) > 1 else "piece") + ("_of_size" if block.size else "")]
    if block.around:
        keys.append("around")
    said = [words.get(f"drawn_{key}", SAID[f"drawn_{key}"]).replace("{size}", block.size) for key in keys]
    return replace(block, drawn_for=" ".join(filter(None, said)))


def _drawing(schematic: Schematic, wanted: int, labels: dict[str, str], line_type: LineType) -> PrintDrawing:
    size = min(schematic.served, key=lambda each: abs(each - wanted))
    outline = schematic.outlines[size]
    assert outline is not None, "a size is served only where it has an outline"  # noqa: S101
    only = len(line_type.sizes.chosen) == 1
    title = line_type.prose(schematic.title)
    said = [_in_words(measure, size, labels, line_type) for measure in schematic.measures]
    for_size = "" if only else f" in size {_called(size, line_type)}"
    return PrintDrawing(
        schematic.name,
        title,
        outline,
        schematic.lines,
        tuple(_measure(each, size, line_type, only) for each in schematic.measures),
        f"Outline of {visible_text(title)}, lying flat{for_size}. {' '.join(said)}".strip(),
        "" if size == wanted or only else f"Drawn for size {_called(size, line_type)}.",
    )


def _measure(measure: MeasureLine, size: int, line_type: LineType, shown: bool) -> PrintMeasure:
    texts = _texts(measure.number, size, line_type) if shown else ()
    return PrintMeasure(measure.letter, texts, measure.start, measure.end, measure.run, measure.beside)


def _texts(number: Number, size: int, line_type: LineType) -> tuple[str, ...]:
    """The number of one size in each unit that it prints in."""
    return tuple(
        f"{size_text(number, each, size)}{NO_BREAK}{each.unit}" for each in settings_of(number, line_type.units)
    )


def _in_words(measure: MeasureLine, size: int, labels: dict[str, str], line_type: LineType) -> str:
    label, number = labels.get(measure.letter, ""), " / ".join(_texts(measure.number, size, line_type))
    return f"{measure.letter}: {label + ', ' if label else ''}{number}.".replace(NO_BREAK, " ")


def _called(size: int, line_type: LineType) -> str:
    called, name = line_type.sizes.called(size), line_type.sizes.names[size]
    return name if called == name else f"{called} {name}"
