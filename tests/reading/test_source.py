"""Places in files: offset, line and column agree, whatever the characters and however the lines end."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.diagnostics.report import Report
from stitchproof.reading.folder import read_pattern
from stitchproof.source import SourceFile, Span
from tests.checks.smallest_pattern import SMALLEST

ODD_TEXTS = st.text(st.sampled_from("ab é\n🧶́\u200d\u2028\x85\tω"), max_size=60)


@given(ODD_TEXTS)
def test_line_and_column_lead_back_to_the_offset(text: str) -> None:
    file = SourceFile("text.md", text)
    for offset in range(len(text) + 1):
        line, column = file.line_column(offset)
        assert file.line_starts[line - 1] + column - 1 == offset
        assert line == text.count("\n", 0, offset) + 1
        assert column == offset - (text.rfind("\n", 0, offset) + 1) + 1


@given(ODD_TEXTS)
def test_lines_are_what_lies_between_newlines(text: str) -> None:
    """Only \\n ends a line; Python's own splitlines() would also cut at U+2028 and U+0085."""
    file = SourceFile("text.md", text)
    assert [file.line_text(number) for number in range(1, len(file.line_starts) + 1)] == text.split("\n")


@pytest.mark.parametrize(
    ("text", "word", "place"),
    [
        ("é <x>", "<", (1, 3)),
        ("🧶🧶 <x>", "<", (1, 4)),
        ("e\u0301 <x>", "<", (1, 4)),
        ("👩‍🦰 <x>", "<", (1, 5)),
        ("a\nbé\n🧶<x>", "<", (3, 2)),
        ("a\n\n<x>\n", "<", (3, 1)),
    ],
)
def test_columns_count_code_points(text: str, word: str, place: tuple[int, int]) -> None:
    """An accent written as a character of its own and each part of a joined emoji count as one column."""
    assert SourceFile("text.md", text).line_column(text.index(word)) == place


def test_the_end_of_a_file_is_a_place() -> None:
    assert SourceFile("text.md", "ab").line_column(2) == (1, 3)
    assert SourceFile("text.md", "ab\n").line_column(3) == (2, 1)
    assert SourceFile("text.md", "").line_column(0) == (1, 1)


def test_a_line_span_leaves_blanks_out() -> None:
    file = SourceFile("text.md", "a\n   b c  \n    \nd")
    assert file.line_span(2).text == "b c"
    assert file.line_span(3).text == ""
    assert file.line_span(4).text == "d"


def test_spans_are_cut_and_joined() -> None:
    file = SourceFile("text.md", "Row 1: <a> and <b>.")
    whole = Span(file, 7, 18)
    assert whole.part(1, 2).text == "a"
    assert whole.part(1, 2).to(whole.part(9, 10)).text == "a> and <b"


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("bom", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("last", [True, False])
def test_files_of_every_system_read_alike(newline: str, bom: bytes, last: bool, tmp_path: Path) -> None:
    """Windows and old Macintosh line ends, a byte order mark, and no newline at the end change no place."""
    text = "## Piece {piece}\n\nRow 1: Sc é 🧶 <stitches>." + ("\n" if last else "")
    header = "".join(SMALLEST.values()) + "counts: {stitches: 12 sts}" + ("\n" if last else "")
    for name, content in (("pattern.yaml", header), ("text.md", text)):
        (tmp_path / name).write_bytes(bom + content.replace("\n", newline).encode())
    report = Report()
    source = read_pattern(tmp_path, "hat", report)
    assert source is not None
    assert report.findings() == ()
    assert source.texts[0].file.text == text
    (island,) = source.islands
    assert island.span.text == "<stitches>"
    assert source.texts[0].file.line_column(island.span.start) == (3, 15)
    assert source.header.definitions[0].value_span.text == "12 sts"
