"""A figure of the designer's own body table, in its CSV file, changed by its place."""

from __future__ import annotations

import re
from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.measures.print_grid import on_cm_grid, on_inch_grid
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.measures.values import exact_text
from stitchproof.sizing.sized_body import SizedBody, TableRow
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source_edits.asked import SetValue, is_list, parts_of
from stitchproof.source_edits.faults.not_edited_in_place import not_edited_in_place
from stitchproof.source_edits.raw_text import TextEdit
from stitchproof.standards.body_csv import other_column
from stitchproof.standards.csv_cells import Cell, NotCsv, read_records, separator_of
from stitchproof.standards.provenance import Column

_FIGURE = re.compile(r"(?P<figure>[0-9]{1,4}(?:\.[0-9]{1,4})?)\s*(?P<unit>cm|in)?")


def cell_edits(
    asked: SetValue, row: TableRow, body: SizedBody, sized: SizedPattern
) -> tuple[TextEdit, ...] | Diagnostic:
    """The edits in the CSV file, or the report of why the figure cannot be changed there."""
    name, source = asked.named(sized.sizes), sized.source.header.body
    if source is None or source.file is None:
        values = ", ".join("…" for _ in sized.sizes)
        measure = row.name.removeprefix("body.")
        own = f"write a row of your own under `body`: `{measure}: {{cm: [{values}]}}`"
        return not_edited_in_place(body.named, name, "the figure is that of a shipped table", own)
    records = read_records(source.file)
    if isinstance(records, NotCsv):
        return not_edited_in_place(body.named, name, "the table cannot be read", "mend the table first")
    listed = parts_of(asked.text) if is_list(asked.text) else None
    if asked.size is None and (listed is None or len(listed) != len(sized.sizes)):
        why = "each size has a figure of its own"
        return not_edited_in_place(row.places[0], name, why, "give one size, `body.bust[M]=92 cm`, or a list with all")
    done: list[TextEdit] = []
    for size in range(len(sized.sizes)) if asked.size is None else (asked.size,):
        cell = row.places[size]
        record = next(each for each in records if any(held.span.start == cell.start for held in each))
        at = next(index for index, held in enumerate(record) if held.span.start == cell.start)
        edits = _in_record(listed[size] if listed else asked.text, record, at, records[0])
        if edits is None:
            return not_edited_in_place(cell, name, "a figure is a number in cm or in", "give one number with its unit")
        done += edits
    return tuple(done)


def _in_record(text: str, record: tuple[Cell, ...], at: int, headings: tuple[Cell, ...]) -> list[TextEdit] | None:
    """The cell of a size, and that of the same measure in the other unit. None where the text is no length."""
    units = {at: _unit(headings[at])}
    if (other := other_column(headings, at)) is not None:
        units[other] = _unit(headings[other])
    said: dict[str, str] = {}
    for part in parts_of(text):
        written = _FIGURE.fullmatch(part)
        if written is None:
            return None
        said[written["unit"] or units[at]] = written["figure"]
    if not said.keys() <= set(units.values()):
        return None
    unit, figure = next(iter(said.items()))
    cm = Fraction(figure) * (CM_PER_INCH if unit == Column.INCHES.value else 1)
    worked_out = {Column.CM.value: on_cm_grid(cm), Column.INCHES.value: on_inch_grid(cm)}
    comma = separator_of(record[0].span.file) == ";" and any("," in record[index].text for index in units)
    done = []
    for index, each in units.items():
        new = said.get(each) or exact_text(worked_out[each])
        new, cell = new.replace(".", ",") if comma else new, record[index]
        done += [TextEdit(cell.span.start, cell.span.end, new)] if new != cell.text else []
    return done


def _unit(heading: Cell) -> str:
    inches = heading.text.lower().rstrip(")").endswith(("in", "inch", "inches"))
    return Column.INCHES.value if inches else Column.CM.value
