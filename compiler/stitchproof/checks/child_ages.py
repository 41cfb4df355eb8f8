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
        r"\btoddlers?\b|\b[1-3]\s*(?:y|yrs?|years?|T)\b|\b[1-3]\s*(?:-|–|to|/)\s*\d\s*(?:y|yrs?|years?|T)\b"
        r"|\b1\s*(?:-|–|to)\s*[23]\b.*year",
        re.IGNORECASE,
    ),
    "child": LatePattern(
        r"\b(?:child(?:ren)?(?:'s|’s)?|kids?|girls?|boys?|(?:[3-9]|1[0-4])\s*(?:(?:-|–|to)\s*\d+\s*)?(?:y|yrs?|years?))\b",
        re.IGNORECASE,
    ),
}
_UP_TO_THREE = LatePattern(r"\s*(?:(?:age|size)s?\s+)?[1-3](?:\s*(?:-|–|to|/)\s*\d)?\s*", re.IGNORECASE)
"""A size that is a bare number is an age where all who wear the item are young."""
Wearer = tuple[str, Span]
"""An age, and where the pattern says so."""


def wearers_of(header: Header) -> Iterator[Wearer]:
    """The young wearers, from the weakest sign to the strongest. A title counts only where no audience is stated."""
    sizes = zip(header.sizes.names, header.sizes.name_spans, strict=True)
    said = [(words.text, words.span) for words in header.identity.audience]
    title = () if said else ((header.identity.title.text, header.identity.title.span),)
    for text, span in title:
        yield from ((age, span) for age, pattern in AGES.items() if pattern.search(text))
    for name, span in reversed(tuple(sizes)):
        yield from ((age, span) for age in AGES if is_size_for(age, name, header))
    for text, span in reversed(said):
        yield from ((age, span) for age, pattern in AGES.items() if pattern.search(text))


def is_size_for(age: str, name: str, header: Header) -> bool:
    """Whether a size by its name is for such a wearer."""
    if AGES[age].search(name):
        return True
    return age == "toddler" and _UP_TO_THREE.fullmatch(name) is not None and _is_for_the_young(header)


def _is_for_the_young(header: Header) -> bool:
    """Whether all whom the audience names, or else the title, are children."""
    named = [words.text for words in header.identity.audience] or [header.identity.title.text]
    return all(any(pattern.search(text) for pattern in AGES.values()) for text in named)
