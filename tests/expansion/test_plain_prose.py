"""Prose without signs, read here, comes to what Markdown's own library makes of it (CommonMark)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Inline, Text
from stitchproof.expansion.inlines import with_numbers
from stitchproof.expansion.markdown import read_blocks, read_inline
from stitchproof.expansion.placed_text import PlacedLine, placed
from stitchproof.expansion.plain_prose import is_plain, plain_stretches
from stitchproof.expansion.prose import _block
from stitchproof.reading.marks import SLOT, mark
from stitchproof.source import Place, SourceFile

FILE = SourceFile("notes.md", "Notes")
PLACE = Place(FILE.whole)
WORDS = (
    "Ch 1",
    "st.",
    "½",
    "4",
    "(RS)",
    "4.5 mm",
    "12)",
    "7.",
    "é",
    "“tail”",
    "k–l",
    "a:b",
    "x!",
    "it's",
    mark(SLOT, 3),
)
SIGNS = (
    "#",
    "##",
    "-",
    "+",
    "=",
    "---",
    "===",
    "*",
    "_",
    "`",
    "|",
    "<b>",
    "[x](y)",
    "&amp;",
    "\\",
    "~~~",
    ">",
    "1.",
    "1. x",
    "\t",
)
BLANKS = (" ", "  ", "\u00a0", "")

lines = st.lists(
    st.lists(st.sampled_from(WORDS * 3 + BLANKS * 2 + SIGNS), max_size=4).map(" ".join)
    | st.sampled_from(WORDS + SIGNS).flatmap(
        lambda word: st.sampled_from(("", "Work", "# ", "### ")).map(lambda b: b + word)
    ),
    max_size=6,
)


def number_at(occurrence: int) -> Inline:
    return Text(f"[{occurrence}]", PLACE)


def read_here(held: list[PlacedLine]) -> tuple[Block, ...] | None:
    plain = plain_stretches([line.text for line in held])
    if plain is None:
        return None
    return tuple(_block(stretch, held[stretch.first], number_at) for stretch in plain)


def hold_to_markdown(written: list[str]) -> None:
    held = placed("\n".join(written), (), FILE.whole).lines()
    here = read_here(held)
    if here is not None:
        assert here == read_blocks(held, number_at, Report())
    for line in written:
        if is_plain(line):
            assert tuple(with_numbers(line, PLACE, number_at)) == read_inline(line, PLACE, number_at)


@given(lines)
def test_what_is_read_here_is_what_markdown_reads(written: list[str]) -> None:
    hold_to_markdown(written)


@given(st.text(max_size=40))
def test_so_is_any_text(written: str) -> None:
    hold_to_markdown(written.split("\n"))


@pytest.mark.parametrize(
    "written",
    [
        "Worked flat.\n\nThe last row is on the WS, 4 to 5 cm below.",
        "### Hem (3.5 mm hook)",
        "Notes\n## Way 2: spiral rnds\nNever join.\nNever turn.\n\n",
        f"Worked {mark(SLOT, 1)} times\n{mark(SLOT, 2)} rnds in all.",
    ],
)
def test_plain_prose_is_read_here(written: str) -> None:
    held = placed(written, (), FILE.whole).lines()
    assert read_here(held) == read_blocks(held, number_at, Report())


@pytest.mark.parametrize(
    "written",
    [
        *(
            "- one",
            "+ one",
            "1. one",
            "12) one",
            "> said",
            "a\n===",
            "a\n---",
            "| a |\n|---|",
            "***",
            "~~~",
            "    code",
        ),
        *(
            "an *em*",
            "a `b`",
            "[a](b)",
            "<https://a.org>",
            "&frac12;",
            "one  \ntwo",
            "a\\",
            "####### seven",
            "# a #",
            "a\n b",
        ),
    ],
)
def test_what_may_be_a_sign_is_left_to_markdown(written: str) -> None:
    assert plain_stretches(written.split("\n")) is None
