"""The worksheet as a file to fill in: YAML, one question a line, and a line of CSV for those who work in a spreadsheet."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.worksheets.checkpoints import Worksheet

HEAD = """\
# Tester's worksheet. Fill in what you have, leave the rest empty, and send the file back.
# Counts: what you count, not what the pattern says. Lengths in cm, weights in g, time in hours.
"""


def form_text(worksheet: Worksheet) -> str:
    """The empty form of one size, as YAML."""
    return HEAD + "\n".join(_lines(worksheet)) + "\n"


def _lines(worksheet: Worksheet) -> Iterator[str]:
    yield f"pattern: {_quoted(worksheet.title)}"
    yield f"revision: {_quoted(worksheet.revision)}"
    yield f"size: {_quoted(worksheet.size)}"
    yield "tester:"
    yield "grams:"
    yield "hours:"
    if worksheet.gauges:
        yield "gauge:"
    for gauge in worksheet.gauges:
        yield f"  # over {_plain(gauge.over)} cm"
        yield f"  {gauge.name}:"
        yield f"    before: {{stitches: , {gauge.rows_noun}: }}"
        yield f"    after: {{stitches: , {gauge.rows_noun}: }}"
    yield "checkpoints:"
    for point in worksheet.checkpoints:
        yield f"  # {point.piece}: {point.words[:90]}"
        yield f"  - line: {point.line}"
        if point.asks_count:
            yield "    count:"
        if point.asks_cm:
            yield "    cm:"
    yield "# Lines that you had to read twice: the line's number, and what was unclear."
    yield "unclear:"
    yield "  - line:"
    yield "    words:"


def _quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def _plain(number: object) -> str:
    return f"{float(number):g}" if number is not None else ""  # type: ignore[arg-type]  # a Fraction
