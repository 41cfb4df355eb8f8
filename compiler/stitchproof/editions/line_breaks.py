"""Where a line may end when what is held together is longer than a line: the weakest holds give way first.

From the strongest hold to the weakest: the dash before a count; words; numbers in one bracket; the first number and
the first bracket; a number and its noun; brackets; a row's last word and its count. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, pairwise

from msgspec.structs import replace

from stitchproof.editions.print_document import (
    NO_BREAK,
    WORD_JOINER,
    EmphasisText,
    LinkText,
    PlainText,
    PrintInline,
    StrongText,
    TextForSizes,
    Unbroken,
    UnitText,
    Vector,
)

Leaf = PlainText | Unbroken | Vector
NARROW = frozenset(" \u00a0,.;:'’|!()[]/-ijlftr")
WIDE = frozenset("—mwMW½¼¾⅓⅔⅛@%")
COUNT_DASH = "—"
AFTER_DASH, WORDS, IN_BRACKET, FIRST_BRACKET, NOUN, BRACKETS, BEFORE_DASH = range(7)
"""How firmly a no-break space holds: the smaller, the firmer."""


def fit_line(line: tuple[PrintInline, ...], room: int) -> tuple[PrintInline, ...]:
    """The line with no-break spaces made plain ones until nothing held together is wider than the room.

    room: what a line holds, in figures. The words stay as they are. A blank never ends the text before another element,
    because the printer of pages then finds no good place to break that text.
    """
    line = tuple(_breakable(inline, room) for inline in line)
    leaves = tuple(_leaves(line))
    text = _loosened(leaves, 2 * room)
    ends = [0, *accumulate(len(leaf.text) for leaf in leaves)]
    for place, after in enumerate(leaves[1:], 1):
        if not isinstance(after, Vector) and text[: ends[place]].endswith(NO_BREAK) and ends[place] > ends[place - 1]:
            ends[place] -= 1
    texts = [text[start:end] for start, end in pairwise(ends)]
    return _rebuilt(line, iter(texts))


@lru_cache(16384)
def half_figures(text: str) -> int:
    """About how wide a text is, in halves of the width of a figure."""
    return sum(1 if sign in NARROW else 3 if sign in WIDE else 2 for sign in text if sign != WORD_JOINER)


def _breakable(inline: PrintInline, room: int) -> PrintInline:
    """Words with hyphens stay whole only while a line holds them. What only some sizes read is a line of its own."""
    if isinstance(inline, TextForSizes):
        return replace(inline, inlines=fit_line(inline.inlines, room))
    too_long = isinstance(inline, Unbroken) and half_figures(inline.text) > 2 * room
    return PlainText(inline.text) if isinstance(inline, Unbroken) and too_long else inline


def _leaves(line: tuple[PrintInline, ...]) -> Iterator[Leaf]:
    for inline in line:
        match inline:
            case StrongText() | EmphasisText() | LinkText() | UnitText():
                yield from _leaves(inline.inlines)
            case TextForSizes():
                pass
            case _:
                yield inline


def _rebuilt(line: tuple[PrintInline, ...], texts: Iterator[str]) -> tuple[PrintInline, ...]:
    """The line with the next of the texts in each of its leaves."""
    rebuilt: list[PrintInline] = []
    for inline in line:
        match inline:
            case TextForSizes():
                rebuilt.append(inline)
            case StrongText() | EmphasisText() | LinkText() | UnitText():
                rebuilt.append(replace(inline, inlines=_rebuilt(inline.inlines, texts)))
            case Vector():
                blanks = [sign for sign in next(texts) if sign in (" ", NO_BREAK)]
                rebuilt.append(replace(inline, breaks=tuple(at for at, sign in enumerate(blanks) if sign == " ")))
            case _:
                rebuilt.append(replace(inline, text=next(texts)))
    return tuple(rebuilt)


def _loosened(leaves: Sequence[Leaf], room: int) -> str:
    """The text of the leaves, its blanks plain where a line may end. room: in halves of a figure."""
    text = "".join(leaf.text for leaf in leaves)
    if all(half_figures(run) <= room for run in text.split(" ")):
        return text
    blanks = [at for at, sign in enumerate(text) if sign in (" ", NO_BREAK)]
    holds = _holds(leaves, text)
    words = text.replace(NO_BREAK, " ").split(" ")
    # Each word begins as a run of its own; runs[word] is the (first, last) word of the run it belongs to.
    runs = [(word, word) for word in range(len(words))]
    held = [blank for blank, at in enumerate(blanks) if at in holds]
    for blank in sorted(held, key=lambda blank: holds[blanks[blank]]):
        first, last = runs[blank][0], runs[blank + 1][1]
        if half_figures(" ".join(words[first : last + 1])) <= room:
            runs[first] = runs[last] = (first, last)
            holds.pop(blanks[blank])
    return "".join(" " if at in holds else sign for at, sign in enumerate(text))


def _holds(leaves: Sequence[Leaf], text: str) -> dict[int, int]:
    """By place in the text: how firmly the no-break space there holds."""
    holds: dict[int, int] = {}
    start = 0
    after_vector = False
    for leaf in leaves:
        bracket = FIRST_BRACKET
        for at in range(start, start + len(leaf.text)):
            if text[at] != NO_BREAK:
                continue
            before, after = text[at - 1 : at], text[at + 1 : at + 2]
            if isinstance(leaf, Vector):
                holds[at] = IN_BRACKET if before == "," else bracket if after == "(" else NOUN
                bracket = BRACKETS if after == "(" else bracket
            elif COUNT_DASH in (before, after):
                holds[at] = AFTER_DASH if before == COUNT_DASH else BEFORE_DASH
            else:
                holds[at] = NOUN if at == start and after_vector else WORDS
        start += len(leaf.text)
        after_vector = isinstance(leaf, Vector)
    return holds
