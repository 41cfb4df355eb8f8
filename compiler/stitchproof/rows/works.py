"""Stitches worked into places: sc in next 3 sts, 2 dc in each st around, hdc2tog, dc inc, 6 sc."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import (
    Amount,
    Extent,
    Item,
    Join,
    Leave,
    Loops,
    Reach,
    Repeat,
    Stretch,
    Target,
    Thing,
    Work,
)
from stitchproof.rows.stops import at_stop, read_stop
from stitchproof.rows.things import at_thing, read_thing
from stitchproof.rows.where import at_target, read_place, read_target

CHANGES = frozenset({"inc", "dec", "ddec"})


def at_work(reader: Reader) -> bool:
    """Whether a stitch to be worked comes next, after its number and the words for its loops."""
    ahead = 0
    while ahead < 4:
        lexeme = reader.peek(ahead)
        if lexeme.kind == "stitch":
            return True
        if lexeme.word in CHANGES:
            return True
        is_loops = lexeme.kind == "word" and lexeme.word in ("blo", "flo", "both", "third")
        is_times = lexeme.word == "x" and ahead > 0
        is_first = lexeme.word in ("beg", "a", "an", "begch") and ahead == 0
        if not (lexeme.kind == "number" or is_loops or is_times or is_first):
            return False
        ahead += 1
    return False


def read_works(reader: Reader) -> list[Item]:
    """The stitches that come next; several where one verb has several places ("sc in next ch-sp and in next dc")."""
    first = reader.position
    reader.said_loops = None
    while reader.word in ("a", "an", "beg") and reader.kind == "word":
        reader.take()
    loops = reader.loops()
    if reader.kind == "number" and reader.peek(1).glued and reader.peek(2).kind == "stitch":
        reader.take()
        reader.take()  # "3-dc cluster": how it is made; the cluster is the stitch
    number = reader.number()
    reader.accept("x")
    loops = loops or reader.loops()
    stitch, own_loops, each = _stitch(reader)
    loops = loops or own_loops or reader.loops()
    number = number or (None if reader.dashed else number_after(reader))
    works: list[Item] = [_placed(reader, first, stitch, loops, each, number)]
    while reader.word == "and" and _goes_on(reader):
        reader.take()
        works.append(_placed(reader, reader.position, stitch, loops, each, number))
    while reader.word == "and" and _one_more(reader):
        reader.take()
        more = reader.number()
        works.append(_placed(reader, reader.position, stitch, loops, each, more))
    only = reader.position if reader.accept("only") else None
    last = works[-1]
    if isinstance(last, Work) and reader.accept("to", "join|close|form"):
        while reader.word in ("rnd", "ring", "the", "a"):
            reader.take()
        works[-1] = Join(last.stitch, last.target, False, reader.stretch(first))
    works = [_with_plain_between(each, reader) for each in works]
    extent = _times_after_place(reader)
    if extent is not None:
        works[-1] = Repeat((works[-1],), extent, None, None, None, False, reader.stretch(first))
    return works if only is None else [*works, Leave(None, reader.stretch(only))]


def _with_plain_between(item: Item, reader: Reader) -> Item:
    """ "Inc in every 3rd st": two plain stitches and an increase, over and over; the stitches between are worked, not passed."""
    if not (
        isinstance(item, Work) and item.stitch == "inc" and item.target and item.target.every > 1 and item.target.stop
    ):
        return item
    plain = Work("", item.loops, None, reader.unwritten(item.target.every - 1), None, item.at)
    increase = Work("inc", item.loops, None, None, None, item.at)
    extent = Extent(None, item.target.stop, False, False, item.at)
    return Repeat((plain, increase), extent, None, None, None, False, item.at)


def _goes_on(reader: Reader) -> bool:
    """Whether "and" leads to a further place for the same stitch: "in same st and next 3 sts", "and in each st"."""
    after = reader.peek(1)
    if reader.kind != "word" or after.kind == "stitch":
        return False
    return after.word in ("in", "over", "each", "every") or (
        after.word == "next" and (reader.peek(2).kind == "number" or at_thing(reader, 2))
    )


def _one_more(reader: Reader) -> bool:
    """Whether "and one in top of tch" comes next: so many of the same stitch in a further place."""
    return reader.peek(1).kind == "number" and reader.peek(2).word in ("in", "over")


def read_worked_together(reader: Reader) -> list[Item]:
    """ "Work off next 2 sc as 1 sc", "work 2 sts tog", "work next 2 dc together as one": a decrease; none for other words."""
    first = reader.position
    if reader.accept("work"):
        reader.accept("off")
        reader.accept("the")
        reader.accept("next")
        number = reader.number()
        if number is not None and at_thing(reader):
            read_thing(reader)
        tog = number is not None and reader.accept("tog")
        as_one = number is not None and reader.at("as") and set(reader.peek(1).values or ()) == {1}
        if as_one:
            reader.take()
            reader.take()
            if at_thing(reader):
                read_thing(reader)
        if tog or as_one:
            target = replace(reader.next_st(), count=number, over=True)
            return [Work("dec", Loops.BOTH, None, None, target, reader.stretch(first))]
    reader.position = first
    return []


def _stitch(reader: Reader) -> tuple[str, Loops | None, int]:
    """The stitch, the loops that its word says, and how many of it go into one place ("dc inc" is two)."""
    lexeme = reader.peek()
    if lexeme.word in CHANGES and lexeme.kind == "word":
        word = reader.take().word
        if reader.kind == "stitch" and reader.peek(1).word in ("in", "next", "over", ",", ")", "]"):
            # "inc sc": an increase of single crochet
            return _changed(reader, reader.take().word, word)
        return word, None, 1
    if lexeme.kind != "stitch":
        raise reader.stop()
    stitch = reader.take()
    loops = stitch.stitch.loops if stitch.stitch else None
    if (
        reader.at("st")
        and not reader.peek().glued
        and reader.peek(1).word in ("in", "around", "over", ",", "next", "each")
    ):
        reader.take()
    after_loops = loops or (reader.loops() if reader.peek(1).word in CHANGES else None)
    if reader.word in CHANGES and reader.kind == "word" and reader.peek(1).word != "evenly":
        return _changed(reader, stitch.word, reader.take().word, after_loops)
    return stitch.word, after_loops, 1


def _changed(reader: Reader, stitch: str, change: str, loops: Loops | None = None) -> tuple[str, Loops | None, int]:
    if change == "inc":
        return stitch, loops, 2
    together = reader.words.together(stitch, "3" if change == "ddec" else "2")
    if together is None:
        raise reader.stop()
    return together.id, loops, 1


def number_after(reader: Reader) -> Amount | None:
    """A number behind the stitch: sc 3, sc x 3, sc 3x, sc 3 times, sc twice."""
    if reader.word == "twice" and reader.peek().values is not None:
        lexeme = reader.take()
        return Amount(lexeme.values or (), Stretch(lexeme.start, lexeme.end))
    if reader.word == "x" and reader.peek(1).kind == "number":
        reader.take()
        return reader.number()
    if reader.kind != "number":
        return None
    after = reader.peek(1)
    if after.word in ("x", "times"):
        number = reader.number()
        reader.take()
        return number
    starts_item = after.kind == "stitch" or after.word in CHANGES or after.word in ("ch", "chsp", "more", "x")
    return None if starts_item or at_thing(reader, 1) else reader.number()


def _placed(reader: Reader, first: int, stitch: str, loops: Loops | None, each: int, number: Amount | None) -> Work:
    """The stitch with its place, if the row says one."""
    reader.accept("loosely")
    target = _target(reader, stitch)
    loops = loops or reader.said_loops or Loops.BOTH
    if target is not None and reader.at("working", "in|through|into"):
        loops = _loops_behind(reader) or loops
    if reader.word in ("blo", "flo", "third") and reader.kind == "word":
        loops = reader.loops() or loops
    if target is None and at_target(reader) and reader.said_loops is None:
        target = _target(reader, stitch)
    if stitch == "ddec":
        stitch = "dec"
        three = reader.unwritten(3)
        target = target or replace(reader.next_st(), count=three, over=True)
    if each > 1:
        return _increase(reader, first, stitch, loops, each, number, target)
    if target is not None:
        target = _skipped_middle(stitch, target, reader)
        return Work(stitch, loops, number, None, _over(stitch, target, reader), reader.stretch(first))
    return Work(stitch, loops, None, number, None, reader.stretch(first))


def _loops_behind(reader: Reader) -> Loops | None:
    """ "hdc in each st across, working in the 3rd loop": the loops behind the place."""
    start = reader.position
    while reader.word in ("working", "in", "through", "the"):
        reader.take()
    loops = reader.loops()
    if loops is None:
        reader.position = start
    reader.accept("only")
    return loops


def _increase(
    reader: Reader, first: int, stitch: str, loops: Loops, each: int, number: Amount | None, target: Target | None
) -> Work:
    """ "3 dc inc": two in each of the next three."""
    if target is None:
        target = replace(reader.next_st(), count=number)
    return Work(stitch, loops, reader.unwritten(each), None, target, reader.stretch(first))


def _target(reader: Reader, stitch: str) -> Target | None:
    if (
        stitch == "slst"
        and reader.at("across|along|over|up", "to")
        and reader.peek(2).word in ("next", "corner", "center")
    ):
        reader.take()
    if (
        stitch == "slst"
        and reader.word == "to"
        and not _is_far(reader)
        and reader.peek(1).word not in ("join", "close", "form")
    ):
        reader.take()
        return read_place(reader)
    if reader.word == "in" and reader.peek(1).word in ("each", "every") and reader.peek(2).word in ("row", "rnd"):
        if reader.peek(3).kind == "end" or reader.peek(3).word in (".", ",", ";"):
            for _ in range(3):
                reader.take()
        return None
    if at_target(reader) or (reader.kind == "ordinal" and at_thing(reader, 1)):
        return read_target(reader)
    if reader.word == "for" and reader.peek(1).word in ("next", "each", "rem"):
        reader.take()
        return read_place(reader)
    if at_stop(reader):
        first = reader.position
        stop = read_stop(reader)
        if (
            at_target(reader)
            and reader.word == "in"
            and reader.peek(1).word in ("each", "every", "blo", "flo", "both", "third")
        ):
            if reader.peek(1).word in ("blo", "flo", "both", "third"):
                reader.take()
                reader.said_loops = reader.loops()
            else:
                target = read_target(reader)
                return replace(target, stop=stop, at=reader.stretch(first))
        things = (Thing("st", Stretch(reader.peek().start, reader.peek().start)),)
        return Target(Reach.EACH, things, None, reader.stretch(first), stop)
    return None


def _is_far(reader: Reader) -> bool:
    """Whether "to" says how far slip stitches go: to last 3 sts, to end, to marker."""
    return reader.peek(1).word in ("last", "end", "marker", "within") or (
        reader.peek(1).kind == "number" or reader.peek(2).word in ("marker", "end")
    )


def _skipped_middle(stitch: str, target: Target, reader: Reader) -> Target:
    """ "dec over next st, skip next st, next st": one decrease whose middle is passed over; it takes all three."""
    first = reader.position
    if stitch != "dec" or not target.over or not reader.accept(","):
        reader.position = first
        return target
    if reader.accept("sk"):
        skipped = read_place(reader)
        reader.accept(",")
        reader.accept("and")
        reader.accept("over") or reader.accept("in")
        if reader.word == "next":
            last = read_place(reader)
            ends = (target, skipped, last)
            if reader.at_break() and all(each.reach is Reach.NEXT for each in ends):
                counts = [each.count.values if each.count else reader.line.scalar(1) for each in ends]
                taken = [sum(n for n in per_size if isinstance(n, Fraction)) for per_size in zip(*counts, strict=True)]
                values = tuple(Fraction(each) for each in taken)
                return replace(target, count=Amount(values, target.at, False), at=reader.stretch(first))
    reader.position = first
    return target


def _over(stitch: str, target: Target, reader: Reader) -> Target:
    """ "sc2tog in next 2 sts": the 2 is what one of it takes."""
    if target.over or target.count is None or target.reach not in (Reach.NEXT, Reach.FIRST, Reach.LAST):
        return target
    facts = reader.words.facts_of(stitch)
    takes = 2 if stitch == "dec" else facts.takes if facts else 1
    return replace(target, over=True) if takes > 1 and set(target.count.values) == {takes} else target


def _times_after_place(reader: Reader) -> Extent | None:
    """ "2 sc in next st 6 times": read in two ways in print."""
    first = reader.position
    times: Amount | None = None
    if reader.dashed:
        return None  # "1 sc - 1 inc x 6": all that the dashes join
    if (
        (reader.word == "twice" and reader.peek().values is not None)
        or (reader.kind == "number" and reader.peek(1).word in ("times", "x"))
        or (reader.word == "x" and reader.peek(1).kind == "number")
    ):
        times = number_after(reader)
    return Extent(times, None, False, True, reader.stretch(first)) if times else None
