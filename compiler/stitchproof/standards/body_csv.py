"""A designer's own body table from a CSV file.

One line per size. The first column holds the names of the sizes; each other column is one measure in one unit, which its
heading says: `bust cm`, `bust in`, `upper arm cm`. A measure may have both columns or one; neither is worked out from the
other. A cell is a figure (86, 91.5, 17 1/4), a range (81-86), or – where there is no figure.

    size, bust cm, bust in, upper arm cm
    S,    81-86,   32-34,   26
    M,    91.5,    36,      28

Cells are separated by commas or by semicolons; between semicolons 91,5 is read as 91.5 too. A name in the heading becomes
the measure's name in formulas: small letters, words joined by underscores (upper_arm). Formulas work with the column of a
measure that stands first.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.expressions import expression
from stitchproof.source import SourceFile, Span
from stitchproof.standards.body import BodyRow, BodyTable, Figures
from stitchproof.standards.csv_cells import Cell, NotCsv, read_records, separator_of
from stitchproof.standards.provenance import Column
from stitchproof.standards.ranges import Range

LONGEST_SHOWN = 40
"""Characters of a cell that a fault repeats."""
MOST_NAMED = 6
"""Missing columns that a fault names."""
MOST_FAULTS = 20
"""No more are told at once; the rest show when these are mended."""
MOST_MEASURES, MOST_SIZES = 100, 200
"""More than any table of bodies has; each measure of the table is worked out for every size."""
LAYOUT = "write one line per size under a first line such as `size, bust cm, upper arm cm`"

_UNITS = {"cm": Column.CM, "in": Column.INCHES, "inch": Column.INCHES, "inches": Column.INCHES}
_UNIT_OF_HEADING = expression(r"(?:^|(?<=[ _(]))(cm|inches|inch|in)\)?$", re.IGNORECASE)
_NAME = expression(r"[^\W\d]\w*")
_NUMBER = expression(r"([0-9]{1,4})(?:\.([0-9]{1,4})|\s*([¼½¾])|\s+([0-9]{1,2})/([1-9][0-9]?))?")
_RANGE_SIGN = expression(r" ?(?:[-–—]|\bto\b) ?")
_UNIT_OF_FIGURE = expression(r" ?(?:[A-Za-z]{1,8}\.?|[\"'″”])$")
_NO_FIGURE = frozenset({"-", "–", "—"})
_QUARTERS = {"¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4)}

Heading = tuple[str, Column]


class BodyCsvFault(Struct, frozen=True):
    """What is wrong at a place of the file, and what to type instead."""

    headline: str
    help: str
    span: Span


def read_body_csv(file: SourceFile) -> BodyTable | tuple[BodyCsvFault, ...]:
    """The table of a CSV file, in the layout above, or all that is wrong with it in the order of the file."""
    records = read_records(file)
    if isinstance(records, NotCsv):
        return (_not_csv(records),)
    if not records:
        return (BodyCsvFault("the body table is empty", LAYOUT, file.whole),)
    headings, sizes = records[0], records[1:]
    if len(headings) > MOST_MEASURES or len(sizes) > MOST_SIZES:
        many = (
            f"more than {MOST_MEASURES} columns" if len(headings) > MOST_MEASURES else f"more than {MOST_SIZES} sizes"
        )
        return (BodyCsvFault(f"the body table has {many}", "keep what the patterns use", headings[0].span),)
    columns = tuple(_headings(headings))
    faults = [column for column in columns if isinstance(column, BodyCsvFault)]
    measures = tuple(column for column in columns if not isinstance(column, BodyCsvFault))
    faults += _missing_parts(headings, len(sizes))
    faults += _wrong_sizes(sizes)
    decimal_commas = separator_of(file) == ";"
    cells = tuple(tuple(_figures(headings, size, decimal_commas)) for size in sizes)
    faults += [cell for line in cells for cell in line if isinstance(cell, BodyCsvFault)]
    if faults:
        return tuple(sorted(faults, key=lambda fault: fault.span.order)[:MOST_FAULTS])
    figures = tuple(tuple(cell for cell in line if not isinstance(cell, BodyCsvFault)) for line in cells)
    return _table(file, sizes, measures, figures)


def other_column(headings: tuple[Cell, ...], at: int) -> int | None:
    """Where the same measure stands in the other unit: the index of its heading; None where it has one column."""
    named = {index: _heading(cell) for index, cell in enumerate(headings) if index}
    this = named.get(at)
    if this is None or isinstance(this, BodyCsvFault):
        return None
    return next(
        (
            index
            for index, each in named.items()
            if not isinstance(each, BodyCsvFault) and each[0] == this[0] and each[1] is not this[1]
        ),
        None,
    )


def _table(
    file: SourceFile, lines: tuple[tuple[Cell, ...], ...], columns: tuple[Heading, ...], figures: tuple[Figures, ...]
) -> BodyTable:
    sizes = tuple(line[0].text for line in lines)
    by_heading = dict(zip(columns, zip(*figures, strict=True), strict=True))
    places = {heading: tuple(line[at].span for line in lines) for at, heading in enumerate(columns, start=1)}
    none: Figures = (None,) * len(sizes)
    rows = []
    for measure in dict.fromkeys(measure for measure, _ in columns):
        cm, inches = (by_heading.get((measure, column), none) for column in (Column.CM, Column.INCHES))
        primary = next(column for name, column in columns if name == measure)
        rows.append(BodyRow(measure, cm, inches, primary=primary, places=places[measure, primary]))
    title = "the designer's own body measurements"
    return BodyTable(file.path, title, "", sizes, sizes, ((),) * len(sizes), tuple(rows))


def _not_csv(found: NotCsv) -> BodyCsvFault:
    if found.unclosed:
        return BodyCsvFault("a quotation mark is not closed", 'close it, or take it out: no cell needs "', found.span)
    return BodyCsvFault("this line does not come apart into cells", 'take out the " in it', found.span)


def _missing_parts(headings: tuple[Cell, ...], sizes: int) -> Iterator[BodyCsvFault]:
    whole = _line(headings)
    if len(headings) == 1:
        yield BodyCsvFault("the body table has no measures", LAYOUT, whole)
    if not sizes:
        yield BodyCsvFault("the body table has no sizes", LAYOUT, whole)


def _headings(cells: tuple[Cell, ...]) -> Iterator[Heading | BodyCsvFault]:
    """The measure and unit of each column after the first."""
    seen: set[Heading] = set()
    for cell in cells[1:]:
        heading = _heading(cell)
        if isinstance(heading, BodyCsvFault):
            yield heading
        elif heading in seen:
            instead = "delete one of the columns, or give it another name or unit"
            yield BodyCsvFault(f"{_shown(cell)} stands over two columns", instead, cell.span)
        else:
            seen.add(heading)
            yield heading


def _heading(cell: Cell) -> Heading | BodyCsvFault:
    if not cell.text:
        return BodyCsvFault("a column has no heading", "name its measure and unit, such as `bust cm`", cell.span)
    found = _UNIT_OF_HEADING.search(cell.text)
    name = _measure_name(cell.text[: found.start()] if found else cell.text)
    if not _NAME.fullmatch(name):
        instead = "write words and the unit, such as `upper arm cm`; a name begins with a letter"
        return BodyCsvFault(f"{_shown(cell)} does not name a measure", instead, cell.span)
    if found is None:
        instead = "end the heading with its unit, such as `bust cm`; sizes go down, measures across"
        return BodyCsvFault(f"{_shown(cell)} has no unit, cm or in", instead, cell.span)
    return name, _UNITS[found[1].lower()]


def _measure_name(words: str) -> str:
    return re.sub(r"[ _-]+", "_", words.lower()).rstrip("_(")


def _wrong_sizes(lines: Iterable[tuple[Cell, ...]]) -> Iterator[BodyCsvFault]:
    seen: set[str] = set()
    for cell in (line[0] for line in lines):
        name = cell.text.casefold()
        if not name:
            yield BodyCsvFault("this line names no size", "write the size's name in the first column", cell.span)
        elif name in seen:
            yield BodyCsvFault(f"size {_shown(cell)} stands here a second time", "delete one of the lines", cell.span)
        seen.add(name)


def _figures(
    headings: tuple[Cell, ...], cells: tuple[Cell, ...], decimal_commas: bool
) -> Iterator[Range | BodyCsvFault | None]:
    """The figures of one size, one per column; a line of the wrong length is one fault."""
    if len(cells) < len(headings):
        missing = [f"`{heading.text}`" for heading in headings[len(cells) :]]
        names = ", ".join(missing[:MOST_NAMED]) + (" and so on" if len(missing) > MOST_NAMED else "")
        headline = f"size {_shown(cells[0])} has {len(cells) - 1} of {len(headings) - 1} figures"
        yield BodyCsvFault(headline, f"add {names}; write – where there is no figure", _line(cells))
    elif len(cells) > len(headings):
        extra = cells[len(headings)].span.to(cells[-1].span)
        headline = f"size {_shown(cells[0])} has more figures than there are headings"
        yield BodyCsvFault(headline, "delete what is too much, or write a decimal point, not a comma", extra)
    else:
        for heading, cell in zip(headings[1:], cells[1:], strict=True):
            yield _figure(heading, cell, decimal_commas)


def _figure(heading: Cell, cell: Cell, decimal_commas: bool) -> Range | BodyCsvFault | None:
    text = cell.text.replace(",", ".") if decimal_commas else cell.text
    if not text:
        instead = "write a figure, or – where there is none"
        return BodyCsvFault(f"no figure for `{heading.text}`", instead, cell.span)
    if text in _NO_FIGURE:
        return None
    low, high = _ends(text)
    if low is None or high is None:
        return BodyCsvFault(f"{_shown(cell)} is not a figure", _instead(cell.text), cell.span)
    if low <= 0:
        return BodyCsvFault(f"{_shown(cell)} is not a measure of a body", "write a figure above 0", cell.span)
    if low > high:
        return BodyCsvFault(f"{_shown(cell)} runs downward", "write the smaller figure first", cell.span)
    return Range(low, high)


def _ends(text: str) -> tuple[Fraction | None, Fraction | None]:
    """Both ends of a range as written, alike for a single figure; None for an end that is no figure."""
    low, *others = _RANGE_SIGN.split(text, 1)
    return _number(low), _number(others[0] if others else low)


def _number(text: str) -> Fraction | None:
    """A figure as written: 86, 91.5, 17 1/4, 17¼; None for anything else."""
    found = _NUMBER.fullmatch(text)
    if found is None:
        return None
    whole, places, quarter, above, under = found.groups()
    if places:
        return Fraction(f"{whole}.{places}")
    return int(whole) + (_QUARTERS[quarter] if quarter else Fraction(int(above or 0), int(under or 1)))


def _instead(text: str) -> str:
    """What to type for a cell that is not a figure: the figure in it, if there is one."""
    with_point, without_unit = text.replace(",", "."), _UNIT_OF_FIGURE.sub("", text)
    if _number(with_point) is not None:
        return f"write `{with_point}`"
    if None not in _ends(without_unit):
        return f"write `{without_unit}`; the unit stands in the heading"
    return "write a figure such as 86 or 91.5, a range such as 81-86, or – where there is none"


def _shown(cell: Cell) -> str:
    """The text of a cell, cut where it is no figure or name that anyone would write."""
    return f"`{cell.text}`" if len(cell.text) <= LONGEST_SHOWN else f"`{cell.text[:LONGEST_SHOWN]}…`"


def _line(cells: tuple[Cell, ...]) -> Span:
    return cells[0].span.to(cells[-1].span)
