"""On which rows something is worked: on body rnd 14, then every 6 rnds 3 more times; on next 5 rows."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_names import ROW_WORDS, as_amount, name_length, read_side
from stitchproof.rows.row_tree import Amount, OnRows, Stretch

_OTHERS = ("other", "row|rnd", "even")


def at_schedule(reader: Reader) -> bool:
    """Whether rows come next on which something is worked."""
    ahead = 0
    while reader.peek(ahead).word in (",", "then", "and"):
        ahead += 1
    word = reader.peek(ahead).word
    if word == "on":
        return reader.peek(ahead + 1).word in ("next", "each", "every", "the", "foll") or bool(
            name_length(reader, ahead + 1)
        )
    if word == "every":
        return reader.peek(ahead + 1).kind in ("number", "ordinal") or (
            reader.peek(ahead + 1).word in ("other", "row", "rnd", "alternate", "next")
        )
    return False


def read_schedule(reader: Reader) -> tuple[OnRows, ...]:
    """The rows, one OnRows for each "on …", its further steps with it."""
    found: list[OnRows] = []
    while at_schedule(reader):
        while reader.word in (",", "then", "and"):
            reader.take()
        first = reader.position
        on = run = None
        word = ""
        if reader.accept("on"):
            on, run, word = _on(reader)
        then = []
        while at_every(reader):
            then.append(_every(reader))
        found.append(OnRows(on, run, tuple(then), word, reader.stretch(first)))
    start = reader.position
    reader.accept(",")
    if not reader.accept(*_OTHERS):
        reader.position = start
    return tuple(found)


def at_every(reader: Reader) -> bool:
    """Whether "then every n rows" comes next."""
    ahead = 0
    while reader.peek(ahead).word in (",", "then", "and"):
        ahead += 1
    return reader.peek(ahead).word == "every" and reader.peek(ahead).kind == "word"


def _on(reader: Reader) -> tuple[Amount | None, Amount | None, str]:
    """The first row, or a run of next rows, and the word of the rows."""
    reader.accept("the")
    if reader.accept("next") or reader.accept("each", "of", "next") or reader.accept("each", "next"):
        run = reader.number()
        begin = reader.position
        if reader.word not in ROW_WORDS:
            raise reader.stop()
        reader.take()
        word = reader.text(reader.stretch(begin))
        read_side(reader)
        return None, run, "" if run else word
    begin = reader.position
    length = name_length(reader)
    if not length:
        raise reader.stop()
    for _ in range(length):
        reader.take()
    word = reader.text(reader.stretch(begin))
    on = as_amount(reader)
    if on is None:
        raise reader.stop()
    read_side(reader)
    return on, None, word


def _every(reader: Reader) -> tuple[Amount, Amount]:
    """ "then every 2nd row 3 more times": the step and the number of times."""
    while reader.word in (",", "then", "and"):
        reader.take()
    reader.take()
    reader.accept("next")
    step = as_amount(reader)
    if step is None:
        step = reader.unwritten(2 if reader.accept("other") or reader.accept("alternate") else 1)
    if reader.word not in ROW_WORDS:
        raise reader.stop()
    reader.take()
    times = reader.number()
    if times is None:
        lexeme = reader.peek()
        if lexeme.word != "twice" or lexeme.values is None:
            raise reader.stop()
        times = Amount(lexeme.values, Stretch(lexeme.start, lexeme.end))
        reader.take()
    more = reader.accept("more") or reader.accept("further")
    if not (reader.accept("times") or more):
        raise reader.stop()
    more = reader.accept("more") or more
    if not more:
        # "every 4th row 5 times" is read in two ways in print, and cannot be settled without the count.
        raise reader.stop()
    return step, times
