"""Reads a written row: from its words to its tree, or to the first words that could not be read."""

from __future__ import annotations

from stitchproof.rows.behind_stitches import accept_rows_told, accept_unknown_count, exception_to, goes_to_end
from stitchproof.rows.chains import at_chain, read_chain, read_skip
from stitchproof.rows.guards import read_guard
from stitchproof.rows.line import Line
from stitchproof.rows.meetings import read_edges_together, read_meeting
from stitchproof.rows.moves import read_move
from stitchproof.rows.reader import DEEPEST, Reader, Stopped
from stitchproof.rows.references import read_reference
from stitchproof.rows.remarks import at_remark, at_segment, read_remark, read_segment
from stitchproof.rows.repeats import dash_group, read_bracket, read_repeated_bracket, read_star
from stitchproof.rows.row_edges import (
    at_chain_from_hook,
    read_from_chain,
    read_going_on,
    read_into_ring,
    read_last_stitch,
    read_ring_of,
    read_rotation,
    read_same_stitch,
)
from stitchproof.rows.row_tree import (
    InLoops,
    Item,
    NotRead,
    Remark,
    Repeat,
    RowTree,
    Skip,
    Target,
    Work,
)
from stitchproof.rows.row_words import RowWords
from stitchproof.rows.shapings import read_evenly_work
from stitchproof.rows.stated_counts import accept_stated
from stitchproof.rows.where import at_target, read_target
from stitchproof.rows.works import at_work, read_worked_together, read_works

LONGEST = 20_000
"""Lexemes of a line that is read; nobody writes a row of so many words."""
_FILLERS = frozenset({"work", "make", "then", "now", "also", "again", "begin", "by", "place", "working"})


def read_row(line: Line, words: RowWords) -> RowTree | NotRead:
    """The tree of a row. Takes the words in one go from left to right; never raises."""
    reader = Reader(line, words)
    reader.items = read_items
    return read_with(reader)


def read_with(reader: Reader) -> RowTree | NotRead:
    """The same with a reader that is set up, so that a test can look at what it took."""
    if len(reader.lexemes) > LONGEST:
        return reader.not_read(LONGEST)
    try:
        only = read_guard(reader)
        items = read_items(reader, frozenset())
    except Stopped as stopped:
        return reader.not_read(stopped.index)
    if reader.kind != "end":
        return reader.not_read(reader.position)
    return RowTree(tuple(items), tuple(reader.stated), only)


def read_items(reader: Reader, until: frozenset[str]) -> list[Item]:
    """Items up to the end of the line or of its bracket, or up to one of the words `until`, which is not taken."""
    if reader.depth >= DEEPEST:
        raise reader.stop()
    reader.depth += 1
    items: list[Item] = []
    dash_from: int | None = None
    first_of_dash = reader.position
    while True:
        dashed = _separators(reader, items, until)
        if reader.kind == "end" or (reader.word in until and not _is_rows(reader)):
            reader.depth -= 1
            return items
        if dashed and dash_from is None and items:
            dash_from = len(items) - 1
        elif not dashed:
            dash_from, first_of_dash = None, reader.position
        reader.dashed = dash_from is not None
        if items and accept_rows_told(reader, items):
            continue
        before = reader.position
        excepts = bool(items) and reader.at("working|work|placing|with") and goes_to_end(items[-1])
        found = _read(reader)
        exception = exception_to(reader, found) if excepts else None
        if exception is not None:
            items.insert(-1, exception)  # "sc in each st around, working 3 sc in each corner": those first
        else:
            items += found
        if reader.position == before:
            raise reader.stop()
        reader.dashed = False
        if dash_from is not None:
            group = dash_group(reader, items, dash_from, first_of_dash)
            if group is not None:
                items[dash_from:] = [group]
                dash_from = None


def _is_rows(reader: Reader) -> bool:
    """Whether "rep" goes on with rows, not with an asterisk."""
    return reader.word == "rep" and reader.peek(1).word in ("row", "rnd", "last")


def _separators(reader: Reader, items: list[Item], until: frozenset[str]) -> bool:
    """Take the signs between items, and the counts stated behind them. Whether a dash joins the next item to the last."""
    dashed = False
    while reader.word not in until:
        word, kind = reader.word, reader.kind
        if word in ("--", "=", ":") or (word == "-" and _is_count_dash(reader)):
            start = reader.position
            reader.take()
            if not accept_stated(reader):
                reader.position = start
                if word == "-":
                    reader.take()
                    dashed = True
                    continue
                if (word == "--" and items) or (word == ":" and items and isinstance(items[-1], InLoops | Remark)):
                    reader.take()
                    continue
                raise reader.stop()
        elif word == "-" and kind == "sign":
            reader.take()
            dashed = bool(items)
        elif kind in ("sign", "word") and word in (",", ";", ".", "and", "then", "&", "+", "/", "now", "also"):
            ends_sentence = reader.take().word == "."
            if ends_sentence and items and reader.kind in ("number", "word") and accept_stated(reader, needs_noun=True):
                continue
            if ends_sentence and items and accept_unknown_count(reader):
                continue
        else:
            return dashed
    return dashed


def _is_count_dash(reader: Reader) -> bool:
    """Whether a hyphen with blanks stands before counts that go to the end."""
    if reader.peek(1).kind not in ("number",):
        return False
    start, stated = reader.position, len(reader.stated)
    reader.take()
    found = accept_stated(reader)
    del reader.stated[stated:]
    at_end = reader.kind == "end" or reader.word == "."
    reader.position = start
    return found and at_end


def _read(reader: Reader) -> list[Item]:
    """The item that comes next, or the items. Stops where none does."""
    if reader.opens:
        return read_bracket(reader)
    if reader.word == "*" and reader.kind == "sign":
        return [read_star(reader)]
    repeated = read_repeated_bracket(reader)
    if repeated is not None:
        return [repeated]
    if at_chain(reader):
        return [read_chain(reader)]
    if reader.word == "sk" and reader.kind == "word":
        return list(read_skip(reader))
    together = read_edges_together(reader) or read_worked_together(reader)
    if together:
        return together
    for read in (read_meeting, read_move, read_evenly_work, read_reference):
        start = reader.position
        item = read(reader)
        if item is not None:
            return [item]
        reader.position = start
    if at_work(reader):
        return list(read_works(reader))
    return _read_words(reader)


def _read_words(reader: Reader) -> list[Item]:
    """The same of what begins with neither a stitch nor chains: edges, remarks, places before what goes into them."""
    if at_segment(reader):
        return [read_segment(reader)]
    if reader.at("rotate"):
        return [read_rotation(reader)]
    if at_remark(reader):
        return [read_remark(reader)]
    if reader.kind == "number" and reader.peek(1).word == "in":
        return [read_same_stitch(reader)]
    if at_target(reader) and reader.word == "in":
        return [_place_first(reader)]
    if reader.at("starting|beg", "in|with") and at_chain_from_hook(reader):
        return read_from_chain(reader)
    if reader.accept("starting|beg", "with"):
        return _after_filler(reader)
    last = read_last_stitch(reader)
    if last is not None:
        return [last]
    if reader.at("ending|end") and reader.kind == "word":
        reader.take()
        reader.accept("with") or reader.accept("in") or reader.accept("on")
        return _after_filler(reader)
    if reader.at("cont", "in|with") and reader.peek(2).kind == "stitch":
        return [read_going_on(reader)]
    if reader.at("ring", ",|:|.") and reader.position == 0:
        return read_into_ring(reader)
    if reader.at("ring") and reader.position == 0 and reader.peek(1).kind == "number":
        return [read_ring_of(reader)]
    if reader.word in _FILLERS and reader.kind == "word":
        reader.take()
        return _after_filler(reader)
    raise reader.stop()


def _after_filler(reader: Reader) -> list[Item]:
    """What comes after a word that says nothing by itself; another one is too many."""
    if reader.kind == "end" or (reader.kind == "word" and reader.word in _FILLERS | {"ending", "end"}):
        raise reader.stop()
    return _read(reader)


def _place_first(reader: Reader) -> Item:
    """ "in next ch-2 sp work (3 dc, ch 2, 3 dc)": the place before what goes into it."""
    first = reader.position
    target = read_target(reader)
    reader.accept(",")
    reader.accept("work") or reader.accept(":")
    if reader.opens:
        bracket = read_bracket(reader)
        group = bracket[0] if bracket else None
        if not isinstance(group, Repeat):
            raise reader.stop()
        return Repeat(group.items, group.extent, target, None, None, False, reader.stretch(first))
    items = read_items(reader, frozenset({";", ".", "*", "**", "rep", "--"}))
    if not items or any(_goes_elsewhere(item, target) for item in items):
        raise reader.stop()
    if len(items) == 1 and isinstance(items[0], Work):
        work = items[0]
        return Work(work.stitch, work.loops, work.number, None, target, reader.stretch(first))
    return Repeat(tuple(items), None, target, None, None, False, reader.stretch(first))


def _goes_elsewhere(item: Item, target: Target) -> bool:
    """Whether an item of a list for one place has a place of its own."""
    return isinstance(item, Skip) or (isinstance(item, Work | Repeat) and item.target is not None)
