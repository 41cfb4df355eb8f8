"""A designer's own body table from CSV: what is written comes back, and every fault is found where it stands."""

import csv
import io
import string
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.values import exact_text
from stitchproof.source import SourceFile
from stitchproof.standards.body import BodyTable
from stitchproof.standards.body_csv import MOST_FAULTS, BodyCsvFault, read_body_csv
from stitchproof.standards.csv_cells import Cell, NotCsv, read_records, separator_of
from stitchproof.standards.provenance import Column, Memory
from stitchproof.standards.ranges import Range

figures = st.integers(min_value=1, max_value=80_000).map(lambda n: Fraction(n, 400))
cells = st.none() | st.tuples(figures, figures).map(lambda ends: Range(min(ends), max(ends)))
size_names = st.text(string.ascii_letters + string.digits + " ,;\"'-/é", min_size=1, max_size=8).map(
    lambda name: " ".join(name.split())
)
measures = st.sampled_from(["bust", "upper arm", "neck-to-wrist", "Hips"])
headings = st.tuples(measures, st.sampled_from(["cm", "in", "(cm)", "inches"]))


@st.composite
def tables(draw: st.DrawFn) -> tuple[list[str], list[tuple[str, str]], list[list[Range | None]]]:
    """Names of sizes, headings (measure, unit) and cells, one list per size."""
    sizes = draw(st.lists(size_names.filter(bool), min_size=1, max_size=5, unique_by=str.casefold))
    columns = draw(st.lists(headings, min_size=1, max_size=5, unique_by=lambda column: (column[0], unit(column[1]))))
    rows = draw(
        st.lists(
            st.lists(cells, min_size=len(columns), max_size=len(columns)), min_size=len(sizes), max_size=len(sizes)
        )
    )
    return sizes, columns, rows


def unit(written: str) -> Column:
    """The column that a unit of a heading means."""
    return Column.CM if "cm" in written else Column.INCHES


def cell_text(cell: Range | None) -> str:
    """A cell as a designer writes it."""
    if cell is None or cell.low is None or cell.high is None:
        return "–"
    return exact_text(cell.low) if cell.low == cell.high else f"{exact_text(cell.low)}–{exact_text(cell.high)}"


def read(text: str) -> BodyTable | tuple[BodyCsvFault, ...]:
    """The table of a text."""
    return read_body_csv(SourceFile("sizes.csv", text))


@given(tables(), st.sampled_from([",", ";"]), st.sampled_from([csv.QUOTE_ALL, csv.QUOTE_MINIMAL]))
def test_what_a_csv_writer_wrote_comes_back(
    table: tuple[list[str], list[tuple[str, str]], list[list[Range | None]]], separator: str, quoting: int
) -> None:
    """Reference: the writer of Python's csv module (RFC 4180), with either separator."""
    sizes, columns, rows = table
    written = io.StringIO()
    writer = csv.writer(written, delimiter=separator, quoting=quoting, lineterminator="\n")  # type: ignore[arg-type]
    writer.writerow(["size", *(f"{measure} {word}" for measure, word in columns)])
    for size, row in zip(sizes, rows, strict=True):
        writer.writerow([size, *(cell_text(cell) for cell in row)])
    result = read(written.getvalue())
    assert isinstance(result, BodyTable)
    assert result.sizes == tuple(sizes)
    assert (result.source, {row.memory for row in result.rows}) == ("", {Memory.NONE})
    for number, (measure, word) in enumerate(columns):
        found = result.row(measure.lower().replace(" ", "_").replace("-", "_"))
        assert found is not None
        assert found.figures(unit(word)) == tuple(row[number] for row in rows)


@given(st.text(' ,;"\n1aß-.–½', max_size=60))
def test_any_text_is_a_table_or_located_faults(text: str) -> None:
    result = read(text)
    if isinstance(result, BodyTable):
        return
    assert 1 <= len(result) <= MOST_FAULTS
    for fault in result:
        assert fault.headline
        assert fault.help
        assert 0 <= fault.span.start <= fault.span.end <= len(text)
    assert list(result) == sorted(result, key=lambda fault: fault.span.order)


@given(st.text(' ,;"\n1aß', max_size=60))
def test_every_cell_stands_where_it_says(text: str) -> None:
    """Reference: Python's csv module reads the place of a cell to the cell's text."""
    file = SourceFile("sizes.csv", text)
    records = read_records(file)
    if isinstance(records, NotCsv):
        return
    for cell in (cell for record in records for cell in record):
        written = cell.span.text
        again = next(csv.reader([written], delimiter=separator_of(file), strict=True), [""]) if written else [""]
        if "\n" not in written:
            assert [" ".join(part.split()) for part in again] == [cell.text]


def test_places_count_lines_and_columns() -> None:
    records = read_records(SourceFile("sizes.csv", '\ufeffsize;"bust ""full"" cm"\n\n  S ;  86\n'))
    assert not isinstance(records, NotCsv)
    assert [[where(cell) for cell in record] for record in records] == [
        [(1, 2, "size"), (1, 7, 'bust "full" cm')],
        [(3, 3, "S"), (3, 8, "86")],
    ]


def where(cell: Cell) -> tuple[int, int, str]:
    """Line, column and text of a cell."""
    return (*cell.span.file.line_column(cell.span.start), cell.text)


def test_a_table_as_designers_write_it() -> None:
    table = read("Size;Bust (cm);bust in;Upper Arm cm\nS;81–86;32 to 34;26,5\nM;91.5;17 1/4;–\n;;;\nL;96;38½;28\n")
    assert isinstance(table, BodyTable)
    assert table.sizes == ("S", "M", "L")
    assert [row.measure for row in table.rows] == ["bust", "upper_arm"]
    bust, arm = table.rows
    assert bust.cm[0] == Range(Fraction(81), Fraction(86))
    assert [cell.single if cell else None for cell in bust.inches] == [None, Fraction(69, 4), Fraction(77, 2)]
    assert [cell.single if cell else None for cell in arm.cm] == [Fraction(53, 2), None, 28]
    assert arm.inches == (None, None, None)


# text, line, column, part of the headline, part of the help
BAD = [
    ("", 1, 1, "is empty", "one line per size"),
    ("\n \n,,\n", 1, 1, "is empty", "one line per size"),
    ("size,bust cm\n", 1, 1, "no sizes", "one line per size"),
    ("size\nS\n", 1, 1, "no measures", "bust cm"),
    ("size,bust\nS,86\n", 1, 6, "`bust` has no unit", "bust cm"),
    ("size,bust mm\nS,860\n", 1, 6, "`bust mm` has no unit", "bust cm"),
    ("measure,S,M\nbust,81,86\n", 1, 9, "`S` has no unit", "sizes go down"),
    ("size,cm\nS,86\n", 1, 6, "does not name a measure", "a name begins with a letter"),
    ("size,2nd bust cm\nS,86\n", 1, 6, "does not name a measure", "a name begins with a letter"),
    ("size,bust cm,\nS,86,87\n", 1, 14, "no heading", "bust cm"),
    ("size,bust cm,Bust (cm)\nS,86,87\n", 1, 14, "over two columns", "delete one"),
    ("size,bust cm\nS,86\ns,91\n", 3, 1, "size `s` stands here a second time", "delete one"),
    ("size,bust cm\n,86\n", 2, 1, "names no size", "first column"),
    ("size,bust cm,bust in\nS,86\n", 2, 1, "size `S` has 1 of 2 figures", "`bust in`"),
    ("size,bust cm\nS,86,34\n", 2, 6, "more figures than there are headings", "decimal point"),
    ("size,bust cm,bust in\nS,,34\n", 2, 3, "no figure for `bust cm`", "–"),
    ("size,bust cm\nS,wide\n", 2, 3, "`wide` is not a figure", "86 or 91.5"),
    ("size,bust cm\nS,86 cm\n", 2, 3, "`86 cm` is not a figure", "write `86`; the unit stands in the heading"),
    ('size,bust cm\nS,"86,5"\n', 2, 3, "`86,5` is not a figure", "write `86.5`"),
    ("size,bust cm\nS,81-86 cm\n", 2, 3, "is not a figure", "write `81-86`"),
    ("size,bust cm\nS,81-86-91\n", 2, 3, "is not a figure", "a range such as"),
    ("size,bust cm\nS,1e9\n", 2, 3, "is not a figure", "86 or 91.5"),
    ("size,bust cm\nS," + "9" * 5000 + "\n", 2, 3, "is not a figure", "86 or 91.5"),
    ("size,bust cm\nS,-86\n", 2, 3, "is not a figure", "86 or 91.5"),
    ("size,bust cm\nS,٨٦\n", 2, 3, "is not a figure", "86 or 91.5"),
    ("size,bust cm\nS,0\n", 2, 3, "not a measure of a body", "above 0"),
    ("size,bust cm\nS,86-81\n", 2, 3, "runs downward", "smaller figure first"),
    ('size,bust cm\nS,"86\nM,91\n', 2, 1, "quotation mark is not closed", "close it"),
    ('size,bust cm\n"S"mall,86\n', 2, 1, "does not come apart", "take out"),
]


@pytest.mark.parametrize(("text", "line", "column", "headline", "help_text"), BAD)
def test_faults_stand_where_they_are(text: str, line: int, column: int, headline: str, help_text: str) -> None:
    result = read(text)
    assert not isinstance(result, BodyTable)
    fault = result[0]
    assert fault.span.file.line_column(fault.span.start) == (line, column)
    assert headline in fault.headline
    assert help_text in fault.help


def test_all_faults_come_at_once() -> None:
    result = read("size,bust cm,hips\nS,x,90\nS,86,y\n")
    assert not isinstance(result, BodyTable)
    assert [fault.span.text for fault in result] == ["hips", "x", "S", "y"]


def test_a_long_cell_is_not_repeated_in_full() -> None:
    for cell in ("9" * 100_000, "a" * 100_000, "1 " * 50_000, "_" * 100_000, "to " * 30_000):
        for text in (f"size,bust cm\nS,{cell}\n", f"size,{cell}\nS,86\n"):
            result = read(text)
            assert not isinstance(result, BodyTable)
            assert all(len(fault.headline) + len(fault.help) < 200 for fault in result)


def test_a_file_of_faults_stops_somewhere() -> None:
    result = read("size,bust cm\n" + "S,x\n" * 150)
    assert not isinstance(result, BodyTable)
    assert len(result) == MOST_FAULTS
