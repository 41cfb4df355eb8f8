"""Where a printed line must not break: between number and unit, before the count that closes a row, inside sc-blo.

Common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from stitchproof.editions.print_document import NO_BREAK, PlainText, PrintInline, Unbroken, Vector

_BLANKS = re.compile(r"\s+")
_NUMBER_AND_UNIT = re.compile(r"(?<=[0-9½¼¾⅓⅔⅛]) (?=[^\W\d_])")
_NAMED_NUMBER = re.compile(r"(?i)\b((?:row|rnd|round|size|rep)s?) (?=[0-9]|$)")
_BEFORE_STAR = re.compile(r" (?=\*)")
_COUNT_DASH = re.compile(r" ?— ?(?=\S|$)")
_HYPHENED = re.compile(r"(\w+(?:-\w+)+)")


def one_line(text: str) -> str:
    """Text with every run of blanks and line ends as one blank."""
    return _BLANKS.sub(" ", text)


def held(text: str) -> str:
    """Text that no line may break."""
    return text.replace(" ", NO_BREAK)


def hold_prose(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """Numbers kept with the word that follows them."""
    inlines = tuple(
        replace(inline, text=_NUMBER_AND_UNIT.sub(NO_BREAK, inline.text)) if isinstance(inline, PlainText) else inline
        for inline in inlines
    )
    return _hold_vectors(inlines)


def hold_row(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """A row's text: as prose, and besides the closing count kept with the last word, and words with hyphens whole."""
    held_inlines: list[PrintInline] = []
    for inline in hold_prose(inlines):
        held_inlines.extend(_row_text(inline.text) if isinstance(inline, PlainText) else (inline,))
    return tuple(held_inlines)


def _row_text(text: str) -> list[PrintInline]:
    text = _NAMED_NUMBER.sub(rf"\1{NO_BREAK}", text)
    text = _BEFORE_STAR.sub(NO_BREAK, text)
    text = _COUNT_DASH.sub(f"{NO_BREAK}—{NO_BREAK}", text)
    pieces = enumerate(_HYPHENED.split(text))
    return [Unbroken(piece) if index % 2 else PlainText(piece) for index, piece in pieces if piece]


def _hold_vectors(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """The blank between a vector and the word after it."""
    if not inlines:
        return inlines
    after = [inlines[0]]
    for before, inline in pairwise(inlines):
        if isinstance(before, Vector) and isinstance(inline, PlainText) and re.match(r" [^\W\d_]", inline.text):
            inline = PlainText(NO_BREAK + inline.text[1:])
        after.append(inline)
    return tuple(after)
