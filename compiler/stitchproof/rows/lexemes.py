"""Cuts a line into lexemes: numbers with one value per size, ordinals, stitches, words and signs."""

from __future__ import annotations

import re

from msgspec import Struct

from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import PerSize
from stitchproof.rows.line import Line
from stitchproof.rows.number_words import NUMBERS, ORDINALS, TIMES
from stitchproof.rows.row_words import RowWords, StitchWord
from stitchproof.rows.vectors import folded

_RAW = LatePattern(
    r"""(?P<tog>[^\W\d_]+\d+tog)(?![^\W_])
    |(?P<length>\d+(?:\.\d+|\s?[½¼¾]|\s\d/\d)|[½¼¾]|\d+/\d+)
    |(?P<ordinal>\d+(?:st|nd|rd|th|d))(?![^\W_])
    |(?P<number>\d+)
    |(?P<word>w/(?=\s)|[^\W\d_]+(?:['’][^\W\d_]+)?)
    |(?P<sign>\*\*|=>|\S)""",
    re.VERBOSE | re.IGNORECASE,
)
_SIGNS = {
    "–": "-",
    "−": "-",
    "—": "--",
    "=>": "=",
    "×": "x",
    "{": "[",
    "}": "]",
    "<": "[",
    ">": "]",
    "“": '"',
    "”": '"',
}
_SHORT = frozenset([
    "ch", "st", "sts", "sp", "sps", "lp", "lps", "rep", "rnd", "rnds", "sk", "beg", "tch", "tog", "rem", "inc",
    "dec", "cont", "foll", "sc", "dc", "hdc", "tr", "htr", "dtr", "s", "c", "d",
])  # fmt: skip


class Lexeme(Struct):
    """One lexeme. kind: "number", "length", "ordinal", "stitch", "word", "sign" or "end".

    word: the word as the trade's dictionary has it (`sk` for skip, miss and omit), the id of a stitch, a sign, or "".
    values: of a number, one per size. glued: a hyphen binds it to the lexeme before it. spaced: a blank stands before it.
    """

    kind: str
    word: str
    start: int
    end: int
    values: PerSize | None = None
    glued: bool = False
    spaced: bool = True
    stitch: StitchWord | None = None
    capital: bool = False

    @property
    def number(self) -> int:
        """Of an ordinal, which."""
        return int(self.word)


def lexemes_of(line: Line, words: RowWords) -> list[Lexeme]:
    """The lexemes of a line, its vectors folded into one number each."""
    raw = _without_dots(_raw(line))
    return folded(_named(raw, words, line), line)


def _raw(line: Line) -> list[Lexeme]:
    found: list[Lexeme] = []
    ends = 0
    for match in _RAW.finditer(line.text):
        kind, text = match.lastgroup or "sign", match[0]
        start, end = match.span()
        lexeme = Lexeme(kind, text.lower(), start, end, spaced=start > ends or start == 0, capital=text[:1].isupper())
        if kind == "number":
            lexeme.values = line.scalar(int(text)) if len(text) < 10 else None
            lexeme.kind = "number" if len(text) < 10 else "sign"
        elif start in line.numbers:
            lexeme.kind = "length" if line.numbers[start].is_length else "number"
            lexeme.values = line.numbers[start].values
        elif kind == "sign":
            lexeme.word = _SIGNS.get(text, text)
        found.append(lexeme)
        ends = end
    return _unhyphenated(found)


def _unhyphenated(raw: list[Lexeme]) -> list[Lexeme]:
    """Without the hyphens inside words (ch-1, row-end, sc-blo); those between two numbers are dashes."""
    found: list[Lexeme] = []
    for index, lexeme in enumerate(raw):
        before = found[-1] if found else None
        after = raw[index + 1] if index + 1 < len(raw) else None
        if lexeme.word == "-" and before and after and not lexeme.spaced and not after.spaced:
            kinds = (before.kind, after.kind)
            if "sign" not in kinds and kinds.count("number") < 2:
                after.glued = True
                continue
        found.append(lexeme)
    return found


def _without_dots(raw: list[Lexeme]) -> list[Lexeme]:
    """Without the full stops of abbreviations (s.c., ch. 3, sl.st.); those that end a sentence stay."""
    found: list[Lexeme] = []
    for index, lexeme in enumerate(raw):
        before = found[-1] if found else None
        after = raw[index + 1] if index + 1 < len(raw) else None
        if lexeme.word == "." and before and before.kind == "word" and not lexeme.spaced and after:
            glued = not after.spaced and after.kind == "word"
            goes_on = before.word in _SHORT and (
                (after.kind == "word" and not after.capital) or after.word in {",", ";", ")", "]", "."}
            )
            if glued or goes_on or (before.word == "ch" and after.kind == "number" and not _is_place(found)):
                continue
        found.append(lexeme)
    return found


def _is_place(found: list[Lexeme]) -> bool:
    """Whether the "ch" that was found last is one that is worked into: "in last ch." ends a sentence."""
    before = found[-2] if len(found) > 1 else None
    return before is not None and (
        before.kind == "ordinal" or before.word in ("last", "next", "each", "every", "first")
    )


def _named(raw: list[Lexeme], words: RowWords, line: Line) -> list[Lexeme]:
    """Words joined into the phrases of the trade, and given the name that the dictionary has for them."""
    found: list[Lexeme] = []
    index = 0
    while index < len(raw):
        lexeme = raw[index]
        if lexeme.kind in ("word", "tog") or (lexeme.kind == "ordinal" and _phrase(raw, index, words)[0] > 1):
            length, named = _phrase(raw, index, words)
            if length:
                lexeme = _joined(raw[index : index + length], named)
                index += length - 1
            else:
                _name_word(lexeme, line)
        elif lexeme.kind == "ordinal":
            _name_ordinal(lexeme, line)
        found.append(lexeme)
        index += 1
    return _together(found, words)


def _phrase(raw: list[Lexeme], index: int, words: RowWords) -> tuple[int, StitchWord | str | None]:
    """The longest phrase of the dictionary that starts here: how many lexemes, and what it is."""
    for length in range(min(words.longest(raw[index].word), len(raw) - index), 0, -1):
        part = raw[index : index + length]
        if all(each.kind in ("word", "tog", "number", "ordinal") for each in part):
            named = words.find(tuple(each.word for each in part), part[0].capital)
            if named is not None:
                return length, named
    return (0, None) if raw[index].kind != "tog" else (1, raw[index].word)


def _joined(part: list[Lexeme], named: StitchWord | str | None) -> Lexeme:
    first, last = part[0], part[-1]
    is_stitch = isinstance(named, StitchWord)
    word = named.id if isinstance(named, StitchWord) else str(named)
    return Lexeme(
        "stitch" if is_stitch else "word",
        word,
        first.start,
        last.end,
        None,
        first.glued,
        first.spaced,
        named if isinstance(named, StitchWord) else None,
        first.capital,
    )


def _name_word(lexeme: Lexeme, line: Line) -> None:
    if lexeme.word in NUMBERS:
        lexeme.kind, lexeme.values = "number", line.scalar(NUMBERS[lexeme.word])
    elif lexeme.word in ORDINALS:
        lexeme.kind, lexeme.word = "ordinal", str(ORDINALS[lexeme.word])
    elif lexeme.word in TIMES:
        lexeme.kind, lexeme.values, lexeme.word = "word", line.scalar(TIMES[lexeme.word]), "twice"


def _name_ordinal(lexeme: Lexeme, line: Line) -> None:
    digits = "".join(each for each in lexeme.word if each.isdigit())
    ending = lexeme.word[len(digits) :]
    if ending == "st" and (digits[-1] != "1" or digits.endswith("11")):
        # "24st" is 24 sts, not the 24th; of "21st" nobody can tell.
        lexeme.kind, lexeme.values, lexeme.word = "number", line.scalar(int(digits)), ""
        lexeme.end -= 2
    else:
        lexeme.word = digits if len(digits) < 10 else "0"


def _together(found: list[Lexeme], words: RowWords) -> list[Lexeme]:
    """ "sc 2 tog" in one; "sc blo" and "blo sc" glued together stay two, as a reader reads them."""
    joined: list[Lexeme] = []
    for lexeme in found:
        if lexeme.word == "tog" and len(joined) > 1 and joined[-1].kind == "number" and joined[-2].kind == "stitch":
            values = joined[-1].values or ()
            stitch = words.together(joined[-2].word, str(values[0])) if values else None
            if stitch is not None:
                first = joined[-2]
                del joined[-2:]
                lexeme = Lexeme(
                    "stitch", stitch.id, first.start, lexeme.end, None, first.glued, first.spaced, stitch, first.capital
                )
        joined.append(lexeme)
    return joined
