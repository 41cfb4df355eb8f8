"""Reads what lines say of counted places, spans and pieces that meet."""

from __future__ import annotations

from stitchproof.rows.meeting_tree import EndsWith, JoinAs, MarkedStitch, Meeting, NamedSpan, SeamSide, Sewn, StartAfter
from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Amount, Item, Loops, Reach, Remark, Segment, Stretch, Target, Thing, Work

SPAN_WORDS = {
    "underarm": "underarm", "underarms": "underarm", "gusset": "gusset", "gussets": "gusset",
    "armhole": "armhole", "armholes": "armhole", "span": "span", "spans": "span",
}  # fmt: skip
"""Words that name a span, besides the letter or side that tells one from the other."""
_SIDES = frozenset({"left", "right", "front", "back", "first", "second"})
_PIECES = frozenset(
    [
        "body",
        "sleeve",
        "sleeves",
        "front",
        "fronts",
        "back",
        "leg",
        "legs",
        "hood",
        "yoke",
        "panel",
        "panels",
        "strip",
        "strips",
        "thumb",
        "finger",
        "fingers",
        "foot",
        "cuff",
        "cuffs",
        "hem",
        "collar",
    ]
)
_WHICH = frozenset({"left", "right", "first", "second", "third", "fourth", "other", "each", "same"})
_AS_EVER = frozenset({"before", "usual", "est", "established", "always", "prev"})
_LONGEST_NAME = 4
_LONGEST_EDGES = 16


def read_meeting(reader: Reader) -> Meeting | Remark | None:
    """What comes next, if it is one of these. Stops where it begins as one and goes on as none."""
    if reader.kind not in ("word", "number"):
        return None
    if reader.at("in", "the", "same", "way") or reader.at("in", "same", "way"):
        return _same_way(reader)
    if reader.word == "marker" and _letter(reader, 1) and reader.peek(2).word == "in":
        return _marked_stitch(reader)
    if reader.word == "join" and reader.peek(1).word == "as" and reader.peek(2).word not in _AS_EVER:
        return _join_as(reader)
    if reader.word in ("starting", "beg") and reader.peek(1).word == "in":
        return _start_after(reader)
    if reader.word == "sew":
        return _sewn(reader)
    return _ends_with(reader) or _span(reader)


def at_span_name(reader: Reader) -> bool:
    """Whether a span by its name comes next: underarm A, the left underarm."""
    ahead = 0
    while reader.peek(ahead).word in _SIDES or reader.peek(ahead).word in ("the", "next"):
        ahead += 1
    if reader.peek(ahead).kind == "ordinal":
        ahead += 1
    return reader.peek(ahead).word in SPAN_WORDS and reader.peek(ahead + 1).word not in ("st", "ch", "chsp", "sp")


def read_span_name(reader: Reader) -> str:
    """The name of a span. Stops where none comes next."""
    (name,) = read_span_names(reader)[:1] or [""]
    return name


def read_span_names(reader: Reader) -> tuple[str, ...]:
    """Names of spans: "underarms A and B" is two."""
    if not at_span_name(reader):
        raise reader.stop()
    before = ""
    while reader.word not in SPAN_WORDS:
        lexeme = reader.take()
        if lexeme.word not in ("the", "next"):
            before += f"{reader.line.text[lexeme.start : lexeme.end].lower()} "
    word = SPAN_WORDS[reader.take().word]
    if not _letter(reader, 0):
        return (f"{before}{word}",)
    names = [f"{before}{word} {_take_letter(reader)}"]
    while reader.word in ("and", "&", ",") and _letter(reader, 1):
        reader.take()
        names.append(f"{before}{word} {_take_letter(reader)}")
    return tuple(names)


def span_target(reader: Reader) -> Target:
    """A span by its name, as what is passed over."""
    first = reader.position
    name = read_span_name(reader)
    at = reader.stretch(first)
    return Target(Reach.ELSEWHERE, (Thing("span", at, None, name),), None, at, words=name)


def read_piece(reader: Reader) -> str:
    """The piece that a place is of: "of body", "of first sleeve"; "" where none is named."""
    ahead = 1
    while reader.peek(ahead).word in ("the", *_WHICH) or reader.peek(ahead).kind == "ordinal":
        ahead += 1
    if reader.word != "of" or reader.peek(ahead).word not in _PIECES or reader.peek(ahead).kind == "stitch":
        return ""
    reader.take()
    reader.accept("the")
    first = reader.position
    while reader.word not in _PIECES:
        reader.take()
    reader.take()
    return reader.text(reader.stretch(first)).lower()


def _letter(reader: Reader, ahead: int) -> bool:
    """Whether one capital letter comes next, the name of a marker or of a span."""
    lexeme = reader.peek(ahead)
    return lexeme.kind == "word" and lexeme.capital and lexeme.end - lexeme.start == 1


def _take_letter(reader: Reader) -> str:
    lexeme = reader.take()
    return reader.line.text[lexeme.start : lexeme.end].lower()


def read_edges_together(reader: Reader) -> list[Item]:
    """ "Sl st foundation ch and back loops of last row together, st to st": two edges slipped together; none for other words."""
    if reader.kind != "stitch" or reader.word != "slst":
        return []
    length = next((ahead for ahead in range(1, _LONGEST_EDGES) if reader.peek(ahead).word == "tog"), 0)
    between = [reader.peek(ahead) for ahead in range(1, length)]
    if "and" not in [each.word for each in between] or any(each.kind != "word" for each in between):
        return []
    first = reader.position
    reader.position += length + 1
    at = reader.stretch(first)
    words = " ".join(reader.line.text[between[0].start : at.end].split())
    start = reader.position
    reader.accept(",")
    if not reader.accept("st", "to|for", "st"):
        reader.position = start
    each = Target(Reach.EACH, (Thing("st", at),), None, at)
    return [Segment(words, at), Work("slst", Loops.BOTH, None, None, each, reader.stretch(first))]


def _marker_name(reader: Reader) -> str:
    """ "marker A": the name, in small letters as all names of marks are."""
    if not reader.accept("marker") or not _letter(reader, 0):
        raise reader.stop()
    return _take_letter(reader)


def _same_way(reader: Reader) -> Remark:
    first = reader.position
    while not reader.at_break():
        reader.take()
    at = reader.stretch(first)
    return Remark(reader.text(at), at)


def _marked_stitch(reader: Reader) -> MarkedStitch:
    first = reader.position
    name = _marker_name(reader)
    reader.take()
    reader.accept("the")
    if reader.kind == "ordinal":
        lexeme = reader.take()
        nth: Amount | None = Amount(reader.line.scalar(lexeme.number), Stretch(lexeme.start, lexeme.end))
        if not reader.accept("st"):
            raise reader.stop()
    elif reader.accept("st"):
        nth = reader.number()
    else:
        nth = None
    if nth is None:
        raise reader.stop()
    row = _row_words(reader) if reader.accept("of") else ""
    start = reader.position
    reader.accept(",")
    counted_from, marked_is = _counting(reader)
    if not counted_from:
        reader.position = start
        marked_is = 1
    return MarkedStitch(name, nth, row, counted_from, marked_is, reader.stretch(first))


def _row_words(reader: Reader) -> str:
    first = reader.position
    while not reader.at_break() and reader.word not in ("row", "rnd"):
        reader.take()
    if reader.word not in ("row", "rnd"):
        raise reader.stop()
    reader.take()
    return reader.text(reader.stretch(first)).lower().removeprefix("the ")


def _counting(reader: Reader) -> tuple[str, int | None]:
    """From which marker is counted, and which number its stitch has: "counting the st with marker A as st 1"."""
    excluded = reader.accept("not") or reader.accept("without")
    if not (reader.accept("counting") or reader.accept("counted")):
        return "", None
    reader.accept("from")
    reader.accept("the")
    if reader.accept("st", "after"):
        return _marker_of_stitch(reader), 0
    name = _marker_of_stitch(reader)
    if reader.accept("as", "st"):
        number = reader.number()
        value = number.values[0] if number else None
        if value not in (0, 1):
            raise reader.stop()
        return name, 1 if value == 1 else 0
    return name, 0 if excluded else None


def _marker_of_stitch(reader: Reader) -> str:
    """ "the st with marker A", or "marker A"."""
    reader.accept("the")
    reader.accept("st", "with")
    reader.accept("the")
    return _marker_name(reader)


def _span(reader: Reader) -> NamedSpan | None:
    """ "Underarm A: the st with marker A, the 3 sts before it and the 3 sts after it"."""
    colon = next((ahead for ahead in range(1, _LONGEST_NAME) if reader.peek(ahead).word == ":"), 0)
    first = reader.position
    if not colon or not at_span_name(reader):
        return None
    name = read_span_name(reader)
    is_told = reader.accept(":")
    reader.accept("the")
    if not (is_told and _tells_span(reader)):
        reader.position = first
        return None
    with_marked = reader.at("st", "with")
    if with_marked:
        marker = _marker_of_stitch(reader)
        reader.accept(",")
        reader.accept("and")
        reader.accept("the")
    before, after, marker = _sides(reader, marker if with_marked else "")
    return NamedSpan(name, marker, before, after, with_marked, reader.stretch(first))


def _tells_span(reader: Reader) -> bool:
    """Whether what follows a name and a colon are the stitches around a marker."""
    if reader.at("st", "with"):
        return True
    sides = ("either", "on", "before", "after")
    return reader.kind == "number" and reader.peek(1).word == "st" and reader.peek(2).word in sides


def _sides(reader: Reader, marker: str) -> tuple[Amount | None, Amount | None, str]:
    """How many stitches before and after it, and its marker if it is named here only."""
    found: dict[str, Amount] = {}
    while reader.kind == "number":
        number = reader.number()
        reader.accept("st")
        if number is None:
            break
        if reader.accept("either", "side", "of") or reader.accept("on", "either", "side", "of"):
            found["before"] = found["after"] = number
        elif reader.at("before|after"):
            found[reader.take().word] = number
        else:
            raise reader.stop()
        if not reader.accept("it"):
            reader.accept("the")
            reader.accept("st", "with")
            marker = _marker_name(reader)
        _bracket(reader)
        start = reader.position
        reader.accept(",")
        reader.accept("and")
        reader.accept("the")
        if reader.kind != "number":
            reader.position = start
    if not found or not marker:
        raise reader.stop()
    return found.get("before"), found.get("after"), marker


def _bracket(reader: Reader) -> None:
    """Words in brackets that only say where a place lies."""
    close = reader.close_of(reader.position) if reader.word == "(" else None
    if close is not None and all(each.kind != "stitch" for each in reader.lexemes[reader.position : close]):
        reader.position = close + 1


def _ends_with(reader: Reader) -> EndsWith | None:
    """ "The half rnd ends with the last st of underarm B"."""
    first = reader.position
    reader.accept("the")
    begin = reader.position
    ends = ("row", "rnd", "row-end")
    while reader.kind == "word" and reader.position - begin < _LONGEST_NAME and reader.word not in ends:
        reader.take()
    if reader.word in ends and reader.kind == "word":
        # "short row ends" is two words of the trade's that look like one
        told = reader.take().word == "row-end" or reader.accept("ends|end")
        row = reader.text(reader.stretch(begin)).lower()
        for ending in (" ends", " end"):
            row = row.removesuffix(ending)
        if told and reader.accept("with|in", "the", "last", "st", "of") and at_span_name(reader):
            return EndsWith(row, read_span_name(reader), reader.stretch(first))
    reader.position = first
    return None


def _start_after(reader: Reader) -> StartAfter | None:
    first = reader.position
    reader.take()
    reader.take()
    reader.accept("the")
    after = reader.kind == "ordinal" and reader.peek().number == 1 and reader.peek(1).word == "st"
    if not after or reader.peek(2).word != "after":
        reader.position = first
        return None
    for _ in range(3):
        reader.take()
    reader.accept("its")
    return StartAfter(read_span_name(reader), reader.stretch(first))


def _join_as(reader: Reader) -> JoinAs | None:
    first = reader.position
    reader.take()
    reader.take()
    reader.accept("for") or reader.accept("on")
    reader.accept("the")
    begin = reader.position
    while reader.kind == "word" and not reader.at_break():
        reader.take()
    if reader.position == begin or not reader.at_break():
        reader.position = first
        return None
    return JoinAs(reader.text(reader.stretch(begin)).lower(), reader.stretch(first))


def _sewn(reader: Reader) -> Sewn | None:
    """A seam of spans; None for other words about sewing."""
    first = reader.position
    reader.take()
    one = _seam_side(reader)
    if one is None or not reader.accept("to"):
        reader.position = first
        return None
    other = _seam_side(reader)
    reader.accept(",")
    if other is None or not reader.accept("st", "to|for", "st"):
        reader.position = first
        return None
    return Sewn(one, other, reader.stretch(first))


def _seam_side(reader: Reader) -> SeamSide | None:
    first = reader.position
    reader.accept("the")
    number = reader.number()
    if number is not None and not reader.accept("st", "of"):
        return None
    if not at_span_name(reader):
        return None
    spans = read_span_names(reader)
    piece = read_piece(reader)
    each = piece.startswith("each ")
    return SeamSide(number, spans, piece.removeprefix("each "), each, reader.stretch(first))
