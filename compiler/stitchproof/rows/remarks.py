"""Words that make and take nothing: which side faces, colours, what is done to the piece, notes in brackets."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Remark, Segment

_WHOLE_SENTENCE = frozenset([
    "thread", "weave", "draw", "pull", "secure", "trim", "sew", "stuff", "block", "hold", "close",
    "fold", "press", "steam", "tie", "push", "read", "count", "note", "piece", "measures", "hat", "embroider",
    "fill", "insert", "being", "taking", "ensuring", "body", "sleeve", "yoke", "sleeves", "these", "this", "it", "your",
    "you", "use", "change", "switch",
    "remember", "try", "check", "be",
])  # fmt: skip
"""A sentence that begins so is an explanation, or something done without stitches."""
_WITH_CARE = frozenset({"being", "taking", "be", "ensuring"})
"""A clause that begins so may end at a comma: "ch 60, being careful not to twist, join with sl st in first ch"."""
_AT_END = frozenset({"tail", "end", "ends", "yarn"})
_WORKING = frozenset({"inc", "dec", "sk", "turn", "ddec", "work", "working"})
_EDGE_WORDS = frozenset([
    "front", "back", "neck", "edge", "edges", "side", "sides", "armhole", "shoulder", "lower", "upper", "left",
    "right", "v", "underarm", "row-end", "basech", "along", "hem", "brim", "top", "bottom", "last", "rib",
    "ribs", "free", "opposite", "base", "other", "foundation", "next", "first", "body", "thumb", "both",
    "neckline", "hole", "cuff",
])  # fmt: skip


def is_remark(reader: Reader, first: int, end: int) -> bool:
    """Whether the words from `first` up to `end`, those of a bracket, tell nothing to be worked."""
    inside = reader.lexemes[first:end]
    if not inside:
        return True
    if inside[0].word in _WORKING or (inside[0].word == "ch" and len(inside) > 1 and inside[1].kind == "number"):
        return False
    if any(each.word in ("counts", "count", "counted") for each in inside):
        return True
    if inside[0].kind == "number":
        # "(5 rnds)" tells how many rows a range has; anything else with a number at its head may be worked.
        return len(inside) == 2 and inside[1].word in ("row", "rnd", "marker")
    stitches = [index for index, each in enumerate(inside) if each.kind == "stitch"]
    if not stitches:
        return not any(each.word in ("inc", "dec", "sk") for each in inside) or len(inside) == 1
    # "(shell)", "(first V-st made)", "(hdc rows only)": a stitch is named, and no place and no number are said of it.
    if len(inside) == 1:
        return inside[0].word in ("shell", "vst", "cluster", "puff", "bobble", "popcorn", "picot", "fan")
    if inside[-1].word in ("made", "complete", "completed"):
        return not any(each.kind == "number" or each.word in (",", "inc", "dec") for each in inside)
    return inside[-1].word in ("rs", "ws") and inside[0].kind != "stitch"


def at_remark(reader: Reader) -> bool:
    """Whether words come next that make and take nothing."""
    if reader.kind != "word":
        return False
    word, after = reader.word, reader.peek(1).word
    if _tells_what_is(reader):
        return True
    if (
        word in ("draw", "pull")
        and after in ("up", "lp", "through")
        and "lp" in (reader.peek(2).word, reader.peek(3).word)
    ):
        return False  # a stitch described, not named
    if word == "the" and after in _WHOLE_SENTENCE | {"test", "seam", "wrong", "join"}:
        return True
    if word in _WHOLE_SENTENCE and not (word == "work" or reader.peek(1).kind == "stitch"):
        return not (word in ("body", "sleeve", "yoke", "hat") and after in ("row", "rnd"))
    if (
        reader.at("no", "inc|dec|shaping")
        or reader.at("beg|cont|stuffing", "stuffing|,|.|lightly|firmly")
        or reader.at("work", "sure")
    ):
        return True
    if word in (
        "rs",
        "ws",
        "with",
        "using",
        "drop",
        "carry",
        "loosely",
        "tightly",
        "evenly",
        "keeping",
        "changing",
        "switching",
    ):
        return True
    return (
        word == "rest"
        or (word == "from" and after in ("left", "right", "rs", "ws"))
        or (word == "so" and after == "that")
        or (word == "leave" and leaves_a_tail(reader))
        or (word == "of" and after in ("body", "sleeve"))
    )


def _tells_what_is(reader: Reader) -> bool:
    """Whether a sentence says what there is, not what to do: "Collar measures 9 cm", "The marker is now at the left side"."""
    if reader.word == "the" and reader.peek(1).word == "marker":
        return reader.peek(2).word in ("is", "are", "now")
    return reader.kind == "word" and reader.peek(1).word == "measures"


def leaves_a_tail(reader: Reader) -> bool:
    """Whether "leave" speaks of yarn, not of stitches."""
    ahead = 1
    while ahead < 8 and reader.peek(ahead).kind != "end" and reader.peek(ahead).word not in (",", ".", ";"):
        if reader.peek(ahead).word in _AT_END:
            return True
        ahead += 1
    return False


def read_remark(reader: Reader) -> Remark:
    """The remark, up to the end of its clause or sentence. Stops if something to be worked stands in it."""
    first = reader.position
    whole = reader.word in _WHOLE_SENTENCE or reader.word in ("the", "so") or _tells_what_is(reader)
    ends = (".", "--") if whole else (".", ",", ";", "--", "(", "[")
    before_work = (";", ",") if reader.word in _WITH_CARE else (";",)
    reader.take()
    while not (reader.kind == "end" or reader.word in ends):
        lexeme = reader.peek()
        after = reader.peek(1)
        if lexeme.kind == "number" and after.kind == "stitch" and not after.glued:
            raise reader.stop()
        if lexeme.kind == "stitch" and after.word in ("in", "next", "across", "around", "each"):
            if whole or not _is_way(reader, first):
                raise reader.stop()
            break
        if not whole and lexeme.kind == "stitch" and reader.lexemes[reader.position - 1].word == "join":
            break
        if not whole and lexeme.word in ("join", "sk", "turn", "ch") and reader.position > first + 1:
            break
        if whole and lexeme.word in before_work and _begins_work(reader):
            break
        reader.take()
    at = reader.stretch(first)
    return Remark(reader.text(at), at)


def _is_way(reader: Reader, first: int) -> bool:
    """Whether a clause such as "with RS facing" came before the stitch without a comma."""
    return reader.lexemes[first].word in ("rs", "ws", "with", "using") and reader.position > first + 1


def _begins_work(reader: Reader) -> bool:
    """Whether an instruction follows the sign: a stitch, or words for where it is worked."""
    return reader.peek(1).kind == "stitch" or reader.peek(1).word in (
        "working",
        "ch",
        "join",
        "sk",
        "turn",
        "*",
        "[",
        "(",
    )


def at_segment(reader: Reader) -> bool:
    """Whether words come next that name an edge: "working along row-ends", "Up right front:", "along opposite side of ch"."""
    if reader.kind != "word":
        return False
    if reader.word in ("working", "work", "cont", "now") and reader.peek(1).word in (
        "along", "up", "down", "across", "around", "through", "over", "on", "in",
    ) :  # fmt: skip
        return _is_edge(reader, 2) and not (reader.word == "work" and reader.peek(1).word == "in")
    if reader.word in ("along", "up", "down"):
        return True
    return reader.word != "in" and _ends_with_colon(reader)


def _is_edge(reader: Reader, ahead: int) -> bool:
    while reader.peek(ahead).word in ("the", "on", "other", "a", "down"):
        ahead += 1
    return reader.peek(ahead).kind == "word" and reader.peek(ahead).word not in (
        "each",
        "next",
        "blo",
        "flo",
        "both",
        "third",
        "pat",
    )


def _ends_with_colon(reader: Reader) -> bool:
    """Whether a few words and a colon come next, one of them for an edge or a part, and none for a stitch."""
    edge = False
    for ahead in range(8):
        lexeme = reader.peek(ahead)
        if lexeme.word == ":":
            return edge and ahead > 0
        if lexeme.kind != "word" or lexeme.word in _WORKING:
            return False
        edge = edge or lexeme.word in _EDGE_WORDS
    return False


def read_segment(reader: Reader) -> Segment:
    """The edge, as written."""
    first = reader.position
    while not (reader.kind == "end" or reader.word in (",", ":", ".", ";", "[", "(", "*")):
        lexeme = reader.peek()
        if lexeme.kind == "stitch" and reader.peek(1).word in ("in", "across", "around", "evenly", "next"):
            break
        if lexeme.kind == "number" and reader.peek(1).kind == "stitch":
            break
        reader.take()
    at = reader.stretch(first)
    reader.accept(":")
    return Segment(reader.text(at), at)
