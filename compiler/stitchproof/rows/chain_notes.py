"""What notes say in words of the chain at the start of a row: "Ch 3 counts as a dc.", "Ch 1 does not count as a st"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.expansion.document import (
    Block,
    Bullets,
    Document,
    Note,
    Number,
    Passage,
    Prose,
    Text,
    Times,
    Token,
    Word,
    inlines_of,
)
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import ChainNote

# Whole sentences only: what is said of some rows ("unless …", "in the sleeves") contradicts none for certain.
_SENTENCE = LatePattern(
    r"(?:^|(?<=[.;:]))\s*"
    r"(?P<words>(?:(?:the|a|each|every|all)\s+)*(?:(?:row|rnd|round)s?\s+(?:start|begin)s?\s+with\s+)?(?:the\s+)?"
    r"(?:(?:starting|beginning|beg|turning)\s+)?ch(?:ain)?[\s-]?(?P<number>[1-9])"
    r"(?:\s+at\s+(?:the|its)\s+(?:start|beginning|beg)(?:\s+of\s+(?:the|a|each|every|all)?\s*(?:row|rnd|round)s?)?)?"
    r",?(?:\s+which)?\s+(?P<how>(?:always\s+)?counts?|(?:is|are)\s+(?:not\s+)?counted|never\s+counts?"
    r"|(?:does|do)(?:\s+not|n['’]t)\s+count)\s+as\s+(?:an?\s+|one\s+|1\s+)?"
    r"(?P<stitch>[\w-]+)(?:\s+(?:here\s+and\s+)?throughout)?)\s*(?=[.;]|$)",
    re.IGNORECASE,
    ("count",),
)
_NOT = ("never", "not", "n't", "n’t")
_ANY = ("st", "stitch")


def chain_notes(document: Document) -> tuple[ChainNote, ...]:
    """The sentences in the notes before the pieces and in those of the pieces."""
    front = [note for section in document.front for note in _in_blocks(section.blocks, "", True)]
    inside = [note for piece in document.pieces for note in _in_blocks(piece.blocks, piece.name, False)]
    return (*front, *inside)


def _in_blocks(blocks: tuple[Block, ...], piece: str, are_notes: bool) -> Iterator[ChainNote]:
    for block in blocks:
        match block:
            case Prose() if are_notes:
                yield from _in_words(block, piece)
            case Bullets() if are_notes:
                for item in block.items:
                    yield from _in_words(Prose(item), piece)
            case Note():
                yield from _in_blocks(block.blocks, piece, True)
            case Times():
                yield from _in_blocks(block.blocks, piece, are_notes)
            case Passage():
                pass  # for some sizes only


def _in_words(prose: Prose, piece: str) -> Iterator[ChainNote]:
    tokens = [each for each in inlines_of(prose) if isinstance(each, Text | Number | Word)]
    text = "".join(_words(each) for each in tokens)
    for found in _SENTENCE.finditer(text):
        said = _token_at(tokens, found.start("stitch"))
        name = said.entry if isinstance(said, Word) else found["stitch"].lower()
        if not isinstance(said, Word) and name not in _ANY:
            continue
        counts = not any(word in found["how"].lower() for word in _NOT)
        stitch = "" if name in _ANY else name
        yield ChainNote(int(found["number"]), stitch, counts, piece, found["words"], tokens[0].place)


def _words(token: Token) -> str:
    return token.text if isinstance(token, Text) else token.as_written if isinstance(token, Word) else "…"


def _token_at(tokens: list[Token], offset: int) -> Token:
    at = 0
    for token in tokens:
        at += len(_words(token))
        if offset < at:
            return token
    return tokens[-1]
