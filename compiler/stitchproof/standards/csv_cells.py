"""The cells of a CSV file, each with its place in the file. Separated by commas or by semicolons."""

from __future__ import annotations

import csv
from collections.abc import Iterator

from msgspec import Struct

from stitchproof.expressions import expression
from stitchproof.source import SourceFile, Span

QUOTE = '"'
_BLANKS = expression(" *")


class Cell(Struct, frozen=True):
    """One cell: its text without quotation marks, blanks around it and more than one blank within it, and where it is written."""

    text: str
    span: Span


class NotCsv(Struct, frozen=True):
    """The line at which the file stops being CSV; unclosed: because a quotation mark is never closed."""

    span: Span
    unclosed: bool


def separator_of(file: SourceFile) -> str:
    """`;` where the first line that says anything holds one, else `,`."""
    first = next((line for line in file.text.split("\n") if line.strip()), "")
    return ";" if ";" in first else ","


def read_records(file: SourceFile) -> tuple[tuple[Cell, ...], ...] | NotCsv:
    """The lines of the table in order, each as its cells; lines that hold nothing are left out."""
    start = len(file.text) - len(file.text.removeprefix("\ufeff"))
    lines = [line + "\n" for line in file.text[start:].split("\n")]
    separator = separator_of(file)
    reader = csv.reader(iter(lines), delimiter=separator, quotechar=QUOTE, skipinitialspace=True, strict=True)
    records: list[tuple[Cell, ...]] = []
    done = 0
    while True:
        try:
            texts = next(reader, None)
        except csv.Error as error:
            line, _ = file.line_column(start)
            return NotCsv(file.line_span(line), unclosed="end of data" in str(error))
        if texts is None:
            return tuple(records)
        raw = "".join(lines[done : reader.line_num])
        if any(text.strip() for text in texts):
            places = _places(raw.removesuffix("\n"), separator)
            records.append(
                tuple(
                    Cell(" ".join(text.split()), Span(file, start + begin, start + end))
                    for text, (begin, end) in zip(texts, places, strict=True)
                )
            )
        start += len(raw)
        done = reader.line_num


def _places(raw: str, separator: str) -> Iterator[tuple[int, int]]:
    """Start and end of each cell of a line, quotation marks included, blanks around it left out."""
    at = 0
    while True:
        blanks = _BLANKS.match(raw, at)
        start = blanks.end() if blanks else at
        after = _after_quotes(raw, start + 1) if raw.startswith(QUOTE, start) else start
        stop = raw.find(separator, after)
        end = len(raw) if stop == -1 else stop
        yield start, start + len(raw[start:end].rstrip())
        if stop == -1:
            return
        at = stop + 1


def _after_quotes(raw: str, at: int) -> int:
    """Just after the quotation mark that closes a cell; a doubled one stands for itself."""
    while True:
        found = raw.index(QUOTE, at)
        if not raw.startswith(QUOTE, found + 1):
            return found + 1
        at = found + 2
