"""Places at a starting chain (its top, its base, one of its chains), and words that tell where a place stands."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Reach, Target
from stitchproof.rows.things import at_thing, read_thing


def accept_as_what(reader: Reader) -> None:
    """ "same st as joining", "as ch 1", "as last sl st", "as join sl st"."""
    while reader.word in ("the", "prev", "last", "beg") or reader.kind == "ordinal":
        reader.take()
    if reader.kind == "stitch":
        reader.take()
    elif reader.accept("ch|begch|tch|basech"):
        reader.number()
    elif reader.accept("join|joining|turning"):
        if reader.kind == "stitch" or reader.word == "st":
            reader.take()
    elif at_thing(reader):
        read_thing(reader)
    else:
        raise reader.stop()
    reader.accept("made") or reader.accept("was", "worked")


def read_top(reader: Reader, first: int) -> Target:
    """ "top of tch", "top of beg ch-3", "top of first dc"."""
    reader.take()
    reader.take()
    if reader.at("last") and reader.peek(1).kind == "stitch":
        # "ch 3, sl st in top of last sc (made)": a picot on the stitch just made
        reader.take()
        reader.take()
        reader.accept("made") or reader.accept("worked") or (reader.accept("for") and reader.take())
        return Target(Reach.FROM_HOOK, (), None, reader.stretch(first))
    while reader.word in ("the", "next", "beg", "turning", "starting") or reader.kind == "ordinal":
        reader.take()
    if reader.word in ("ch", "tch", "begch", "chsp"):
        reader.take()
        reader.number()
    elif reader.kind == "number" and reader.peek(1).word in ("ch", "tch"):
        reader.take()
        reader.take()
    elif at_thing(reader):
        thing = read_thing(reader)
        return Target(Reach.FIRST, (thing,), None, reader.stretch(first))
    else:
        raise reader.stop()
    where_it_stands(reader)
    return Target(Reach.TOP_OF_CHAIN, (), None, reader.stretch(first))


def read_base(reader: Reader, first: int) -> Target:
    """ "base of ch 3", "st at base of turning ch": the place under the chain."""
    while reader.word in ("base", "of", "st", "ch", "at", "place", "the", "turning", "beg", "starting", "tch", "begch"):
        reader.take()
    if reader.kind == "number":
        reader.take()
        reader.accept("ch")
    return Target(Reach.SAME, (), None, reader.stretch(first))


def accept_of_chain(reader: Reader) -> bool:
    """ "3rd ch of ch-4", "3rd of beg ch 5", "2nd ch of turning ch": the chain is taken, and True told."""
    ahead = 1 if reader.word in ("ch", "st") else 0
    if reader.peek(ahead).word != "of":
        return False
    ahead += 1
    while reader.peek(ahead).word in ("the", "beg", "turning", "starting", "first", "last", "next", "prev", "skipped"):
        ahead += 1
    if reader.peek(ahead).kind == "number" and reader.peek(ahead + 1).word in ("ch", "begch", "tch"):
        ahead += 1
    if reader.peek(ahead).word not in ("ch", "tch", "begch", "chsp"):
        return False
    for _ in range(ahead + 1):
        reader.take()
    reader.number()
    reader.accept("sp") or reader.accept("lp")
    where_it_stands(reader)
    return True


def where_it_stands(reader: Reader) -> tuple[bool, bool]:
    """Words after a place that tell where it stands: at the end of the row; or in another row, which is out of the line."""
    at_end = elsewhere = False
    while True:
        if reader.at("at", "end|beg", "of") or reader.at("at", "the", "end|beg", "of"):
            at_end = True
            while reader.word in ("at", "the", "end", "beg", "of", "row", "rnd"):
                if reader.take().word in ("row", "rnd"):
                    break
        elif reader.at("at", "base", "of") or reader.at("at", "the", "base", "of"):
            while reader.word in ("at", "base", "of", "the", "turning", "beg", "same", "ch", "tch", "begch"):
                reader.take()
            if reader.kind == "number":
                reader.take()
                reader.accept("ch")
        elif reader.at("just", "made|worked") or reader.at("of", "basech") or reader.at("not", "worked"):
            reader.take()
            reader.take()
        elif reader.at("of", "prev|last|first", "row|rnd") or reader.at("of", "row|rnd", "below"):
            for _ in range(3):
                reader.take()
        elif reader.at("of", "the|prev", "prev|last|row|rnd", "row|rnd|below"):
            for _ in range(4):
                reader.take()
        elif reader.at("from", "prev|last", "row|rnd"):
            for _ in range(3):
                reader.take()
        elif reader.at("of", "row|rnd") and reader.peek(2).kind == "number":
            for _ in range(3):
                reader.take()
            elsewhere = True
        elif reader.at("between"):
            reader.take()
            while at_thing(reader) or reader.word in ("next", "the", "last") or reader.kind == "number":
                reader.take()
            elsewhere = True
        elif reader.at("below"):
            reader.take()
            elsewhere = True
        elif reader.kind == "number" and reader.peek(1).word in ("row", "rnd") and reader.peek(2).word == "below":
            for _ in range(3):
                reader.take()
            elsewhere = True
        elif reader.at("of", "body|front|back|sleeve|piece|neck|underarm|each"):
            break
        else:
            return at_end, elsewhere
    return at_end, elsewhere
