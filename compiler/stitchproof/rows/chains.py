"""Chains, what they count as, and places passed over."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.rows.lexemes import Lexeme
from stitchproof.rows.meetings import at_span_name, span_target
from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Chain, Reach, Skip, Target, Thing
from stitchproof.rows.things import at_thing, read_thing
from stitchproof.rows.where import read_all_up_to, read_place

_COUNTING = frozenset({"counts", "count", "counted", "counting", "stands"})


LONGEST_PURPOSE = 5
_NO_PURPOSE = frozenset({"inc", "dec", "sk", "turn", "rep", "work", "ch", "row", "rnd", "each", "next", "rem", "pat"})


class CountsAs(Struct, frozen=True):
    """What a bracket says that chains count as. for_good: here and throughout."""

    names: tuple[str, ...]
    for_good: bool


def at_chain(reader: Reader) -> bool:
    """Whether chains to be made come next: ch 3, 3 ch, chain 3."""
    if reader.kind == "number" and reader.peek(1).word == "ch":
        return not reader.peek(1).glued and reader.peek(2).word not in ("sp", "lp", "from")
    return reader.word == "ch" and reader.kind == "word" and reader.peek(1).word not in ("sp", "lp", "from")


def read_chain(reader: Reader) -> Chain:
    """The chains that come next, with what they count as."""
    first = reader.position
    number = reader.number()
    reader.take()
    number = number or reader.number() or reader.unwritten(1)
    reader.accept("loosely") or reader.accept("loose")
    counts = read_counts_as(reader)
    names = counts.names if counts else None
    accept_purpose(reader)
    return Chain(number, names, reader.stretch(first), bool(counts and counts.for_good))


def accept_purpose(reader: Reader) -> None:
    """ "for sleeve", "for the first armhole": what stitches are passed over, or chains made, for."""
    ahead = 1
    while (
        reader.peek(ahead).kind in ("word", "ordinal")
        and reader.peek(ahead).word not in _NO_PURPOSE
        and ahead <= LONGEST_PURPOSE
    ):
        ahead += 1
    ends = reader.peek(ahead).kind in ("end", "sign") and reader.peek(ahead).word not in ("*", "(", "[")
    if reader.word == "for" and reader.kind == "word" and 1 < ahead <= LONGEST_PURPOSE and ends:
        for _ in range(ahead):
            reader.take()


def read_counts_as(reader: Reader) -> CountsAs | None:
    """ "(counts as dc here and throughout)", "(does not count as a st)", also behind a comma without brackets."""
    close = reader.close_of(reader.position)
    if close is not None and close < reader.end:
        inside = reader.lexemes[reader.position + 1 : close]
        if not any(each.word in _COUNTING for each in inside):
            return None
        first, last = reader.position + 1, close
        after = close + 1
    else:
        first = reader.position + (reader.kind == "sign" and reader.word in (",", "-", "--"))
        if not _says_counts(reader, first):
            return None
        last = first
        while last < reader.end and reader.lexemes[last].word not in (",", ";", ".", ":"):
            last += 1
        after = last
    inside = reader.lexemes[first:last]
    reader.steps += len(inside)
    reader.position = after
    words = {each.word for each in inside}
    return CountsAs(() if "not" in words or "never" in words else _named(inside), "throughout" in words)


def _says_counts(reader: Reader, index: int) -> bool:
    """Whether "counts as …" or "does not count" stands there without brackets."""
    words = [each.word for each in reader.lexemes[index : index + 3]]
    return words[:2] in (["counts", "as"], ["count", "as"]) or words in (
        ["does", "not", "count"],
        ["not", "counted", "as"],
    )


def _named(inside: list[Lexeme]) -> tuple[str, ...]:
    """Stitches and spaces behind "as", in order."""
    names: list[str] = []
    said = False
    for lexeme in inside:
        if lexeme.word in ("as", "for"):
            said = True
        elif said and lexeme.kind == "stitch":
            names.append(lexeme.word)
        elif said and lexeme.word in ("ch", "chsp", "sp") and names:
            names.append("chsp")
        elif said and lexeme.word == "st" and not names:
            names.append("st")
        elif lexeme.word in (";", "here", "throughout", "now", "."):
            break
    spaces_once = [name for index, name in enumerate(names) if name != "chsp" or names[index - 1] != "chsp"]
    return tuple(spaces_once)


def read_skip(reader: Reader) -> list[Skip]:
    """What is passed over: sk 2, sk next st, miss 3 ch (counts as one tr), sk next dc and ch-1 sp."""
    first = reader.position
    reader.take()
    skips = [_skip(reader, first)]
    while reader.word == "and" and (at_thing(reader, 1) or (reader.peek(1).word == "next" and at_thing(reader, 2))):
        ahead = 2 if reader.peek(1).word == "next" else 1
        if reader.peek(ahead).kind == "stitch" and reader.peek(ahead + 1).word in ("in", "next", "each", "around"):
            break
        reader.take()
        skips.append(_skip(reader, reader.position))
    return skips


def _skip(reader: Reader, first: int) -> Skip:
    if reader.at_break():
        target = Target(Reach.NEXT, (Thing("st", reader.stretch(reader.position)),), None, reader.stretch(first))
    elif at_span_name(reader):
        target = span_target(reader)
    elif reader.at("st", "to|until|up"):
        target = read_all_up_to(reader)  # "sk sts to next marker"
    else:
        target = read_place(reader)
        if any(each.word == "base" for each in reader.lexemes[first : reader.position]):
            target = replace(target, reach=Reach.FIRST)  # the one under the chain
    if reader.accept("behind"):
        reader.accept("the")
        if at_thing(reader):
            read_thing(reader)
    counts = read_counts_as(reader)
    if counts is not None:
        target = replace(target, counts=counts.names)
    accept_purpose(reader)
    return Skip(replace(target, at=reader.stretch(first)), reader.stretch(first))
