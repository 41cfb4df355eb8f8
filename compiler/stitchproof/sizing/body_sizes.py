"""Which size of a body table each size of a pattern is. A body between two sizes is never placed silently."""

from __future__ import annotations

import re
from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.expressions import expression
from stitchproof.measures.published import figure_text
from stitchproof.measures.units import UNITS
from stitchproof.reading.pattern_source import BodySource, Sizes, Words
from stitchproof.sizing.body_words import given_words
from stitchproof.sizing.faults.body_between_sizes import body_between_sizes
from stitchproof.sizing.faults.not_in_the_body_table import measure_without_a_row, row_not_known, size_not_in_table
from stitchproof.sizing.faults.size_without_a_body import sizes_not_the_tables, wrong_number_of_sizes
from stitchproof.source import Span
from stitchproof.standards.body import BodyRow, BodyTable
from stitchproof.standards.placement import Placement, place_between
from stitchproof.standards.provenance import Column, memory_note

_MEASURE = expression(
    r"(?:(?P<row>[^\W\d]\w*)\s+)?(?P<number>[0-9]{1,4}(?:\.[0-9]{1,4})?)\s*(?P<unit>mm|cm|in|inch|inches)"
)
_LABEL = expression(r"(?P<number>[0-9]{1,4}(?:\.[0-9]{1,2})?)\s*(?P<rest>[^\W\d]*)")


def placed_sizes(source: BodySource, sizes: Sizes, table: BodyTable, report: Report) -> tuple[int, ...] | None:
    """For each size of the pattern, where it stands in the table; None where one cannot be told (reported)."""
    if not source.sizes:
        return _by_name(source, sizes, table, report)
    if len(source.sizes) != len(sizes.names):
        span = source.sizes[0].span.to(source.sizes[-1].span)
        report.add(wrong_number_of_sizes(span, len(source.sizes), sizes.names))
        return None
    found = [_place(words, name, table, report) for words, name in zip(source.sizes, sizes.names, strict=True)]
    places = tuple(place for place in found if place is not None)
    return places if len(places) == len(found) else None


def _by_name(source: BodySource, sizes: Sizes, table: BodyTable, report: Report) -> tuple[int, ...] | None:
    found = [table.place_of(name) for name in sizes.names]
    places = tuple(place for place in found if place is not None)
    if len(places) == len(found):
        return places
    unknown = tuple(name for name, place in zip(sizes.names, found, strict=True) if place is None)
    report.add(sizes_not_the_tables(source.named.span, unknown, table.sizes))
    return None


def _place(words: Words, name: str, table: BodyTable, report: Report) -> int | None:
    """The size that is named, or the one whose row holds the measure that is given: `M`, `bust 94 cm`."""
    text = words.text.strip()
    place = table.place_of(text)
    if place is not None:
        return place
    measure = _MEASURE.fullmatch(text)
    found = _by_measure(measure, words.span, name, table) if measure else _by_label(words.span, text, name, table)
    if isinstance(found, Diagnostic):
        report.add(found)
        return None
    return found


def _by_measure(measure: re.Match[str], span: Span, name: str, table: BodyTable) -> int | Diagnostic:
    rows = {row.measure: row for row in table.rows}
    asked = measure["row"] or (table.rows[0].measure if len(rows) == 1 else "")
    if not asked:
        return measure_without_a_row(span, measure[0], tuple(rows))
    row = rows.get(asked)
    if row is None:
        return row_not_known(span.part(0, len(asked)), asked, tuple(rows))
    unit = UNITS[measure["unit"]]
    column = Column.INCHES if unit.noun == "in" else Column.CM
    value = Fraction(measure["number"]) * (1 if column is Column.INCHES else unit.size)
    placement = place_between(table, asked, value, column)
    if len(placement.sizes) == 1:
        return table.sizes.index(placement.sizes[0])
    what = f"{asked.replace('_', ' ')} {figure_text(value, column.value)} {column.value}"
    return body_between_sizes(span, name, what, *_neighbours(placement, row, table), memory_note(row))


def _by_label(span: Span, text: str, name: str, table: BodyTable) -> Diagnostic:
    """A size that is no label of the table; of a table of ages or numbers, the two that it lies between."""
    labels = [_number_of(label) for label in (*table.sizes, *table.size_names)]
    asked = _number_of(text)
    known = [label for label in labels if label and asked and label[1] == asked[1]]
    if not asked or len(known) < len(table.sizes):
        return size_not_in_table(span, text, table.sizes, table.size_names, bool(asked and not asked[1]))
    numbers = [number for number, _ in known[: len(table.sizes)]]
    lower = [number for number in numbers if number < asked[0]]
    higher = [number for number in numbers if number > asked[0]]
    below = table.sizes[numbers.index(max(lower))] if lower else None
    above = table.sizes[numbers.index(min(higher))] if higher else None
    row = table.rows[0]
    neighbours = _neighbours(Placement((), below, above), row, table)
    return body_between_sizes(span, name, f"size {text}", *neighbours, memory_note(row))


def _number_of(label: str) -> tuple[Fraction, str] | None:
    """A label that is a number, with the word after it: "12mo", "8"."""
    found = _LABEL.fullmatch(label.strip())
    return (Fraction(found["number"]), found["rest"].casefold()) if found else None


def _neighbours(placement: Placement, row: BodyRow, table: BodyTable) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The placement in words, and its sizes with what the row gives them."""
    sizes = placement.sizes or tuple(size for size in (placement.below, placement.above) if size)
    words = placement.in_words()
    if placement.sizes:
        words = f"in {words} alike"
    return words, tuple(
        (size, f"{row.measure.replace('_', ' ')} {given_words(row, table.sizes.index(size))}") for size in sizes
    )
