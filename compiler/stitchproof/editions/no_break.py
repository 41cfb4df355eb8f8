"""Where a printed line must not break: between number and unit, inside "ch 1" and sc-blo, before the count that closes a row.

Common practice, no source.
"""

from __future__ import annotations

import re
from itertools import pairwise

from msgspec.structs import replace

from stitchproof.editions.print_document import NO_BREAK, PlainText, PrintInline, Unbroken, Vector

_BLANKS = re.compile(r"\s+")
_NUMBER_AND_UNIT = re.compile(r"(?<=[0-9½¼¾⅓⅔⅛]) (?=[^\W\d_])")
_SLIP_STITCH = re.compile(r"(?i)(?<=\bsl) (?=sts?\b)")
_CHAINS = re.compile(r"(?i)(?<=\bch) (?=[0-9])")
_CHAINS_BEFORE = re.compile(r"(?i)\bch $")
"""Chains whose number is a vector: ch 12 (14, 16)."""
_NAMED_NUMBER = re.compile(r"(?i)(?<!\dst )(?<!\dnd )(?<!\drd )(?<!\dth )\b((?:row|rnd|round|size|rep)s?) (?=[0-9]|$)")
"""Row 4, but not "every 2nd row 4 more times"."""
_BEFORE_STAR = re.compile(r" (?=\*)")
_COUNT_DASH = re.compile(r" ?— ?(?=\S|$)")
_HYPHENED = re.compile(r"(\w+(?:-\w+)+)")
_SHORT_HYPHENED = re.compile(r"(\b\w{1,3}-\w+)")


def one_line(text: str) -> str:
    """Text with every run of blanks and line ends as one blank."""
    return _BLANKS.sub(" ", text)


def held(text: str) -> str:
    """Text that no line may break."""
    return text.replace(" ", NO_BREAK)


def hold_prose(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """Numbers kept with the word that follows them, and short words with hyphens whole: ch-1 sp."""
    return _whole_words(_hold_vectors(_with_units(inlines)), _SHORT_HYPHENED)


def hold_row(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """A row's text: as prose, and besides the closing count kept with the last word, and words with hyphens whole."""
    row = (
        PlainText(_row_text(inline.text)) if isinstance(inline, PlainText) else inline
        for inline in _hold_vectors(_with_units(inlines))
    )
    return _whole_words(tuple(row), _HYPHENED)


def _with_units(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    return tuple(
        replace(
            inline, text=_CHAINS.sub(NO_BREAK, _SLIP_STITCH.sub(NO_BREAK, _NUMBER_AND_UNIT.sub(NO_BREAK, inline.text)))
        )
        if isinstance(inline, PlainText)
        else inline
        for inline in inlines
    )


def _row_text(text: str) -> str:
    text = _NAMED_NUMBER.sub(rf"\1{NO_BREAK}", text)
    text = _BEFORE_STAR.sub(NO_BREAK, text)
    return _COUNT_DASH.sub(f"{NO_BREAK}—{NO_BREAK}", text)


def _whole_words(inlines: tuple[PrintInline, ...], hyphened: re.Pattern[str]) -> tuple[PrintInline, ...]:
    """Each word with hyphens an inline of its own. hyphened: such a word, as the pattern's one group."""
    whole: list[PrintInline] = []
    for inline in inlines:
        if isinstance(inline, PlainText):
            pieces = enumerate(hyphened.split(inline.text))
            whole.extend(Unbroken(piece) if index % 2 else PlainText(piece) for index, piece in pieces if piece)
        else:
            whole.append(inline)
    return tuple(whole)


def _hold_vectors(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """The blank between a vector and the word after it, and the one between "ch" and its number."""
    if not inlines:
        return inlines
    after = [inlines[0]]
    for before, inline in pairwise(inlines):
        if isinstance(before, Vector) and isinstance(inline, PlainText) and re.match(r" [^\W\d_]", inline.text):
            inline = PlainText(NO_BREAK + inline.text[1:])
        last = after[-1]
        if isinstance(inline, Vector) and isinstance(last, PlainText) and _CHAINS_BEFORE.search(last.text):
            after[-1] = replace(last, text=last.text[:-1] + NO_BREAK)
        after.append(inline)
    return tuple(after)
