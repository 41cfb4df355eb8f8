"""What is done between stitches: turn, join, join yarn, fasten off, leave unworked, markers, loops from here on."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.reader import Reader
from stitchproof.rows.remarks import leaves_a_tail
from stitchproof.rows.row_tree import (
    Amount,
    FastenOff,
    InLoops,
    Item,
    Join,
    JoinYarn,
    Leave,
    Mark,
    Reach,
    Remark,
    Segment,
    Stretch,
    Target,
    Turn,
)
from stitchproof.rows.row_words import LOOPS
from stitchproof.rows.things import at_thing, read_thing
from stitchproof.rows.where import at_target, read_place, read_target

_YARN = frozenset({"yarn", "color", "a", "b", "c", "mc", "cc", "new", "cotton", "thread"})


def read_move(reader: Reader) -> Item | None:
    """What comes next, if it is one of these."""
    if reader.kind != "word":
        return None
    word = reader.word
    if word in ("do", "don't", "don’t", "without"):
        return _not(reader)
    if word in ("turn", "turning"):
        return _turn(reader)
    if word == "fasten":
        return _fasten_off(reader)
    if word in ("join", "rejoin", "attach"):
        return _join(reader)
    if word == "leave" and not leaves_a_tail(reader):
        return _leave(reader)
    if word in ("pm", "sm") or reader.at("remove|removing", "marker") or reader.at("remove|removing", "the", "marker"):
        return _mark(reader)
    if word in LOOPS and not at_target_after_loops(reader):
        return _loops(reader)
    if word in ("working", "work") and _loops_ahead(reader):
        return _loops(reader)
    if word in ("in", "through", "under") and (reader.peek(1).word in LOOPS or reader.peek(2).word in LOOPS):
        return _loops(reader)
    return None


def at_target_after_loops(reader: Reader) -> bool:
    """Whether the loops that come next are those of one stitch: "BLO sc"."""
    return reader.peek(1).kind == "stitch" or reader.peek(1).word in ("inc", "dec") or reader.peek(1).kind == "number"


def _loops_ahead(reader: Reader) -> bool:
    return any(reader.peek(ahead).word in LOOPS and reader.peek(ahead).kind == "word" for ahead in (1, 2, 3)) and (
        reader.peek(1).word in ("in", "through", "under", "the", "both", *LOOPS)
    )


def _loops(reader: Reader) -> InLoops:
    first = reader.position
    while reader.word not in LOOPS:
        reader.take()
    loops = LOOPS[reader.take().word]
    while reader.word in (
        "only",
        "of",
        "each",
        "st",
        "every",
        "from",
        "here",
        "on",
        "the",
        "this",
        "for",
        "row",
        "rnd",
        "entire",
    ):
        reader.take()
    throughout = reader.accept("throughout")
    if not (reader.at_break() or reader.opens or reader.kind in ("stitch", "number") or reader.word in ("work", "ch")):
        raise reader.stop()
    return InLoops(loops, reader.stretch(first), throughout)


def _not(reader: Reader) -> Item | None:
    first = reader.position
    ahead = 2 if reader.peek(1).word == "not" else 1
    what = reader.peek(ahead).word
    for _ in range(ahead + 1):
        reader.take()
    at = reader.stretch(first)
    if what in ("turn", "turning"):
        return Turn(True, at)
    if what == "join":
        while reader.word in ("rnd", "the", "rnds", "with") or reader.kind == "stitch":
            reader.take()
        if reader.word in ("or", "and") and reader.peek(1).word == "turn":
            reader.take()
            reader.take()
        return Join("slst", None, True, reader.stretch(first))
    if what in ("inc", "dec", "shaping") and reader.lexemes[first].word == "without":
        return Remark(reader.text(at), at)
    if what in ("fasten", "cut", "break", "work"):
        if what == "work":
            raise reader.stop()
        return Remark(reader.text(at), at)
    raise reader.stop()


def _turn(reader: Reader) -> Item:
    first = reader.position
    reader.take()
    reader.accept("work") or reader.accept("the", "work")
    if reader.word in ("upside", "clockwise", "so", "180"):
        while not (reader.kind == "end" or reader.word in (",", ".", ";", "--")):
            reader.take()
        return Segment(reader.text(reader.stretch(first)), reader.stretch(first))
    if reader.word in ("ring", "seam", "piece", "rs", "ws", "body", "hat", "inside", "right", "to", "the"):
        while not (reader.kind == "end" or reader.word in (".", ";", "--")):
            reader.take()
        at = reader.stretch(first)
        return Remark(reader.text(at), at)
    return Turn(False, reader.stretch(first))


def _fasten_off(reader: Reader) -> FastenOff:
    first = reader.position
    reader.take()
    while reader.word in ("loosely", "yarn", "securely", "and", "weave", "in", "ends", "all", "the") and not (
        reader.word == "and" and reader.peek(1).word not in ("weave",)
    ):
        reader.take()
    return FastenOff(reader.stretch(first))


def _join(reader: Reader) -> Item:
    first = reader.position
    reader.take()
    ahead = 0
    while reader.peek(ahead).word in ("the", "new", "same", "with"):
        ahead += 1
    lexeme = reader.peek(ahead)
    if lexeme.word in _YARN and (lexeme.capital or len(lexeme.word) > 1):
        return _join_yarn(reader, first)
    stitch = "slst"
    reader.accept("rnd") or reader.accept("work") or reader.accept("the", "rnd") or reader.accept(
        "into|in", "a", "ring|rnd"
    )
    target: Target | None = None
    if reader.at("as", "before|usual|est|established|always|prev") or reader.at("in", "the", "same", "way"):
        reader.take()
        reader.take()
        reader.accept("way")
    while True:
        if reader.word in ("with", "by", "using"):
            reader.take()
            reader.accept("a") or reader.accept("an") or reader.accept("invisible", "join")
            if reader.kind != "stitch":
                raise reader.stop()
            stitch = reader.take().word
        elif target is None and reader.word == "to" and _is_place(reader):
            reader.take()
            target = read_place(reader)
        elif target is None and reader.at("last", "st|row|rnd", "to|and|with"):
            for _ in range(3):
                reader.take()
            target = read_place(reader)
        elif target is None and (at_target(reader) or reader.kind == "ordinal"):
            target = read_target(reader)
        elif reader.at("to", "join|form|close|complete"):
            while reader.word in ("to", "join", "form", "close", "complete", "ring", "rnd", "last", "st", "a", "the"):
                if reader.word == "to" and _is_place(reader):
                    break
                reader.take()
        else:
            break
    return Join(stitch, target, False, reader.stretch(first))


def _is_place(reader: Reader) -> bool:
    ahead = 1
    while reader.peek(ahead).word in ("the", "a"):
        ahead += 1
    lexeme = reader.peek(ahead)
    return (
        lexeme.kind in ("ordinal", "stitch")
        or lexeme.word in ("top", "first", "beg", "begch", "same", "next", "base")
        or (at_thing(reader, ahead))
    )


def _join_yarn(reader: Reader, first: int) -> JoinYarn:
    while reader.word in ("the", "new", "same", "with", "yarn", "color", "a", "b", "c", "mc", "cc", "cotton", "thread"):
        if reader.word == "with" and (reader.peek(1).kind == "stitch" or reader.peek(2).kind == "stitch"):
            break
        reader.take()
    if reader.accept("with"):
        reader.accept("a") or reader.accept("an")
        if reader.kind != "stitch":
            raise reader.stop()
        reader.take()
    target: Target | None = None
    if reader.word == "to" and _is_place(reader):
        reader.take()
        target = read_place(reader)
    elif at_target(reader):
        target = read_target(reader)
    elif reader.word in ("at", "in"):
        target = _elsewhere(reader)
    if not reader.at_break() and target is not None:
        _words_to_the_end(reader)
        at = Stretch(target.at.start, reader.stretch(first).end)
        target = replace(target, at=at, words=reader.text(at))
    return JoinYarn(target, reader.stretch(first))


def _elsewhere(reader: Reader) -> Target:
    """A place that only its words tell: "at lower edge of right front"."""
    first = reader.position
    number = _words_to_the_end(reader)
    at = reader.stretch(first)
    return Target(Reach.ELSEWHERE, (), number, at, words=reader.text(at))


def _words_to_the_end(reader: Reader) -> Amount | None:
    """Words that tell more of a place, up to the next sign; the number among them, if there is one only."""
    numbers: list[Amount] = []
    while not (reader.kind == "end" or reader.word in (",", ".", ";", "--", ":", "(")):
        number = reader.number() if reader.kind == "number" else None
        if number is None:
            reader.take()
        else:
            numbers.append(number)
    return numbers[0] if len(numbers) == 1 else None


def _leave(reader: Reader) -> Leave:
    """ "leave rem sts unworked", "leaving last 6 sts unworked", "leave rest of row unworked"."""
    first = reader.position
    reader.take()
    target: Target | None = None
    reader.accept("the")
    is_rest = reader.word == "rem"
    rest = reader.accept("rest|remainder|balance")
    if rest:
        if reader.accept("of"):
            reader.accept("the")
            reader.accept("row") or reader.accept("rnd") or reader.accept("st") or reader.accept("this", "row")
    elif reader.word in ("rem", "these", "those"):
        reader.take()
        reader.accept("rem") or reader.accept("last")
        reader.number()
        if at_thing(reader):
            read_thing(reader)
    else:
        target = read_place(reader)
    if not (
        reader.accept("unworked")
        or reader.accept("un", "worked")
        or reader.accept("free")
        or reader.accept("held")
        or ((rest or is_rest) and reader.at_break())
    ):
        raise reader.stop()
    if reader.accept("for") or reader.accept("at"):
        _words_to_the_end(reader)
    return Leave(target, reader.stretch(first))


def _mark(reader: Reader) -> Mark:
    """Markers placed, moved up or removed, with their place."""
    first = reader.position
    word = reader.take().word
    what = {"pm": "placed", "sm": "moved"}.get(word, "removed")
    while reader.word in ("the", "marker", "a", "up") and not at_thing_is_place(reader):
        reader.take()
    name = ""
    if reader.kind == "word" and reader.peek().capital and reader.peek().end - reader.peek().start == 1:
        lexeme = reader.take()
        name = reader.line.text[lexeme.start : lexeme.end]
    if (
        reader.at("for", "end|beg|st|start")
        or reader.at("to", "mark|indicate|next|new|this|same")
        or reader.at("as", "you")
    ):
        _words_to_the_end(reader)
        return Mark(what, None, name, reader.stretch(first))
    target: Target | None = None
    listed = _listed(reader)
    if listed is not None:
        target = listed
    elif reader.word == "after":
        target = _elsewhere(reader)
    elif at_target(reader):
        target = read_target(reader)
    elif reader.kind == "ordinal" or reader.at("the") or (at_thing(reader) and not reader.at_break()):
        target = read_place(reader)
    _after_mark(reader)
    return Mark(what, target, name, reader.stretch(first))


def at_thing_is_place(reader: Reader) -> bool:
    """Whether "the" begins the place that is marked, not the marker."""
    return reader.word == "the" and reader.peek(1).word not in ("marker",)


def _listed(reader: Reader) -> Target | None:
    """ "in the 1st, 13th and 25th st": several marked places, which only their words tell; None where no list comes next."""
    first = reader.position
    while reader.word in ("in", "the"):
        reader.take()
    if reader.kind != "ordinal" or reader.peek(1).word not in (",", "and"):
        reader.position = first
        return None
    while reader.kind == "ordinal" or (reader.word in (",", "and", "the") and reader.peek(1).kind == "ordinal"):
        reader.take()
    reader.accept("st")
    at = reader.stretch(first)
    return Target(Reach.ELSEWHERE, (), None, at, words=reader.text(at))


def _after_mark(reader: Reader) -> None:
    while reader.at("of", "each|the|this|next|every") or reader.at("made|just") or reader.at("for", "later"):
        _words_to_the_end(reader)
