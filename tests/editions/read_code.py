"""A reader of small QR codes, independent of what draws them: enough of ISO/IEC 18004 for one block of bytes at level M.

From memory of the standard: places of the finder and alignment patterns, the mask formulas, the bits of the format and
the BCH code over them, the order of the codewords, and how many of them carry data (versions 1 to 3).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

Matrix = list[list[int]]
DATA_WORDS = {1: 16, 2: 28, 3: 44}
"""At level M, by version."""
LEVEL_M = 0b00
FORMAT_MASK = 0b101010000010010
GENERATOR = 0b10100110111
MASKS: tuple[Callable[[int, int], int], ...] = (
    lambda i, j: (i + j) % 2,
    lambda i, j: i % 2,
    lambda i, j: j % 3,
    lambda i, j: (i + j) % 3,
    lambda i, j: (i // 2 + j // 3) % 2,
    lambda i, j: i * j % 2 + i * j % 3,
    lambda i, j: (i * j % 2 + i * j % 3) % 2,
    lambda i, j: ((i + j) % 2 + i * j % 3) % 2,
)


def version_of(matrix: Matrix) -> int:
    """A code of version v has 17 + 4 v modules a side."""
    version, rest = divmod(len(matrix) - 17, 4)
    assert rest == 0
    return version


def format_of(matrix: Matrix) -> tuple[int, int]:
    """Level and mask, read beside the upper left finder; the remainder of the BCH code must be 0."""
    row = [matrix[8][j] for j in (0, 1, 2, 3, 4, 5, 7, 8)]
    column = [matrix[i][8] for i in (7, 5, 4, 3, 2, 1, 0)]
    bits = int("".join(map(str, row + column)), 2) ^ FORMAT_MASK
    rest = bits
    for shift in range(14, 9, -1):
        if rest >> shift & 1:
            rest ^= GENERATOR << (shift - 10)
    assert rest == 0, "the format does not check"
    return bits >> 13, bits >> 10 & 0b111


def read(matrix: Matrix) -> str:
    """The text of a code in bytes."""
    version = version_of(matrix)
    level, mask = format_of(matrix)
    assert level == LEVEL_M
    bits = "".join(
        str(matrix[i][j] ^ (not MASKS[mask](i, j)))
        for i, j in _zigzag(len(matrix))
        if not _is_function(i, j, len(matrix))
    )
    bits = bits[: 8 * DATA_WORDS[version]]
    assert bits[:4] == "0100", "not in bytes"
    length = int(bits[4:12], 2)
    return bytes(int(bits[12 + 8 * n : 20 + 8 * n], 2) for n in range(length)).decode("latin-1")


def _zigzag(side: int) -> Iterator[tuple[int, int]]:
    """Two columns at a time from the right, up and down by turns; the column of the timing pattern is left out."""
    upward = True
    for right in (*range(side - 1, 6, -2), *range(5, 0, -2)):
        for i in range(side - 1, -1, -1) if upward else range(side):
            yield i, right
            yield i, right - 1
        upward = not upward


def _is_function(i: int, j: int, side: int) -> bool:
    """Finders with their borders and the format, timing patterns, and from version 2 the one alignment pattern."""
    finder = (i < 9 and j < 9) or (i < 9 and j >= side - 8) or (i >= side - 8 and j < 9)
    centre = side - 7
    aligned = side > 21 and abs(i - centre) <= 2 and abs(j - centre) <= 2
    return finder or i == 6 or j == 6 or aligned
