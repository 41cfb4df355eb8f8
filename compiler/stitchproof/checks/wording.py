"""The trade's phrases that several rules on wording look for, as patterns for a search that ignores capitals."""

from __future__ import annotations

from stitchproof.late_pattern import LatePattern

COUNT = r"(?:\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
"""A number of something; a slot reads as a digit."""
TIMES = rf"(?:once|twice|thrice|{COUNT}\s+times?|[x×]\s*\d+|\d+\s*[x×])\b"
SLIP_STITCH = r"(?:sl(?:ip)?[\s-]?st(?:itch)?|ss)"
ROWS = r"rows?"
ROUNDS = r"(?:rnds?|rounds?)"
STITCHES = frozenset({"sc", "hdc", "dc", "tr", "dtr", "esc", "ehdc", "edc"})
"""Words of the lexicon that are one plain stitch, worked into one place."""
REACH = 400
"""How many characters around a phrase are looked at, so that a line of any length takes time in proportion to it."""
_SENTENCE_END = LatePattern(r"[.!?](?=\s|$)|—")
_CLAUSE_END = LatePattern(r"[,;()\[\]\n—]|[.!?](?=\s|$)")


def sentence(text: str, start: int, end: int) -> tuple[int, int]:
    """The bounds of the sentence around a stretch of a line; a closing count after a dash is no part of it."""
    low, high = max(start - REACH, 0), min(end + REACH, len(text))
    begin = max((each.end() for each in _SENTENCE_END.finditer(text, low, start)), default=low)
    close = _SENTENCE_END.search(text, end, high)
    return begin, close.start() if close else high


def rest_of_clause(text: str, start: int) -> str:
    """What follows up to the next comma, semicolon, bracket, sentence end or part for other sizes."""
    close = _CLAUSE_END.search(text, start, start + REACH)
    return text[start : close.start() if close else start + REACH]
