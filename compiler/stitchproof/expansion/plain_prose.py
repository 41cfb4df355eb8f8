"""Prose without Markdown's signs, as most is: paragraphs and headings of nothing but words and numbers.

Markdown would leave their words as they are, so it need not read them, nor be loaded at all. What might be a sign is left to it.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from stitchproof.expressions import expression
from stitchproof.reading.marks import SLOT

_SIGN = expression(r"[\\`*_\[\]<>&|~\r\n\t\0]")
"""What can be a sign inside a line, and what Markdown itself would change or take out."""
_WORDS = expression(rf"(?!\d+[.)])[^\W_{SLOT}]|[{SLOT}(½¼¾⅓⅔⅛]")
"""How a line of words begins; any other beginning may be that of a list, a quotation, a rule or the line below a heading."""
_HEADING = expression(r"(#{1,6}) +([^#\s](?:[^#]*[^#\s])?)")


class Stretch(Struct, frozen=True):
    """Lines of one block, from `first` to before `end`. level: of a heading, 0 for a paragraph. words: of each line."""

    first: int
    end: int
    level: int
    words: tuple[str, ...]


def is_plain(line: str) -> bool:
    """Whether a line of words means to Markdown no more than it says."""
    return not _SIGN.search(line)


def plain_stretches(lines: Sequence[str]) -> tuple[Stretch, ...] | None:
    """The paragraphs and headings of lines that are plain; None where Markdown must read them."""
    found: list[Stretch] = []
    paragraph = 0
    for number, line in enumerate(lines):
        heading = _HEADING.fullmatch(line)
        if not is_plain(line) or not (not line or heading or (_WORDS.match(line) and not line[-1].isspace())):
            return None
        if not line or heading:
            _add_paragraph(found, lines, paragraph, number)
            paragraph = number + 1
        if heading:
            found.append(Stretch(number, number + 1, len(heading[1]), (heading[2],)))
    _add_paragraph(found, lines, paragraph, len(lines))
    return tuple(found)


def _add_paragraph(found: list[Stretch], lines: Sequence[str], first: int, end: int) -> None:
    if first < end:
        found.append(Stretch(first, end, 0, tuple(lines[first:end])))
