"""Reads a written row: from its words to its tree, or to the first words that could not be read."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.chains import at_chain, read_chain, read_skip
from stitchproof.rows.guards import read_guard
from stitchproof.rows.line import Line
from stitchproof.rows.meetings import read_edges_together, read_meeting
from stitchproof.rows.moves import read_move
from stitchproof.rows.reader import DEEPEST, Reader, Stopped
from stitchproof.rows.references import read_reference
from stitchproof.rows.remarks import at_remark, at_segment, read_remark, read_segment
from stitchproof.rows.repeats import dash_group, read_bracket, read_repeated_bracket, read_star
from stitchproof.rows.row_tree import (
    Chain,
    InLoops,
    Item,
    Join,
    Loops,
    NotRead,
    Reach,
    Remark,
    Repeat,
    RowTree,
    Skip,
    Stop,
    Target,
    Thing,
    Turn,
    Work,
)
from stitchproof.rows.row_words import RowWords
from stitchproof.rows.shapings import read_evenly_work
from stitchproof.rows.stated_counts import accept_stated
from stitchproof.rows.stops import no_stop, read_stop
from stitchproof.rows.trade_words import trade_words
from stitchproof.rows.where import at_target, read_target
from stitchproof.rows.works import at_work, read_worked_together, read_works

LONGEST = 20_000
"""Lexemes of a line that is read; nobody writes a row of so many words."""
_TRADE = frozenset(trade_words().values())
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
        if items and _so_many_rows(reader, items):
            continue
        before = reader.position
        excepts = bool(items) and reader.at("working|work|placing|with") and _goes_to_end(items[-1])
        found = _read(reader)
        exception = _exception(reader, found) if excepts else None
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
            if ends_sentence and items and _counts_something(reader):
                continue
        else:
            return dashed
    return dashed


def _so_many_rows(reader: Reader, items: list[Item]) -> bool:
    """Take "4 rounds" behind plain stitches: how many rows the label has; they are all alike."""
    plain = all(isinstance(item, Chain | Turn | Join) or _is_plain(item) for item in items)
    ahead = 1 if reader.word in ("for", "over") else 0
    after = reader.peek(ahead + 2)
    ends = after.kind == "end" or after.word in (".", ",", ";", "--", "(")
    if not (plain and reader.peek(ahead).kind == "number" and reader.peek(ahead + 1).word in ("row", "rnd") and ends):
        return False
    for _ in range(ahead + 2):
        reader.take()
    return True


def _exception(reader: Reader, found: list[Item]) -> Work | None:
    """A stitch for each place of one kind, "3 sc in each corner" or "2 sc in ch-2 sp", behind the one for all the others."""
    work = found[0] if len(found) == 1 else None
    if not isinstance(work, Work) or work.target is None:
        return None
    if work.target.reach is Reach.EACH:
        return work
    if work.target.bare and all(thing.name in ("chsp", "sp") for thing in work.target.things):
        at = reader.stretch(reader.position)
        return replace(work, target=replace(work.target, reach=Reach.EACH, stop=Stop(None, None, True, None, at)))
    return None


def _goes_to_end(item: Item) -> bool:
    return isinstance(item, Work) and item.target is not None and item.target.reach is Reach.EACH


def _is_plain(item: Item) -> bool:
    return isinstance(item, Work) and _goes_to_end(item) and (item.each is None or set(item.each.values) == {1})


def _counts_something(reader: Reader) -> bool:
    """Take "6 petals" at the end of the line: a number of what no stitch makes, which nothing can be held against."""
    after = reader.peek(2)
    is_unknown = reader.peek(1).kind == "word" and reader.peek(1).word not in _TRADE
    if reader.kind != "number" or not is_unknown or not (after.kind == "end" or after.word in ("made", ".")):
        return False
    while reader.kind != "end" and reader.word != ".":
        reader.take()
    return True


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
    if at_segment(reader):
        return [read_segment(reader)]
    if reader.at("rotate"):
        return [_rotated(reader)]
    if at_remark(reader):
        return [read_remark(reader)]
    if reader.kind == "number" and reader.peek(1).word == "in":
        return [_of_the_same(reader)]
    if at_target(reader) and reader.word == "in":
        return [_place_first(reader)]
    if reader.at("starting|beg", "in|with") and _in_chain(reader):
        return _from_chain(reader)
    if reader.accept("starting|beg", "with"):
        return _after_filler(reader)
    last = _last_one(reader)
    if last is not None:
        return [last]
    if reader.at("ending|end") and reader.kind == "word":
        reader.take()
        reader.accept("with") or reader.accept("in") or reader.accept("on")
        return _after_filler(reader)
    if reader.at("cont", "in|with") and reader.peek(2).kind == "stitch":
        return [_go_on(reader)]
    if reader.at("ring", ",|:|.") and reader.position == 0:
        return _into_ring(reader)
    if reader.at("ring") and reader.position == 0 and reader.peek(1).kind == "number":
        return [_ring_of(reader)]
    if reader.word in _FILLERS and reader.kind == "word":
        reader.take()
        return _after_filler(reader)
    raise reader.stop()


def _after_filler(reader: Reader) -> list[Item]:
    """What comes after a word that says nothing by itself; another one is too many."""
    if reader.kind == "end" or (reader.kind == "word" and reader.word in _FILLERS | {"ending", "end"}):
        raise reader.stop()
    return _read(reader)


def _in_chain(reader: Reader) -> bool:
    """Whether "in" goes on with a chain counted from the hook."""
    ahead = 2
    while reader.peek(ahead).word in ("the", "in"):
        ahead += 1
    return reader.peek(ahead).kind == "ordinal" and reader.peek(ahead + 1).word in ("ch", "st", "from")


def _from_chain(reader: Reader) -> list[Item]:
    """ "Starting in 2nd ch from hook, sc across": the first stitch there, then one in each."""
    first = reader.position
    reader.take()
    reader.accept("with")
    reader.accept("the")
    target = read_target(reader)
    at = reader.stretch(first)
    reader.accept(",")
    reader.accept("work")
    works = read_works(reader) if at_work(reader) else []
    work = works[0] if works else None
    if target.reach is not Reach.FROM_HOOK or not isinstance(work, Work) or work.target is None:
        raise reader.stop()
    if work.target.reach is not Reach.EACH or (work.each is not None and set(work.each.values) != {1}):
        raise reader.stop()
    return [Work(work.stitch, work.loops, None, None, target, at), *works]


def _last_one(reader: Reader) -> Item | None:
    """ "working last dc in top of tch", "placing the last sc in last st": where the row's last stitch goes."""
    first = reader.position
    if not (reader.at("working|work|place|placing|with") and reader.kind == "word"):
        return None
    reader.take()
    reader.accept("the")
    is_last = reader.accept("last")
    if is_last and (reader.kind == "stitch" or reader.word == "st"):
        stitch = reader.take()
        reader.accept("work") or reader.accept("worked") or reader.accept("being", "worked")
        if at_target(reader):
            target = read_target(reader)
            if target.reach in (Reach.TOP_OF_CHAIN, Reach.LAST, Reach.NEXT):
                word = stitch.word if stitch.kind == "stitch" else ""
                return Work(word, Loops.BOTH, None, None, target, reader.stretch(first))
    reader.position = first
    return None


def _rotated(reader: Reader) -> Remark:
    """ "Rotate work and continue along other side": another edge is worked from here on."""
    first = reader.position
    while not (reader.kind == "end" or reader.word in (",", ";", ".", "--", ":")):
        if reader.kind == "stitch" or (reader.kind == "number" and reader.peek(1).kind == "stitch"):
            break
        reader.take()
    return Remark(reader.text(reader.stretch(first)), reader.stretch(first))


def _go_on(reader: Reader) -> Item:
    """ "continue in sc": a stitch in each place that remains."""
    first = reader.position
    reader.take()
    reader.take()
    stitch = reader.take().word
    stop = read_stop(reader) or no_stop(reader.peek().start)
    target = Target(Reach.EACH, (Thing("st", reader.stretch(reader.position)),), None, reader.stretch(first), stop)
    return Work(stitch, Loops.BOTH, None, None, target, reader.stretch(first))


def _ring_of(reader: Reader) -> Item:
    """ "MR 6": so many of the piece's plain stitch in a ring."""
    first = reader.position
    reader.take()
    number = reader.number()
    if not (reader.at_break() or reader.opens):
        raise reader.stop()
    target = Target(Reach.AROUND_RING, (), None, reader.stretch(first))
    return Work("", Loops.BOTH, number, None, target, reader.stretch(first))


def _into_ring(reader: Reader) -> list[Item]:
    """ "MR, 6 sc": a ring, and what goes into it."""
    first = reader.position
    reader.take()
    target = Target(Reach.AROUND_RING, (), None, reader.stretch(first))
    reader.skip_separators()
    reader.accept(":")
    work, *others = read_works(reader)
    if not isinstance(work, Work) or work.target is not None:
        raise reader.stop()
    return [Work(work.stitch, work.loops, work.number, None, target, reader.stretch(first)), *others]


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


def _of_the_same(reader: Reader) -> Item:
    """ "…, and one in top of tch": so many of the stitch worked last."""
    first = reader.position
    number = reader.number()
    target = read_target(reader)
    return Work("", Loops.BOTH, number, None, target, reader.stretch(first))


def _goes_elsewhere(item: Item, target: Target) -> bool:
    """Whether an item of a list for one place has a place of its own."""
    return isinstance(item, Skip) or (isinstance(item, Work | Repeat) and item.target is not None)
