"""What each number of a step does: it numbers the row, counts times, or states how many stitches there are at the end."""

from __future__ import annotations

import re

from msgspec.structs import replace

from stitchproof.expansion.document import Block, Number, Part, Passage, Piece, Role, Step, Text, Times, Token
from stitchproof.expressions import expression

_TIMES = expression(r"\s*(?:more\s+)?times?\b")
_NOUN = expression(r"\s*(?:more\s+)?(?P<noun>[^\W\d_]+)")


def with_roles(piece: Piece) -> Piece:
    """A piece with the numbers of its steps told apart."""
    return replace(piece, blocks=_blocks(piece.blocks))


def _blocks(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    return tuple(_block(block) for block in blocks)


def _block(block: Block) -> Block:
    match block:
        case Step():
            label = tuple(
                replace(token, role=Role.ROW_NUMBER) if isinstance(token, Number) else token for token in block.label
            )
            return replace(block, label=label, parts=tuple(_part(part) for part in block.parts))
        case Passage() | Times():
            return replace(block, blocks=_blocks(block.blocks))
        case _:
            return block


def _part(part: Part) -> Part:
    stated = _states_counts(part.tokens)
    return replace(part, tokens=tuple(_token(part.tokens, index, stated[index]) for index in range(len(part.tokens))))


def _token(tokens: tuple[Token, ...], index: int, states_a_count: bool) -> Token:
    token = tokens[index]
    if not isinstance(token, Number):
        return token
    after = _text(tokens, index + 1)
    noun = _NOUN.match(after)
    role = token.role
    if _TIMES.match(after):
        role = Role.TIMES
    elif states_a_count:
        role = Role.STATED_COUNT
    return replace(token, role=role, noun=token.noun or (noun["noun"] if noun else ""))


def _text(tokens: tuple[Token, ...], index: int) -> str:
    token = tokens[index] if 0 <= index < len(tokens) else None
    return token.text if isinstance(token, Text) else ""


def _states_counts(tokens: tuple[Token, ...]) -> list[bool]:
    """Of each token, whether an em dash, or a bracket that holds a count and a noun, opens just before it.

    A number that follows such a one behind a comma states a count as well.
    """
    stated: list[bool] = []
    for index in range(len(tokens)):
        before, after = _text(tokens, index - 1), _text(tokens, index + 1)
        dash = before.rfind("—") > max(before.rfind("."), before.rfind(";"))
        listed = index > 1 and before.rstrip().endswith(",") and stated[index - 2]
        bracketed = before.endswith("(") and re.match(r"\s*[^\W\d_][\w -]*\)", after) is not None
        stated.append(dash or listed or bracketed)
    return stated
