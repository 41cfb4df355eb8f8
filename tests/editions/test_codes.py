"""QR codes of addresses, drawn by a library and read back by a reader of our own."""

from __future__ import annotations

import re

import pytest

from stitchproof.editions.codes import QUIET, code_of
from tests.editions.read_code import Matrix, read, version_of

ADDRESSES = {"http://a.example": 2, "https://example.org/fhdc": 2, "https://example.org/post?a=1&b=2": 3}
"""With the smallest version that holds them at level M: 14, 26 and 42 bytes (ISO/IEC 18004, table 7; from memory)."""


def matrix_of(svg: str) -> Matrix:
    """The modules that the path blackens."""
    side = int(re.findall(r'viewBox="0 0 (\d+) \1"', svg)[0])
    black = {(int(y), int(x)) for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", svg)}
    inner = range(QUIET, side - QUIET)
    assert all(row in inner and column in inner for row, column in black), "the quiet zone is white"
    return [[int((row, column) in black) for column in inner] for row in inner]


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_code_reads_as_its_address(address: str) -> None:
    matrix = matrix_of(code_of(address))
    assert version_of(matrix) == ADDRESSES[address]
    assert read(matrix) == address


def test_a_finder_stands_in_three_corners() -> None:
    """Seven by seven, a ring of white in a ring of black around three by three (ISO/IEC 18004, 6.3.3)."""
    matrix = matrix_of(code_of("https://example.org/fhdc"))
    side = len(matrix)
    for top, left in ((0, 0), (0, side - 7), (side - 7, 0)):
        for i in range(7):
            for j in range(7):
                ring = max(abs(i - 3), abs(j - 3))
                assert matrix[top + i][left + j] == (ring != 2)


def test_the_words_of_an_address_are_escaped() -> None:
    svg = code_of('https://example.org/?a=1&b="2"<i>')
    assert "<i>" not in svg
    assert "&amp;b=" in svg
