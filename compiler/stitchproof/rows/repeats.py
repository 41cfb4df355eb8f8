"""Brackets and asterisks: what is worked again, and how often."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.extents import read_extent
from stitchproof.rows.reader import Reader, Stopped
from stitchproof.rows.remarks import is_remark
from stitchproof.rows.row_tree import Chain, Extent, Item, Reach, Remark, Repeat, Target, Work
from stitchproof.rows.stated_counts import accept_stated
from stitchproof.rows.where import at_target, read_target

_NOTHING = frozenset[str]()
STAR = frozenset({"*", "**", "rep"})
_ENDS_ENDING = frozenset({".", ";"})


def read_bracket(reader: Reader) -> list[Item]:
    """A bracket: a repeat, a group for one place, a stated count (kept by the reader), or a remark."""
    first = reader.position
    close = reader.close_of(first)
    if close is None or close >= reader.end:
        raise reader.stop()
    if _is_count(reader, close):
        return []
    if is_remark(reader, first + 1, close) or _explains(reader, first, close):
        reader.steps += close - first
        reader.position = close + 1
        at = reader.stretch(first)
        return [Remark(reader.text(at)[1:-1].strip(), at)]
    items = _inside(reader, close)
    group = _with_target_and_extent(reader, first, tuple(items))
    only_chain = len(items) == 1 and isinstance(items[0], Chain) and group.extent is None and group.target is None
    return items if only_chain else [group]


def read_repeated_bracket(reader: Reader) -> Repeat | None:
    """ "6 x (sc, inc)", "repeat (sc, inc) 6 times": a bracket with how often before it, or in part before it."""
    first = reader.position
    if reader.word == "rep" and reader.peek(1).word in ("(", "["):
        reader.take()
        group = read_bracket(reader)
        return replace(group[0], at=reader.stretch(first)) if group and isinstance(group[0], Repeat) else None
    if not (reader.kind == "number" and reader.peek(1).word in ("x", "times") and reader.peek(2).word in ("(", "[")):
        return None
    times = reader.number()
    reader.take()
    group = read_bracket(reader)
    if not group or not isinstance(group[0], Repeat) or group[0].extent is not None:
        raise reader.stop()
    extent = Extent(times, None, False, False, reader.stretch(first))
    return replace(group[0], extent=extent, at=reader.stretch(first))


def _is_count(reader: Reader, close: int) -> bool:
    """Take a bracket that holds counts, where the row, a sentence or a repeat ends with it."""
    first = reader.position
    after = reader.lexemes[close + 1] if close + 1 < reader.end else reader.end_lexeme
    between_sentences = first > 0 and reader.lexemes[first - 1].word == "." and after.capital
    follows = (
        after.kind == "end"
        or between_sentences
        or after.word in (".", ";", "(", "[", "--", ":", "turn", "join", ")", "]")
        or (after.word in ("fasten", "pm", "do") or (after.word == "," and _names_places(reader, first, close)))
    )
    # "… in first sc. (24 sc) Turn seam inside."
    new_sentence = first > 0 and reader.lexemes[first - 1].word == "." and after.kind == "word" and after.capital
    if not (follows or new_sentence):
        return False
    outer, reader.end = reader.end, close
    reader.take()
    found = accept_stated(reader) and reader.position == close
    reader.end = outer
    reader.position = close + 1 if found else first
    return found


def _explains(reader: Reader, first: int, close: int) -> bool:
    """Whether a bracket only says what was just worked: "2 dc in next st (increase),"."""
    before = reader.lexemes[first - 1] if first else reader.end_lexeme
    after = reader.lexemes[close + 1] if close + 1 < reader.end else reader.end_lexeme
    one_word = close == first + 2 and reader.lexemes[first + 1].word in ("inc", "dec")
    return (
        one_word and before.kind not in ("sign", "end") and (after.kind == "end" or after.word in (",", ";", ".", "*"))
    )


def _names_places(reader: Reader, first: int, close: int) -> bool:
    """Whether a bracket inside a line is a running total: "(31 sts so far),"."""
    return any(each.word in ("st", "so", "total") for each in reader.lexemes[first:close])


def _inside(reader: Reader, close: int) -> list[Item]:
    """The items of a bracket."""
    outer, reader.end = reader.end, close
    reader.take()
    items = reader.items(reader, _NOTHING)
    if reader.position != close or not items:
        raise reader.stop()
    reader.end = outer
    reader.position = close + 1
    return items


def _with_target_and_extent(reader: Reader, first: int, items: tuple[Item, ...]) -> Repeat:
    target = read_target(reader) if reader.word not in ("around", "across") and at_target(reader) else None
    extent = read_extent(reader, starred=False)
    if target is None and extent is None and at_target(reader):
        target = read_target(reader)
        extent = read_extent(reader, starred=False)
    if target is None and _last_governs(items):
        items, target = _governed(items)
    return Repeat(items, extent, target, None, None, False, reader.stretch(first))


def _last_governs(items: tuple[Item, ...]) -> bool:
    """Whether the where-phrase of the last stitch is that of all: [2 dc, ch 2, 2 dc in ch-2 sp]."""
    last = items[-1]
    if not (isinstance(last, Work) and last.target and last.target.reach in (Reach.NEXT, Reach.SAME)):
        return False
    one_place = last.target.count is None and isinstance(items[0], Work)
    plain = all(isinstance(item, Chain) or (isinstance(item, Work) and item.target is None) for item in items[:-1])
    same = isinstance(items[0], Work) and items[0].stitch == last.stitch
    return one_place and plain and same and any(isinstance(item, Chain) for item in items)


def _governed(items: tuple[Item, ...]) -> tuple[tuple[Item, ...], Target | None]:
    last = items[-1]
    if not isinstance(last, Work):
        return items, None
    return (*items[:-1], replace(last, number=last.each, each=None, target=None)), last.target


def read_star(reader: Reader) -> Repeat:
    """From an asterisk to how often it is worked: *…; rep from * across, *…* 6 times, with ** and "ending with"."""
    first = reader.position
    reader.take()
    reader.stars += 1
    items = reader.items(reader, STAR)
    stops_at: int | None = None
    if reader.word == "**":
        reader.take()
        stops_at = len(items)
        items += reader.items(reader, STAR)
    reader.stars -= 1
    if not items:
        raise reader.stop()
    if reader.word == "*" and _goes_to_the_end(items) and not read_after_star(reader):
        reader.take()
        return _starred(
            reader,
            first,
            tuple(items),
            Extent(reader.unwritten(1), None, False, False, reader.stretch(first)),
            None,
            None,
        )
    extent = _star_extent(reader, first)
    ending, at_mark = _ending(reader)
    if at_mark and stops_at is None:
        raise reader.stop()
    return _starred(reader, first, tuple(items), extent, stops_at if at_mark else None, ending)


def _goes_to_the_end(items: list[Item]) -> bool:
    last = items[-1]
    return (
        isinstance(last, Work)
        and last.target is not None
        and last.target.reach is Reach.EACH
        and last.target.stop is not None
    )


def read_after_star(reader: Reader) -> bool:
    """Whether words for how often stand behind the asterisk that closes a pair."""
    after = reader.peek(1)
    return after.kind == "number" or after.word in (
        "rep",
        "twice",
        "x",
        "around",
        "across",
        "to",
        "until",
        ";",
        ",",
        "for",
    )


def _starred(
    reader: Reader,
    first: int,
    items: tuple[Item, ...],
    extent: Extent,
    stops_at: int | None,
    ending: tuple[Item, ...] | None,
) -> Repeat:
    only = items[0]
    if (
        len(items) == 1
        and isinstance(only, Repeat)
        and only.extent is None
        and only.target is None
        and not only.starred
    ):
        items = only.items  # asterisk and brackets around the same group
    return Repeat(items, extent, None, stops_at, ending, True, reader.stretch(first))


def _star_extent(reader: Reader, first: int) -> Extent:
    """Behind the items of an asterisk: its twin with how often, or "rep from *" with how often."""
    paired = reader.accept("*")
    start = reader.position
    while reader.word in (",", ";", "."):
        reader.take()
    if reader.word == "rep":
        reader.take()
        times_first = read_extent(reader, starred=True) if reader.kind == "number" or reader.word == "twice" else None
        from_star = _from_star(reader)
        extent = times_first or read_extent(reader, starred=from_star or not paired)
        if extent is None and from_star and (reader.at_break() or reader.word in ("ending", "end")):
            at = reader.stretch(start)
            return Extent(None, None, False, False, at)
        if extent is None:
            raise reader.stop()
        if paired and not from_star and extent.times is not None and not extent.more:
            extent = replace(extent, doubtful=True)
        return extent
    reader.position = start
    found = read_extent(reader, starred=False) if paired else None
    if found is None:
        raise reader.stop() if paired or reader.kind != "end" else Stopped(first)
    return found


def _from_star(reader: Reader) -> bool:
    """Take "from *", "from *-*", "from * to *", "between *s", "*"."""
    first = reader.position
    if reader.word in ("from", "between", "bet", "btw"):
        reader.take()
    while reader.word in ("*", "-") or (reader.word in ("to", "first", "the") and reader.peek(1).word == "*"):
        reader.take()
    reader.accept("s")
    if reader.position > first and reader.lexemes[reader.position - 1].word not in ("*", "s"):
        raise reader.stop()
    return reader.position > first


def _ending(reader: Reader) -> tuple[tuple[Item, ...] | None, bool]:
    """ "ending with sc in last st", "end last rep at **": the items, and whether the last pass stops at the mark."""
    start = reader.position
    while reader.word in (",", ";") or (reader.word == "." and reader.peek(1).word in ("ending", "end")):
        reader.take()
    works_last = reader.at("working|work", "last") and reader.peek(2).kind == "stitch"
    if reader.word not in ("ending", "end", "ends") and not works_last:
        reader.position = start
        return None, False
    reader.take()
    while reader.word in ("last", "final", "rep", "rnd", "row", "the"):
        reader.take()
    if reader.accept("at", "**") or reader.accept("on", "**") or reader.accept("with", "**"):
        return None, True
    reader.accept("with") or reader.accept("by") or reader.accept("in")
    items = reader.items(reader, _ENDS_ENDING | {"turn", "join", "fasten", "do"})
    if not items:
        raise reader.stop()
    return tuple(items), False


def dash_group(reader: Reader, items: list[Item], start: int, first: int) -> Repeat | None:
    """ "1 sc - 1 inc x 6": all that dashes join is worked six times."""
    if reader.word != "x" and not (reader.kind == "number" and reader.peek(1).word in ("x", "times")):
        return None
    extent = read_extent(reader, starred=False)
    if extent is None:
        return None
    return Repeat(tuple(items[start:]), replace(extent, doubtful=True), None, None, None, False, reader.stretch(first))
