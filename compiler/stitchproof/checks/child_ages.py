"""For whom an item is made, as far as the audience, the sizes or the title say so. Common practice, no source."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.late_pattern import LatePattern
from stitchproof.reading.pattern_source import Header
from stitchproof.source import Span

AGES = {
    "baby": LatePattern(
        r"\b(?:bab(?:y|ies)(?!\s+(?:alpaca|camel|merino|wool|yarn|weight|doll))|infants?|newborns?|preemies?|layette"
        r"|\d+\s*(?:(?:-|–|to)\s*\d+\s*)?(?:months?|mos?))\b",
        re.IGNORECASE,
        ("bab", "infant", "newborn", "preemie", "layette", "mo"),
    ),
    "toddler": LatePattern(
        r"\btoddlers?\b|\b[12]\s*(?:y|yrs?|years?|T)\b|\b1\s*(?:-|–|to)\s*[23]\b.*year", re.IGNORECASE
    ),
    "child": LatePattern(
        r"\b(?:child(?:ren)?(?:'s|’s)?|kids?|girls?|boys?|(?:[3-9]|1[0-4])\s*(?:(?:-|–|to)\s*\d+\s*)?(?:y|yrs?|years?))\b",
        re.IGNORECASE,
    ),
}
Wearer = tuple[str, Span]
"""An age, and where the pattern says so."""


def wearers_of(header: Header) -> Iterator[Wearer]:
    """The young wearers, from the weakest sign to the strongest. A title counts only where no audience is stated."""
    said = [(words.text, words.span) for words in header.identity.audience]
    said += list(zip(header.sizes.names, header.sizes.name_spans, strict=True))
    if not header.identity.audience:
        said.append((header.identity.title.text, header.identity.title.span))
    for text, span in reversed(said):
        yield from ((age, span) for age, pattern in AGES.items() if pattern.search(text))
