"""Lengths in two units taken apart, so that a reader may leave one of them out: "44 cm / 17¼ in"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby

from msgspec.structs import replace

from stitchproof.editions.print_document import (
    EmphasisText,
    LinkText,
    PlainText,
    PrintDocument,
    PrintInline,
    PrintSizeTable,
    StrongText,
    TextForSizes,
    UnitText,
    Vector,
    visible_text,
)
from stitchproof.editions.print_walk import PrintWalk

UNITS = ("cm", "in")
BETWEEN = "both"
_NUMBER = r"[0-9][0-9.½¼¾⅛⅜⅝⅞⅓⅔]*"
_PAIR = re.compile(rf"(?<![\w/] )\b({_NUMBER}\scm)(\s/\s)({_NUMBER}\sin)\b|\b({_NUMBER}\sin)(\s/\s)({_NUMBER}\scm)\b")

Line = tuple[PrintInline, ...]


def with_units_apart(document: PrintDocument) -> PrintDocument:
    """The document with its pairs of lengths as UnitText, its tables told apart, and in `units` those that it has in pairs.

    A length that stands in one unit alone stays as it is: nobody may leave it out.
    """
    found: list[str] = []

    def line(inlines: Line) -> Line:
        apart = _apart(inlines)
        if not found and apart != inlines:
            found.extend(UNITS)
        return apart

    def table(sizes: PrintSizeTable) -> PrintSizeTable:
        if not _in_pairs(sizes):
            return sizes
        found[:] = UNITS
        return replace(sizes, apart=True)

    walked = PrintWalk(line, table).document(document)
    return replace(walked, units=tuple(found))


def _in_pairs(table: PrintSizeTable) -> bool:
    """Whether each measure that has one of the two units has the other as well."""
    measures = [
        {row.unit for row in rows} & set(UNITS)
        for _, rows in groupby(table.rows, key=lambda row: visible_text(row.label))
    ]
    lengths = [units for units in measures if units]
    return bool(lengths) and all(len(units) == len(UNITS) for units in lengths)


def _apart(inlines: Line) -> Line:
    line: list[PrintInline] = []
    rest = list(inlines)
    while rest:
        one, between, other = (*rest[:3], None, None)[:3]
        if (
            isinstance(one, Vector)
            and isinstance(between, PlainText)
            and isinstance(other, Vector)
            and between.text.strip() == "/"
            and {one.unit, other.unit} == set(UNITS)
        ):
            line += UnitText(one.unit, (one,)), UnitText(BETWEEN, (between,)), UnitText(other.unit, (other,))
            del rest[:3]
            continue
        del rest[0]
        match one:
            case PlainText(text=text):
                line += _text_apart(text)
            case StrongText() | EmphasisText() | LinkText() | TextForSizes():
                line.append(replace(one, inlines=_apart(one.inlines)))
            case None:
                pass
            case _:
                line.append(one)
    return tuple(line)


def _text_apart(text: str) -> Iterator[PrintInline]:
    """Text with each pair that stands in it word for word taken apart."""
    start = 0
    for match in _PAIR.finditer(text):
        if match.start() > start:
            yield PlainText(text[start : match.start()])
        one, between, other = (group for group in match.groups() if group)
        for unit, words in ((one[-2:], one), (BETWEEN, between), (other[-2:], other)):
            yield UnitText(unit, (PlainText(words),))
        start = match.end()
    if start < len(text):
        yield PlainText(text[start:])
