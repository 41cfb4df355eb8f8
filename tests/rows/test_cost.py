"""What long sources cost, as a ratio: twice as much text may take little more than twice the work, counted in function calls."""

from __future__ import annotations

import cProfile
from collections.abc import Callable

import pytest

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.blocks import BlockReader
from stitchproof.expansion.document import Text
from stitchproof.rows.words import WordFinder
from stitchproof.source import Place, SourceFile, Span
from stitchproof.stitches.lexicon import lexicon_for
from tests.expansion.unfolded import unfolded

MOST = 2.5
"""Work for twice as much: linear is 2, quadratic 4."""


def calls(work: Callable[[], object]) -> int:
    """Function calls that some work takes: the same in every run, on every machine."""
    profile = cProfile.Profile()
    profile.runcall(work)
    return sum(entry.callcount for entry in profile.getstats())


def ratio(work: Callable[[int], object], size: int) -> float:
    work(10)  # what is made once and kept
    return calls(lambda: work(2 * size)) / calls(lambda: work(size))


@pytest.mark.parametrize(
    ("before", "more"),
    [
        ("", "Row 1: Sc in next 2 sts.\n"),
        ("", "Row <1>: Sc in next <2> sts.\n"),
        ("", "::: note\nx\n:::\n"),
        ("", "::: sizes S\nRow 1: x\n:::\n"),
        ("Row 1: ", "sc, "),
        ("Row 1: x — ", "<1>, "),
        ("Row 1: ", "— <1>. "),
        ("Row 1: ", "{{ 1 }} "),
        ("## Notes\n\n", "*sc* <1> "),
    ],
)
def test_text_costs_by_its_length(before: str, more: str) -> None:
    """Equal rows and blocks one below the other, and long lines of words, numbers and templates."""
    assert ratio(lambda size: unfolded(f"{before}{more * size}\n"), 200) < MOST


class _Counted(dict[str, int]):
    """Counts how often it is asked."""

    asked = 0

    def __contains__(self, key: object) -> bool:
        self.asked += 1
        return super().__contains__(key)


def naming(identities: dict[str, int]) -> BlockReader:
    """A reader of blocks that is asked for names alone."""
    return BlockReader(None, Report(), identities)  # type: ignore[arg-type]  # it reads no slot


def test_equal_rows_are_told_apart_in_one_go() -> None:
    """The thousandth row of the same label does not try the nine hundred numbers that are taken."""
    reader = naming(held := _Counted())
    rows = 1000
    assert len({reader.only_identity("body/Row 1") for _ in range(rows)}) == rows
    assert held.asked <= 3 * rows


def test_a_number_that_the_author_wrote_is_not_given_again() -> None:
    reader = naming({})
    written = ["Row 1/2", "Row 1", "Row 1", "Row 1/2", "Row 1"]
    assert [reader.only_identity(each) for each in written] == ["Row 1/2", "Row 1", "Row 1/3", "Row 1/2/2", "Row 1/4"]


def test_words_do_not_read_their_whole_line_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """The characters that are taken out of the file to place the words of a line grow with the line, not with its square."""

    def characters(words: int) -> int:
        text = "sc, " * words
        span = Span(SourceFile("text.md", text), 0, len(text))
        taken = 0

        def counted(part: Span) -> str:
            nonlocal taken
            taken += part.end - part.start
            return part.file.text[part.start : part.end]

        with monkeypatch.context() as patch:
            patch.setattr(Span, "text", property(counted))
            assert len(WordFinder(lexicon_for("US", ())).text(Text(text, Place(span)))) == 2 * words
        return taken

    assert characters(2000) < MOST * characters(1000)
