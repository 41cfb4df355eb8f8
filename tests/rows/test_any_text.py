"""Any text gives a tree or the words that stopped the reader, at a cost that grows with the text and no faster."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.rows.labels import read_label
from stitchproof.rows.line import Line, line_of_text
from stitchproof.rows.read_row import read_items, read_row, read_with
from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import NotRead, RowTree
from stitchproof.source import SourceFile, Span
from tests.rows.notation import WORDS, notation
from tests.rows.test_cost import calls

WORDS_OF_ROWS = """sc hdc dc sl_st inc dec ch ch-1 sp st sts 1 2 3 next each first last same in of to the around across from
hook rep * ** ( ) [ ] , ; . : - — = x times more and then turn join sk until marker row rnd Row Rnd with counts as ending at
top tch ring BLO even work on every 2nd rows are complete 3rd over two once twice leave unworked 2(3,4) pm do not center"""
PIECES = st.sampled_from(WORDS_OF_ROWS.split())
SENTENCES = st.lists(PIECES, max_size=25).map(lambda words: " ".join(word.replace("_", " ") for word in words))
MOST = 2.6
"""Work for twice as much text: linear is 2, quadratic 4."""


def line(text: str, sizes: tuple[str, ...] = ("S", "M", "L")) -> Line:
    """A line of a pattern with three sizes."""
    return line_of_text(text, sizes, Span(SourceFile("row", text), 0, len(text)))


@given(st.text(max_size=60) | SENTENCES)
def test_any_text_is_read_or_not(text: str) -> None:
    reading = read_row(line(text), WORDS["US"])
    assert isinstance(reading, RowTree | NotRead)
    read_label(line(text), WORDS["UK"])


@given(SENTENCES)
def test_what_is_not_read_stands_in_the_text(text: str) -> None:
    reading = read_row(line(text), WORDS["US"])
    if isinstance(reading, NotRead) and text.strip():
        assert 0 <= reading.at.start < reading.at.end <= len(text)
        assert reading.words == " ".join(text[reading.at.start : reading.at.end].split())


@given(SENTENCES)
def test_each_item_stands_in_the_text(text: str) -> None:
    reading = read_row(line(text), WORDS["US"])
    if isinstance(reading, RowTree):
        for item in reading.items:
            assert 0 <= item.at.start <= item.at.end <= len(text)


@pytest.mark.parametrize(
    "more",
    [
        "sc in next st, ",
        "(sc, inc) x 6, ",
        "*sc, inc; rep from * 3 times, ",
        "ch 1, sk 1, ",
        "(",
        "[sc, ",
        "* ",
        "*sc, ",
        "24 sc. ",
        "— 24 sc ",
        "2 (3, 4) sc, ",
        "in next st ",
        "sc and ",
        "last ",
        "Row 2 and ",
        "until 3 ",
        "the ",
        "sc - ",
        "(counts as ",
        "on row 2, then every 2nd row 3 more times, ",
    ],
)
def test_work_grows_with_the_text(more: str) -> None:
    def work(times: int) -> None:
        read_row(line(more * times), WORDS["US"])

    work(5)
    assert calls(lambda: work(400)) < MOST * calls(lambda: work(200))


def test_ten_thousand_brackets_are_not_read() -> None:
    assert isinstance(read_row(line("(" * 10_000 + "sc" + ")" * 10_000), WORDS["US"]), NotRead)
    assert isinstance(read_row(line("*" * 10_000), WORDS["US"]), NotRead)


def test_a_long_line_is_read_in_one_go() -> None:
    reader = Reader(line("sc in next st, " * 2_000), WORDS["US"])
    reader.items = read_items
    assert isinstance(read_with(reader), RowTree)
    assert reader.steps <= 2 * len(reader.lexemes)


def test_a_hundred_thousand_characters_come_back() -> None:
    assert isinstance(read_row(line("sc, " * 25_000), WORDS["US"]), NotRead)


def test_brackets_may_be_a_few_deep() -> None:
    assert notation("[sc, [inc, [ch 1, sk 1] 2 times] 2 times] 2 times") == "[sc; [inc; [ch 1; sk next 1 st]x2]x2]x2"
