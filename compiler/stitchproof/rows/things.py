"""What is worked into or counted: sts, ch-1 sps, row-ends, held sts, 5-dc shells."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Amount, Thing

STARTING = frozenset({"beg", "turning", "starting", "initial"})
NARROWING = STARTING | frozenset(
    {
        "held", "underarm", "free", "rem", "corner", "center", "unworked", "skipped", "marked", "foundation", "body",
        "sleeve", "front", "back", "whole", "single", "end", "edge", "beg", "first", "starting", "joining",
    }
)  # fmt: skip
_PLAIN = {
    "st": "st", "sp": "sp", "lp": "loop", "row-end": "row-end", "ring": "ring", "tch": "tch", "begch": "tch",
    "basech": "base ch", "marker": "marker", "group": "group", "rib": "rib", "row": "row", "rnd": "rnd", "mesh": "mesh",
    "corner": "corner", "place": "place", "blo": "loop", "flo": "loop", "section": "section", "post": "post",
}  # fmt: skip


def at_thing(reader: Reader, ahead: int = 0) -> bool:
    """Whether a thing comes next."""
    while reader.peek(ahead).word in NARROWING and reader.peek(ahead).kind != "stitch":
        if reader.peek(ahead).word == "corner" and not _is_head(reader, ahead + 1):
            return True
        ahead += 1
    return _is_head(reader, ahead)


def _is_head(reader: Reader, ahead: int) -> bool:
    lexeme, after = reader.peek(ahead), reader.peek(ahead + 1)
    if lexeme.kind == "stitch":
        return True
    if lexeme.kind == "number" and after.word == "ch" and reader.peek(ahead - 1).word in STARTING:
        return True
    if lexeme.kind == "number":
        return (
            after.word in ("ch", "chsp")
            and (after.glued or not after.spaced or reader.peek(ahead + 2).word in ("sp", "lp"))
        ) or (after.kind == "stitch" and after.glued)
    return lexeme.word in _PLAIN or lexeme.word in ("ch", "chsp")


def read_thing(reader: Reader) -> Thing:
    """The thing that comes next. Stops where there is none."""
    first = reader.position
    of = ""
    while reader.word in NARROWING and reader.kind != "stitch":
        if reader.word == "corner" and not _is_head(reader, 1):
            break
        of = reader.take().word
    chains: Amount | None = None
    if reader.kind == "number" and reader.peek(1).kind == "stitch" and reader.peek(1).glued:
        reader.take()
        reader.take()  # "5-dc shell": how it is made; the shell is the thing
        name = _name(reader)
    elif reader.kind == "number" and reader.peek(1).word == "ch" and of in STARTING:
        reader.take()
        reader.take()
        name, of = "tch", ""
    elif reader.kind == "number" and reader.peek(1).word in ("ch", "chsp"):
        chains = reader.number()
        chains_of_space = reader.take().word == "chsp" or reader.accept("sp") or reader.accept("lp")
        name = "chsp" if chains_of_space else "ch"
    elif reader.word == "ch" and reader.kind != "stitch":
        name, chains = _chain(reader)
    elif reader.word == "chsp":
        reader.take()
        name = "chsp"
    else:
        name = _name(reader)
    if name == "ch" and of in STARTING:
        name, of = "tch", ""
    if name == "tch":
        reader.number()  # "turning ch 3"
    return Thing(name, reader.stretch(first), chains, of)


def _chain(reader: Reader) -> tuple[str, Amount | None]:
    """ "ch", "ch-2 sp", "ch 2 sp", and "ch-2", which is the space that two chains made."""
    reader.take()
    number = reader.peek()
    if number.kind != "number" or not (number.glued or reader.peek(1).word in ("sp", "lp")):
        if reader.accept("sp") or reader.accept("lp"):
            return "chsp", None
        return "ch", None
    chains = reader.number()
    reader.accept("sp") or reader.accept("lp") or reader.accept("corner", "sp")
    return "chsp", chains


def _name(reader: Reader) -> str:
    if reader.kind == "stitch":
        return reader.take().word
    if reader.word not in _PLAIN:
        raise reader.stop()
    return _PLAIN[reader.take().word]
