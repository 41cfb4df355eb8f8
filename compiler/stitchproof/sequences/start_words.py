"""What Row 1 is worked into, from the words of a file: ch 35, magic ring, fsc 120, 48 sc after Row 8, ch 22 joined."""

from __future__ import annotations

import re

from msgspec import Struct

from stitchproof.late_pattern import LatePattern
from stitchproof.reading.written_sequence import Figures, WrittenSequence
from stitchproof.rows.lexemes import lexemes_of
from stitchproof.rows.line import line_of_text
from stitchproof.rows.row_words import RowWords
from stitchproof.simulation.hook import foundation
from stitchproof.simulation.live_row import LiveRow, RowBuilder, row_of
from stitchproof.simulation.position import CHAIN, Kind, Position, space, stitch

_RING = LatePattern(r"(?i)\b(?:magic|adjustable|sliding)\b|\bmr\b|\bring\b|\bml\b")
_ALTERNATING = LatePattern(r"(?i)\b(?:moss|linen|granite|seed)\b|ch-?1 ?sps?\b|1-?ch-?sps?\b")
_CHAINS = LatePattern(r"(?i)^\W*(?:work |make |begin with )?(?:(?:ch|chain)s?\b|\d[\d\s(),:/\[\]-]*(?:ch|chain)s?\b)")
_ONE_CHAIN = LatePattern(r"(?i)\bin(?:to)? (?:the )?(?:1st|first|2nd|second) ch\b")
_JOINED = LatePattern(r"(?i)\bjoin(?:ed)?\b|\bsl st (?:in|to)\b|\bin the round\b|\bin rounds\b")
MOST = 100_000


class Start(Struct, frozen=True, eq=False):
    """rows: what there is before the first row, one per size, in the order made; None where that cannot be told.

    ring: nothing but a ring. joined: it is closed to a ring, so that what follows is in rounds.
    """

    rows: tuple[LiveRow | None, ...]
    ring: bool = False
    joined: bool = False


def read_start(sequence: WrittenSequence, words: RowWords, chain_stands_for: str) -> Start:
    """The start of a sequence. chain_stands_for: the stitch that its starting chains count as, or ""."""
    sizes = len(sequence.sizes) or 1
    text = sequence.start.text if sequence.start else ""
    counts = sequence.start_count or _numbers(text, sequence, words)
    if _RING.search(text) and not re.search(r"(?i)\bring\b.*\bthen ch\b", text):
        return Start((LiveRow(),) * sizes, ring=True, joined=True)
    joined = bool(_JOINED.search(text))
    if _CHAINS.match(text) or re.search(r"(?i)\bthen ch\b", text):
        if _ONE_CHAIN.search(text):
            return Start((row_of((CHAIN, 1)),) * sizes, joined=True)
        return Start(tuple(foundation(each) if each else None for each in counts), joined=joined)
    id_ = _stitch_in(text, sequence, words)
    if _ALTERNATING.search(text):
        return Start(tuple(_alternating(each, id_ or "sc", chain_stands_for) for each in counts), joined=joined)
    if not id_ and not re.search(r"(?i)\bsts?\b|\bstitches\b", text):
        return Start((None,) * sizes, joined=joined)
    made = stitch(id_ or "sc", _base(id_ or "sc", words))
    return Start(tuple(row_of((made, each)) if each else None for each in counts), joined=joined)


def _numbers(text: str, sequence: WrittenSequence, words: RowWords) -> Figures:
    """The first number of the text that has one value per size."""
    sizes = len(sequence.sizes) or 1
    span = sequence.start.span if sequence.start else sequence.id.span
    for lexeme in lexemes_of(line_of_text(text, sequence.sizes, span), words):
        if lexeme.kind == "number" and lexeme.values:
            return tuple(
                int(each) if hasattr(each, "numerator") and 0 < each <= MOST else None  # type: ignore[operator,arg-type]
                for each in lexeme.values
            )
    return (None,) * sizes


def _stitch_in(text: str, sequence: WrittenSequence, words: RowWords) -> str:
    span = sequence.start.span if sequence.start else sequence.id.span
    for lexeme in lexemes_of(line_of_text(text, sequence.sizes, span), words):
        if lexeme.kind == "stitch":
            return lexeme.word
    return ""


def _base(id_: str, words: RowWords) -> str:
    facts = words.facts_of(id_)
    return facts.base if facts else id_


def _alternating(number: int | None, id_: str, chain_stands_for: str) -> LiveRow | None:
    """A row of stitches and ch-1 sps in turn; with an even total it has two stitches at its end."""
    if not number:
        return None
    first = Position(Kind.STARTING_CHAIN, id_, id_) if chain_stands_for else stitch(id_)
    building = RowBuilder()
    building.add(first, 1)
    pairs, rest = divmod(number - 1, 2)
    if rest:
        building.add_unit(((stitch(id_), 1), (space(1), 1)), pairs)
        building.add(stitch(id_), 1)
    else:
        building.add_unit(((space(1), 1), (stitch(id_), 1)), pairs)
    return building.row()
