"""A row's stated count: in its one printed form, and once only.

"(64 (72, 80) sc)" becomes "— 64 (72, 80) sc", so that no bracket stands in a bracket and every row closes alike. Common
practice, no source.
"""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.expansion.document import Inline, Number, Part, Role, Text, Token, Word


def counts_after_dash(inlines: tuple[Inline, ...]) -> tuple[Inline, ...]:
    """The row with each bracket that opens on a stated count taken away and an em dash before the count."""
    row = list(inlines)
    for place, inline in enumerate(row[1:], 1):
        opening = row[place - 1]
        if not isinstance(inline, Number) or inline.role is not Role.STATED_COUNT or not isinstance(opening, Text):
            continue
        closing = _closing(row, place)
        if closing is not None and opening.text.endswith("("):
            row[place - 1] = replace(opening, text=f"{opening.text[:-1]}— ")
            row[closing] = _without_first_bracket(row[closing])
    return tuple(row)


def without_repeated_counts(parts: list[Part], size: int) -> list[Part]:
    """The parts of a step as one size works it, less those that only state the count that was stated just before."""
    kept: list[Part] = []
    stated = ""
    for part in parts:
        before, count = _words_and_count(part.tokens, size)
        if before or not count or count != stated:
            kept.append(part)
            stated = count
    return kept


def _words_and_count(tokens: tuple[Token, ...], size: int) -> tuple[str, str]:
    """What a size reads in a part before its last dash or opening bracket with a stated count, and the count itself."""
    row = counts_after_dash(tokens)
    counts = [at for at, token in enumerate(row) if isinstance(token, Number) and token.role is Role.STATED_COUNT]
    starts = [at for at in counts if at == 0 or _as_read(row[at - 1], size).rstrip().endswith("—")]
    start = starts[-1] if starts else len(row)
    before, count = ("".join(_as_read(token, size) for token in each) for each in (row[:start], row[start:]))
    return before.rstrip(" —"), " ".join(count.split()).rstrip(".")


def _as_read(token: Inline, size: int) -> str:
    match token:
        case Text(text=text) | Word(as_written=text):
            return text
        case Number(values=values):
            return str(values[size])
        case _:
            return ""


def _closing(row: list[Inline], place: int) -> int | None:
    """Where the text stands that closes the bracket before a place; None if another opens first."""
    for after in range(place + 1, len(row)):
        inline = row[after]
        brackets = [sign for sign in inline.text if sign in "()"] if isinstance(inline, Text) else []
        if brackets:
            return after if brackets[0] == ")" else None
    return None


def _without_first_bracket(inline: Inline) -> Inline:
    return replace(inline, text=inline.text.replace(")", "", 1)) if isinstance(inline, Text) else inline
