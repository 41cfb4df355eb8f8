"""Rows told by other rows: Rep Row 2 until …, as Row 8, work even, shaping on certain rows, evenly spread shaping."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.extents import extent_of_rows
from stitchproof.rows.reader import Reader
from stitchproof.rows.row_names import at_row_numbers, name_length, named_row, read_row_numbers
from stitchproof.rows.row_tree import (
    Amount,
    EndOf,
    Even,
    Item,
    Reach,
    Rework,
    RowNumbers,
    Shaping,
    Target,
    Thing,
    Work,
)
from stitchproof.rows.row_tree import Loops as StitchLoops
from stitchproof.rows.schedules import at_every, at_schedule, read_schedule
from stitchproof.rows.shapings import read_at_edge, read_evenly, read_items_on, read_named_on
from stitchproof.rows.stops import at_stop, read_stop
from stitchproof.rows.things import at_thing, read_thing
from stitchproof.rows.until import at_until, read_so_many, until_after
from stitchproof.rows.where import read_target

_EVEN = frozenset({"even", "straight", "plain", "evenly"})


def read_reference(reader: Reader) -> Item | None:
    """What comes next, if it is told by other rows."""
    if reader.kind == "number" or reader.at("there", "are"):
        return _complete(reader)
    if reader.kind != "word":
        return None
    word = reader.word
    if word == "rep":
        return _rep(reader)
    in_same = reader.at("work", "in", "same") or reader.at("work", "in", "the", "same")
    if word in ("as", "same") or reader.at("work", "as|same") or in_same:
        return _as(reader)
    if word in ("check",) and reader.peek(1).word == "at":
        return _end_of(reader)
    if word in ("inc", "dec") or reader.at("pick", "up"):
        return read_evenly(reader) or read_at_edge(reader)
    if word == "on" and at_schedule(reader):
        return _on_rows(reader)
    if at_every(reader) and at_schedule(reader):
        first = reader.position
        return Shaping("", (), "", read_schedule(reader), None, None, reader.stretch(first))
    if word in ("work", "cont", "unchanged", "even"):
        return _work(reader)
    if word == "pat":
        return _patterned(reader)
    return None


def _on_rows(reader: Reader) -> Shaping:
    """ "On V Row 9 (RS), work to last 6 sts, turn": what is worked on a certain row."""
    first = reader.position
    when = read_schedule(reader)
    reader.accept(",")
    items = reader.items(reader, frozenset({".", "--"}))
    return Shaping("", tuple(items), "", when, None, None, reader.stretch(first))


def _complete(reader: Reader) -> Item | None:
    """ "30 yoke rnds are complete", "There are 24 rows in all"."""
    first = reader.position
    reader.accept("there", "are")
    until = read_so_many(reader, first)
    if until is None or until.what != "rows" or not reader.at_break():
        reader.position = first
        return None
    words = reader.text(until.at)
    if not any(word in words for word in ("complete", "in all", "worked", "total")):
        reader.position = first
        return None
    return until


def _rep(reader: Reader) -> Item | None:
    """Rep Row 2 …, Rep last 2 rows …; None where "rep" belongs to an asterisk."""
    first = reader.position
    ahead = 2 if reader.peek(1).word == "the" else 1
    last = reader.peek(ahead).word in ("last", "prev", "these", "this")
    if not (last or at_row_numbers(reader, ahead) or name_length(reader, ahead) > 1):
        return None
    for _ in range(ahead):
        reader.take()
    rows, count, name = _rows_meant(reader, last)
    reader.accept("alternate")
    for_pattern = reader.accept("for", "pat")
    if for_pattern and reader.word == ",":
        pass
    working = _working(reader)
    if working is not None:
        return replace(working, even_row=rows, at=reader.stretch(first))
    if reader.word == "," and reader.peek(1).kind == "number" and reader.peek(2).word in ("times", "more"):
        reader.take()
    extent = None if at_until(reader) else extent_of_rows(reader)
    until = until_after(reader)
    _ends_with_row(reader)
    return Rework(rows, count, name, extent, until, reader.stretch(first))


def _ends_with_row(reader: Reader) -> None:
    """Take ", ending with a Row 2": which of the rows named is the last one follows from how many there are."""
    start = reader.position
    reader.accept(",") or reader.accept(";")
    if reader.accept("ending|end"):
        reader.accept("with|on|after|by")
        reader.accept("a") or reader.accept("the")
        if at_row_numbers(reader):
            read_row_numbers(reader)
            return
    reader.position = start


def _rows_meant(reader: Reader, last: bool) -> tuple[RowNumbers | None, Amount | None, str]:
    if not last:
        if at_row_numbers(reader):
            return read_row_numbers(reader), None, ""
        name = named_row(reader)
        if not name:
            raise reader.stop()
        return None, None, name
    reader.take()
    count = reader.number() or reader.unwritten(1)
    if reader.word not in ("row", "rnd"):
        raise reader.stop()
    reader.take()
    return None, count, ""


def _working(reader: Reader) -> Shaping | None:
    """ ", working Hip Inc Rnd on body rnd 14, then every 6 rnds 3 more times, until …"."""
    start = reader.position
    reader.accept(",")
    if not reader.accept("working"):
        reader.position = start
        return None
    name = named_row(reader)
    if not name:
        raise reader.stop()
    when = read_schedule(reader)
    return Shaping(name, (), "", when, None, until_after(reader), reader.stretch(start))


def _as(reader: Reader) -> Item | None:
    """ "As Row 8", "same as Rows 2 and 3", "Work as right front until 20 rows are complete"."""
    first = reader.position
    reader.accept("work")
    reader.accept("in")
    reader.accept("the")
    reader.accept("same")
    reader.accept("manner|way|fashion")
    if not reader.accept("as"):
        reader.position = first
        return None
    reader.accept("for") or reader.accept("the") or reader.accept("given", "for")
    if at_row_numbers(reader):
        rows = read_row_numbers(reader)
        extent = extent_of_rows(reader)
        return Rework(rows, None, "", extent, until_after(reader), reader.stretch(first))
    begin = reader.position
    while reader.kind == "word" and not reader.at_break() and reader.word != "until" and reader.position - begin < 8:
        reader.take()
    if reader.position == begin or not (reader.at_break() or reader.word == "until"):
        reader.position = first
        return None
    name = reader.text(reader.stretch(begin))
    if reader.lexemes[begin].word in ("established", "est", "set", "before", "follows", "now"):
        reader.position = first
        return None
    return Rework(None, None, name, None, until_after(reader), reader.stretch(first))


def _end_of(reader: Reader) -> EndOf:
    first = reader.position
    reader.take()
    for word in ("at", "end", "of"):
        if not reader.accept(word):
            raise reader.stop()
    rows = read_row_numbers(reader)
    at = reader.stretch(first)
    while not (reader.kind == "end" or reader.word in (".", "--")):
        reader.take()
    return EndOf(rows, at)


def _work(reader: Reader) -> Item | None:
    """Work even, work Dec Row on …, work hdc2tog at the beg of the row on …, work to last 6 sts."""
    first = reader.position
    reader.take()
    for read in (_even, read_named_on, read_items_on, _in_pattern):
        position = reader.position
        item = read(reader, first)
        if item is not None:
            return item
        reader.position = position
    reader.position = first
    return None


def _patterned(reader: Reader) -> Item | None:
    """ "Patt to last 3 sts", "pat 16": the row's own way, told by one word."""
    first = reader.position
    reader.take()
    number = reader.number()
    if number is not None:
        thing = read_thing(reader) if at_thing(reader) else Thing("st", reader.stretch(reader.position))
        at = reader.stretch(first)
        return Work("", StitchLoops.BOTH, None, None, Target(Reach.NEXT, (thing,), number, at), at)
    if at_stop(reader):
        begin = reader.position
        stop = read_stop(reader)
        target = Target(Reach.EACH, (), None, reader.stretch(begin), stop)
        return Work("", StitchLoops.BOTH, None, None, target, reader.stretch(first))
    reader.position = first
    return None


def _even(reader: Reader, first: int) -> Item | None:
    """ "even", "4 rnds even (as Rnd 2)", "even until 30 rows are complete", "straight", "unchanged"."""
    said = reader.lexemes[first].word in ("unchanged", "even")
    rows = reader.number()
    if rows is not None:
        reader.accept("more")
        if reader.word not in ("row", "rnd"):
            return None
        reader.take()
    if reader.word in _EVEN and reader.kind == "word":
        reader.take()
        if reader.word == "in" and (reader.peek(1).kind == "stitch" or reader.at("in", "pat|est")):
            while not reader.at_break() and (reader.kind == "stitch" or reader.word in ("in", "est", "pat", "st")):
                reader.take()
    elif (
        reader.accept("without", "shaping")
        or reader.accept("without", "inc")
        or reader.accept("without", "dec")
        or reader.accept("in", "pat")
        or reader.accept("in", "st", "pat")
        or reader.accept("in", "est", "pat")
    ):
        pass
    elif not said:
        return None
    rows = rows or _rows_after(reader)
    as_row = _as_row(reader)
    until = until_after(reader) if reader.word in ("until", ",") else None
    if not (reader.at_break() or reader.word in ("(", "[")):
        return None
    return Even(rows, until, as_row, reader.stretch(first))


def _rows_after(reader: Reader) -> Amount | None:
    """ "work even for 4 rows"."""
    start = reader.position
    reader.accept("for")
    rows = reader.number()
    if rows is not None and reader.accept("more|row|rnd"):
        reader.accept("row|rnd")
        return rows
    reader.position = start
    return None


def _as_row(reader: Reader) -> RowNumbers | None:
    start = reader.position
    bracket = reader.opens
    if bracket:
        reader.take()
    if reader.accept("as") and at_row_numbers(reader):
        rows = read_row_numbers(reader)
        if not bracket or reader.word in (")", "]"):
            if bracket:
                reader.take()
            return rows
    reader.position = start
    return None


def _in_pattern(reader: Reader, first: int) -> Item | None:
    """ "work to last 6 sts", "work in pat across first 90 sts", "work across": the row's own way."""
    reader.accept("in", "pat") or reader.accept("pat") or reader.accept("even")
    stitch = ""
    if at_stop(reader):
        begin = reader.position
        stop = read_stop(reader)
        if reader.word in ("first", "next", "last") or reader.kind == "ordinal":
            target = read_target(reader)
        else:
            target = Target(Reach.EACH, (), None, reader.stretch(begin), stop)
        return Work(stitch, StitchLoops.BOTH, None, None, target, reader.stretch(first))
    if reader.word in ("next", "first", "last") or reader.kind == "ordinal":
        target = read_target(reader)
        return Work(stitch, StitchLoops.BOTH, None, None, target, reader.stretch(first))
    if (
        reader.kind == "number"
        and at_thing(reader, 1)
        and reader.peek(1).kind != "stitch"
        and reader.peek(1).word != "ch"
    ):
        number = reader.number()
        thing = read_thing(reader)
        target = Target(Reach.NEXT, (thing,), number, reader.stretch(first))
        return Work(stitch, StitchLoops.BOTH, None, None, target, reader.stretch(first))
    return None
