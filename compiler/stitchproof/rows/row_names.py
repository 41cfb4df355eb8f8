"""Rows by their numbers and names: Row 2, Rnds 3 and 4, Rows 2–5, Hip Inc Rnd, V Row 1 (RS)."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Amount, RowNumbers, Stretch

_NAME_WORDS = 4
_BETWEEN = frozenset({"and", "&", ",", "to", "through", "-"})
ROW_WORDS = frozenset({"row", "rnd", "r"})


def name_length(reader: Reader, ahead: int = 0) -> int:
    """How many lexemes the name of a row takes up to its "row" or "rnd", that one included; 0 where none comes next."""
    for length in range(_NAME_WORDS + 1):
        lexeme = reader.peek(ahead + length)
        if lexeme.word in ROW_WORDS and lexeme.kind == "word":
            return length + 1
        if lexeme.kind not in ("word", "stitch") or lexeme.word in (
            "rep",
            "on",
            "in",
            "of",
            "then",
            "every",
            "until",
            "last",
            "next",
        ):
            return 0
    return 0


def at_row_numbers(reader: Reader, ahead: int = 0) -> bool:
    """Whether a named or plain "Row" with a number comes next, or "2nd row", "2nd and 3rd rows"."""
    length = name_length(reader, ahead)
    if _ordinals(reader, ahead):
        return True
    return (
        bool(length) and reader.peek(ahead + length).kind in ("number", "ordinal") and not _times(reader, ahead, length)
    )


def _times(reader: Reader, ahead: int, length: int) -> bool:
    """Whether the number behind the name of a row is how often it is worked: "Dec Row 3 times"."""
    return length > 1 and reader.peek(ahead + length).kind == "number" and _counts(reader, ahead + length)


def read_row_numbers(reader: Reader) -> RowNumbers:
    """Row 2, Rows 2 and 3, Rows 2–5, Hem Rnd 2. Stops where none comes next."""
    first = reader.position
    if _ordinals(reader, 0):
        return _by_ordinals(reader)
    length = name_length(reader)
    if not length:
        raise reader.stop()
    for _ in range(length):
        reader.take()
    word = reader.text(reader.stretch(first))
    return numbers_of(reader, first, word)


def _ordinals(reader: Reader, ahead: int) -> int:
    """How many lexemes "2nd row", "2nd and 3rd rows" or "2nd to 5th rows" take; 0 where none of them comes next."""
    length = 0
    while reader.peek(ahead + length).kind == "ordinal":
        after = reader.peek(ahead + length + 1)
        if after.word in ROW_WORDS and after.kind == "word":
            return length + 2
        if after.word not in _BETWEEN:
            return 0
        length += 2
    return 0


def _by_ordinals(reader: Reader) -> RowNumbers:
    first, length = reader.position, _ordinals(reader, 0)
    taken = [reader.take() for _ in range(length)]
    numbers = [
        Amount(reader.line.scalar(each.number), Stretch(each.start, each.end))
        for each in taken
        if each.kind == "ordinal"
    ]
    word, at = reader.text(Stretch(taken[-1].start, taken[-1].end)), reader.stretch(first)
    if len(numbers) == 2 and taken[1].word not in ("and", "&"):
        return RowNumbers(word, numbers[0], numbers[1], (), at)
    if len(numbers) > 1:
        return RowNumbers(word, None, None, tuple(numbers), at)
    return RowNumbers(word, numbers[0], numbers[0], (), at)


def numbers_of(reader: Reader, first: int, word: str) -> RowNumbers:
    """The numbers behind the word of rows."""
    begin = reader.number()
    if begin is None:
        raise reader.stop()
    if reader.word in ("-", "to", "through", "a", "--") and _second_number(reader):
        reader.take()
        name = name_length(reader)
        for _ in range(name):
            reader.take()
        last = reader.number()
        reader.accept("inclusive")
        return RowNumbers(word, begin, last, (), reader.stretch(first))
    listed = [begin]
    while reader.word in (",", "and", "&") and _is_listed(reader):
        while reader.word in (",", "and", "&"):
            reader.take()
        name = name_length(reader)
        for _ in range(name):
            reader.take()
        number = reader.number()
        if number is None:
            raise reader.stop()
        listed.append(number)
    if len(listed) > 1:
        return RowNumbers(word, None, None, tuple(listed), reader.stretch(first))
    return RowNumbers(word, begin, begin, (), reader.stretch(first))


def _second_number(reader: Reader) -> bool:
    ahead = 1 + name_length(reader, 1)
    return reader.peek(ahead).kind == "number" and not _counts(reader, ahead)


def _is_listed(reader: Reader) -> bool:
    ahead = 1
    while reader.peek(ahead).word in ("and", "&"):
        ahead += 1
    ahead += name_length(reader, ahead)
    return reader.peek(ahead).kind == "number" and not _counts(reader, ahead)


def _counts(reader: Reader, ahead: int) -> bool:
    """Whether a number is one of stitches, not of a row."""
    after = reader.peek(ahead + 1)
    return after.kind == "stitch" or after.word in ("st", "ch", "chsp", "sk", "x", "times", "more")


def named_row(reader: Reader) -> str:
    """A row by its name alone ("Dec Row"); "" where none comes next. Takes it."""
    first = reader.position
    length = name_length(reader)
    if length < 2 or (reader.peek(length).kind == "number" and not _times(reader, 0, length)):
        return ""
    for _ in range(length):
        reader.take()
    return reader.text(reader.stretch(first))


def read_side(reader: Reader) -> str:
    """RS or WS, in brackets or not; "" where neither comes next."""
    bracket = reader.opens and reader.peek(1).word in ("rs", "ws")
    if bracket and reader.peek(2).word in (")", "]"):
        reader.take()
        side = reader.take().word.upper()
        reader.take()
        return side
    return ""


def as_amount(reader: Reader) -> Amount | None:
    """A number or an ordinal ("every 4th row") as a number."""
    if reader.kind == "ordinal":
        lexeme = reader.take()
        return Amount(reader.line.scalar(lexeme.number), Stretch(lexeme.start, lexeme.end))
    return reader.number()
