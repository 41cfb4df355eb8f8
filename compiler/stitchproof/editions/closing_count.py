"""A row's stated count in its one printed form: "(64 (72, 80) sc)" becomes "— 64 (72, 80) sc".

So that no bracket stands in a bracket, and every row closes alike. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from stitchproof.expansion.document import Inline, Number, Role, Text


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
