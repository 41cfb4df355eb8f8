"""Pieces: the sizes that work them, and the total of an offset fabric."""

from fractions import Fraction

import pytest

from stitchproof.sizing.sized_pattern import OffsetWay
from tests.sizing.written_pattern import faultless, sized


def pattern(piece: str) -> str:
    """A pattern in three sizes with one piece."""
    return (
        f"sizes: {{names: [S, M, L]}}\ncounts:\n  total: [84 sts, 91 sts, not worked]\npieces:\n  piece: {{{piece}}}\n"
    )


@pytest.mark.parametrize(
    ("sizes", "served"),
    [("", (0, 1, 2)), (", sizes: [M]", (1,)), (", sizes: [L, S]", (0, 2)), (", sizes: M", (1,))],
)
def test_the_sizes_that_work_a_piece(sizes: str, served: tuple[int, ...]) -> None:
    """All where none is named; else in the order of the pattern."""
    found = faultless(pattern(f"gauge: fabric, worked: rows{sizes}"))
    assert [piece.served for piece in found.pattern.pieces] == [served]


@pytest.mark.parametrize("way", OffsetWay)
def test_the_total_of_an_offset_fabric(way: OffsetWay) -> None:
    fabric = f'offset_fabric: {{total: total + 1, worked: "{way.words}"}}'
    found = faultless(pattern(f"gauge: fabric, worked: rows, {fabric}")).pattern.pieces[0].offset_fabric
    assert found is not None
    assert found.way is way
    assert found.totals[:2] == (Fraction(85), Fraction(92))


@pytest.mark.parametrize(
    ("way", "remainder"),
    [
        ("joined rounds", 0),
        ("turned rounds", 0),
        ("rows, two-row repeat", 1),
        ("rows, one-row repeat", 0),
        ("spiral rounds, start kept in place", 1),
        ("spiral rounds, each ending with a chain", 0),
    ],
)
def test_whether_a_total_is_odd_or_even(way: str, remainder: int) -> None:
    """What N must be in a fabric that alternates a stitch and a chain space.

    Rows: common practice, no source. Rounds and spirals: derived, since position i lies above position i − N and the two
    must be of different kinds; a spiral whose rounds each end with a chain is the odd one of N − 1, counted in rounds of N.
    """
    assert next(each for each in OffsetWay if each.words == way).remainder == remainder


@pytest.mark.parametrize(
    ("piece", "fault"),
    [
        ("gauge: fabrik, worked: rows", ("word-not-known", "fabrik")),
        ("gauge: fabric, worked: diagonally", ("word-not-known", "diagonally")),
        ("gauge: fabric, worked: rows, sizes: [XL]", ("word-not-known", "XL")),
        ("gauge: fabric, worked: rows, offset_fabric: {total: total, worked: rows}", ("word-not-known", "rows")),
        ("gauge: fabric, worked: rows, offset_fabric: {total: totl, worked: joined rounds}", ("unknown-name", "totl")),
    ],
)
def test_a_word_that_is_not_known(piece: str, fault: tuple[str, str]) -> None:
    assert [each[:2] for each in sized(pattern(piece)).faults] == [fault]
