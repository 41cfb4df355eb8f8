"""Numbers typed out for every size, in the forms of the trade, folded into one number: 72 (76, 80, 84)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.rows.line import Line

if TYPE_CHECKING:
    from stitchproof.rows.lexemes import Lexeme

_OPEN = {"(": ")", "[": "]"}
_BETWEEN = frozenset({",", "-", ":", "/", ";"})
_STARTS = frozenset({"(", "[", "-", "--"})
_NOT_WORKED = frozenset({"-", "--", "x", "n/a", "na"})


def folded(lexemes: list[Lexeme], line: Line) -> list[Lexeme]:
    """The lexemes with each vector that has a number for every size made one number."""
    arity = len(line.sizes)
    if arity < 2:
        return lexemes
    found: list[Lexeme] = []
    index = 0
    while index < len(lexemes):
        lexeme = lexemes[index]
        starts = lexeme.kind == "number" or (lexeme.kind == "sign" and lexeme.word in _STARTS)
        length, values = _vector(lexemes, index, arity) if starts else (0, ())
        if length:
            last = lexemes[index + length - 1]
            lexeme.kind, lexeme.word, lexeme.values, lexeme.end = "number", "", values, last.end
            index += length - 1
        found.append(lexeme)
        index += 1
    return found


def _vector(lexemes: list[Lexeme], index: int, arity: int) -> tuple[int, PerSize]:
    """How many lexemes the vector that starts here has, and its values; 0 where there is none of the right arity."""
    for reader in (_bracketed, _listed):
        end, values = reader(lexemes, index, arity)
        if len(values) == arity:
            return end - index, tuple(values)
    return 0, ()


def _bracketed(lexemes: list[Lexeme], index: int, arity: int) -> tuple[int, list[Value]]:
    """72 (76, 80) (84), 60 (66) 66 (72) 72, (58, 64, 70), glued or not."""
    values: list[Value] = []
    brackets, here = 0, index
    while here < len(lexemes) and len(values) < arity:
        lexeme = lexemes[here]
        if lexeme.word in _OPEN:
            end, inside = _inside(lexemes, here, arity - len(values))
            if not inside:
                break
            values += inside
            brackets, here = brackets + 1, end
        elif here == index and lexeme.word in ("-", "--") and lexeme.kind == "sign":
            values.append(Absent.NOT_WORKED)
            here += 1
        elif _is_one(lexeme) and (not values or lexemes[here - 1].word in (")", "]")):
            values.append(_one(lexeme))
            here += 1
        else:
            break
    return (here, values) if brackets else (index, [])


def _inside(lexemes: list[Lexeme], index: int, most: int) -> tuple[int, list[Value]]:
    """The values of one bracket, and where it ends; none where something else stands in it."""
    values: list[Value] = []
    close, here = _OPEN[lexemes[index].word], index + 1
    while here + 1 < len(lexemes) and len(values) < most:
        lexeme, after = lexemes[here], lexemes[here + 1]
        if not _is_one(lexeme) and lexeme.word not in _NOT_WORKED:
            return index, []
        values.append(_one(lexeme))
        if after.word == close:
            return here + 2, values
        if after.word not in _BETWEEN:
            return index, []
        here += 2
    return index, []


def _listed(lexemes: list[Lexeme], index: int, arity: int) -> tuple[int, list[Value]]:
    """48-54-60, or 30, 34 or 38; two numbers with a dash only behind "=", since they may be a range."""
    values: list[Value] = []
    here = index
    while here < len(lexemes) and _is_one(lexemes[here]):
        values.append(_one(lexemes[here]))
        here += 1
        if len(values) == arity:
            break
        between = lexemes[here].word if here < len(lexemes) else ""
        if between not in ("-", ",", "or", "and"):
            break
        here += 1
    if arity == 2 and not (index and lexemes[index - 1].word in ("=", "--")):
        return index, []
    signs = {lexemes[each].word for each in range(index + 1, here, 2)} if len(values) == arity else set()
    ends_with_or = len(values) == arity and arity > 2 and lexemes[here - 2].word in ("or", "and")
    return (here, values) if signs == {"-"} or ends_with_or else (index, [])


def _is_one(lexeme: Lexeme) -> bool:
    """A number that is the same for all sizes."""
    if lexeme.kind != "number" or not lexeme.values:
        return False
    first = lexeme.values[0]
    return all(each is first or each == first for each in lexeme.values)


def _one(lexeme: Lexeme) -> Value:
    return lexeme.values[0] if lexeme.values and lexeme.kind == "number" else Absent.NOT_WORKED
