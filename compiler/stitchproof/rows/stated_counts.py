"""Counts that a row states: — 24 sc, (12 sc, 12 ch-1 sps), = 24 sts, 4 sts dec."""

from __future__ import annotations

from stitchproof.rows.reader import Reader, Stopped
from stitchproof.rows.row_tree import Stated, StatedCount, Thing
from stitchproof.rows.things import at_thing, read_thing

_BEFORE = (
    ("you", "will", "have"), ("you", "should", "have"), ("you", "have"), ("there", "will", "be"), ("there", "are"),
    ("there", "should", "be"), ("for", "a", "total", "of"), ("a", "total", "of"), ("total", "of"), ("total",), ("makes",),
)  # fmt: skip
_CHANGES = {
    "inc": 1,
    "inc'd": 1,
    "inc’d": 1,
    "dec'd": -1,
    "dec’d": -1,
    "increased": 1,
    "added": 1,
    "dec": -1,
    "decreased": -1,
}
_AFTER = frozenset([
    "rem", "remain", "remains", "left", "total", "in", "all", "made", "worked", "each", "altogether", "so",
    "far", "complete", "around", "across", "now", "at", "end", "of", "row", "rnd", "the", "neck", "edge",
    "edges", "armhole", "this", "on", "hook", "per", "section", "sections", "group", "side",
])  # fmt: skip
_GROUPS = frozenset({"each", "per"})


def accept_stated(reader: Reader, needs_noun: bool = False) -> bool:
    """Take a list of counts that goes to the end of the line, of its sentence or its bracket, if one comes next."""
    first = reader.position
    stated = _stated(reader, needs_noun)
    if stated is None:
        reader.position = first
        return False
    reader.stated.append(stated)
    return True


def _stated(reader: Reader, needs_noun: bool) -> Stated | None:
    first = reader.position
    for words in _BEFORE:
        if reader.accept(*words):
            break
    counts: list[StatedCount] = []
    per_group = False
    try:
        while True:
            count = _count(reader)
            if count is None or (needs_noun and count.thing is None):
                return None
            counts.append(count)
            while reader.word in _AFTER and reader.kind == "word":
                per_group = reader.take().word in _GROUPS or per_group
            if reader.at("not|including|incl|excluding|counting") or reader.at(
                ",", "not|including|incl|excluding|counting"
            ):
                while not (reader.kind == "end" or reader.word in (".", ")", "]")):
                    reader.take()
            if not _goes_on(reader):
                break
            while reader.word in (",", "and", "+", "&", "plus", ";"):
                reader.take()
    except Stopped:
        return None
    if not (reader.kind == "end" or reader.word in (".", ")", "]")):
        return None
    return Stated(tuple(counts), reader.stretch(first), per_group)


def _goes_on(reader: Reader) -> bool:
    if reader.word not in (",", "and", "+", "&", "plus", ";"):
        return False
    ahead = 1
    while reader.peek(ahead).word in ("and", "plus"):
        ahead += 1
    return reader.peek(ahead).kind == "number" or (reader.peek(ahead).word == "ch" and reader.word == "+")


def _count(reader: Reader) -> StatedCount | None:
    """One count, with its thing and whether it is a change."""
    first = reader.position
    change = 0
    if reader.word in ("+", "-") and reader.peek(1).kind == "number":
        change = 1 if reader.take().word == "+" else -1
    if reader.word == "ch" and reader.peek(1).kind == "number":
        # "19 dc + ch 3": the turning chain besides
        at = reader.stretch(reader.position)
        reader.take()
        reader.take()
        return StatedCount(reader.unwritten(1), Thing("tch", at), 0, reader.stretch(first))
    bracketed = reader.opens and reader.peek(1).kind == "number" and reader.peek(2).word in (")", "]")
    if bracketed:
        reader.take()
    amount = reader.number()
    if bracketed:
        reader.take()
    if amount is None:
        return None
    reader.accept("x")
    thing = None
    if reader.word in _CHANGES and at_thing(reader, 1):
        change = _CHANGES[reader.take().word]
    if at_thing(reader):
        thing = read_thing(reader)
        if thing.name in ("marker", "place"):
            return None
    if reader.word in _CHANGES and reader.kind == "word":
        change = _CHANGES[reader.take().word]
    return StatedCount(amount, thing, change, reader.stretch(first))
