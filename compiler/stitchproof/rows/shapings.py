"""Shaping told in words: Dec Row on certain rows, hdc2tog at an edge on certain rows, increases spread evenly."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.rows.extents import extent_of_rows
from stitchproof.rows.reader import Reader
from stitchproof.rows.row_names import named_row, read_side
from stitchproof.rows.row_tree import (
    Amount,
    Evenly,
    Item,
    Loops,
    OnRows,
    Reach,
    Rework,
    Shaping,
    Stretch,
    Target,
    Thing,
    Work,
)
from stitchproof.rows.schedules import at_schedule, read_schedule
from stitchproof.rows.stops import read_stop
from stitchproof.rows.things import at_thing, read_thing
from stitchproof.rows.until import until_after


def read_named_on(reader: Reader, first: int) -> Item | None:
    """ "Work Dec Row on next 5 rows", "work Inc Rnd 3 more times", "work Dec Row"."""
    name = named_row(reader)
    if not name:
        return None
    if at_schedule(reader):
        return Shaping(name, (), "", read_schedule(reader), None, until_after(reader), reader.stretch(first))
    extent = extent_of_rows(reader)
    return Rework(None, None, name, extent, None, reader.stretch(first)) if extent or reader.at_break() else None


def read_items_on(reader: Reader, first: int) -> Item | None:
    """ "work hdc2tog at the beg of the row on V Row 1 (RS), then every 2nd row 3 more times"."""
    if reader.kind != "stitch":
        return None
    begin = reader.position
    stitch = reader.take()
    if not (reader.word == "at" or at_schedule(reader)):
        return None
    item = Work(stitch.word, Loops.BOTH, None, None, None, reader.stretch(begin))
    edge = _edge(reader)
    if not at_schedule(reader):
        return None
    when = read_schedule(reader)
    return Shaping("", (item,), edge, when, None, until_after(reader), reader.stretch(first))


def _edge(reader: Reader) -> str:
    """ "at the beg of the row", "at each end", "at the armhole edge"; "" where no edge comes next."""
    if not reader.accept("at"):
        return ""
    reader.accept("the")
    first = reader.position
    while reader.kind == "word" and not reader.at_break() and reader.word not in ("on", "every", "next", "of"):
        reader.take()
    words = {each.word for each in reader.lexemes[first : reader.position]}
    edge = reader.text(reader.stretch(first))
    if reader.accept("of"):
        reader.accept("the") or reader.accept("each") or reader.accept("every")
        reader.accept("row") or reader.accept("rnd")
    if words & {"each", "both"} and words & {"end", "ends", "side", "sides"}:
        return "each end"
    return "beginning" if words == {"beg"} else "end" if words == {"end"} else edge


def read_evenly(reader: Reader) -> Item | None:
    """ "inc 6 sts evenly across", "dec evenly to 60 sts", "pick up and sc 40 sts evenly along neck"."""
    first = reader.position
    sign = {"inc": 1, "dec": -1}.get(reader.word, 0)
    ahead = 0
    while ahead < 8 and reader.peek(ahead).word != "evenly":
        if reader.peek(ahead).kind in ("end", "sign") or reader.peek(ahead).word in ("in", "over", "at"):
            return None
        ahead += 1
    if reader.peek(ahead).word != "evenly":
        return None
    number = stitch = None
    while reader.word != "evenly":
        lexeme = reader.peek()
        if lexeme.kind == "number":
            number = reader.number()
            continue
        stitch = lexeme.word if lexeme.kind == "stitch" else stitch
        reader.take()
    reader.take()
    to = _evenly_to(reader)
    target = _evenly_where(reader)
    return Evenly(sign, number, to, stitch or "", target, reader.stretch(first))


def _evenly_to(reader: Reader) -> Amount | None:
    if not (reader.word == "to" and reader.peek(1).kind == "number"):
        return None
    reader.take()
    to = reader.number()
    if at_thing(reader):
        read_thing(reader)
    return to


def _evenly_where(reader: Reader) -> Target | None:
    """The edge that they are spread over, if the row names one."""
    reader.accept("spaced") or reader.accept("apart")
    first = reader.position
    while not (reader.at_break() or reader.word in ("(", "[")):
        reader.take()
    if reader.position == first:
        return None
    at = reader.stretch(first)
    return Target(Reach.EACH, (), None, at, words=reader.text(at))


def read_evenly_work(reader: Reader) -> Item | None:
    """ "work 72 sc evenly along edge", "sc evenly around": so many, spread over an edge."""
    first = reader.position
    reader.accept("work")
    ahead = 1 if reader.kind == "number" else 0
    if not (reader.peek(ahead).kind == "stitch" and reader.peek(ahead + 1).word == "evenly"):
        reader.position = first
        return None
    number = reader.number()
    stitch = reader.take().word
    reader.take()
    if number is None and reader.word == "across":
        begin = reader.position
        stop = read_stop(reader)
        if reader.at_break():
            things = (Thing("st", Stretch(reader.peek().start, reader.peek().start)),)
            each = Target(Reach.EACH, things, None, reader.stretch(begin), stop)
            return Work(stitch, Loops.BOTH, None, None, each, reader.stretch(first))
        reader.position = begin
    return Evenly(0, number, None, stitch, _evenly_where(reader), reader.stretch(first))


def _next_rows(reader: Reader) -> tuple[OnRows, ...]:
    """ "of next 4 rows"; () where that does not come next."""
    if not (reader.at("next") and reader.peek(1).kind == "number" and reader.peek(2).word in ("row", "rnd")):
        return ()
    first = reader.position
    reader.take()
    run = reader.number()
    reader.take()
    return (OnRows(None, run, (), "", reader.stretch(first)),) if reader.at_break() else ()


def read_at_edge(reader: Reader) -> Item | None:
    """ "dec 1 st at each end of next row and every 2nd row 3 more times"."""
    first = reader.position
    word = reader.take().word
    number = reader.number()
    if reader.kind == "stitch":
        reader.take()
    elif not reader.accept("st"):
        number = None
    if number is None or reader.word != "at":
        reader.position = first
        return None
    item = Work(word, Loops.BOTH, None, number, None, reader.stretch(first))
    edge = _edge(reader)
    if reader.word in ("of", "next"):
        reader.accept("of")
    when = _next_rows(reader) or (read_schedule(reader) if at_schedule(reader) else ())
    read_side(reader)
    if when:
        return Shaping("", (item,), edge, when, None, None, reader.stretch(first))
    if edge == "each end" and (reader.at_break() or reader.word in ("(", "[")):
        both = Amount(tuple(each * 2 if isinstance(each, Fraction) else each for each in number.values), number.at)
        return Evenly(1 if word == "inc" else -1, both, None, "", None, reader.stretch(first))
    return None
