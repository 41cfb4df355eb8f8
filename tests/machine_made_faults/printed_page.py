"""What a pattern prints, in all its sizes at once, as data that can be compared part by part."""

from __future__ import annotations

from typing import Any

import msgspec

from stitchproof import CheckOutcome
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.set_type import set_type

Page = dict[str, Any]
"""Key of a part → all that is printed there. The rows of all pieces have keys that begin with "rows"."""


def printed_page(outcome: CheckOutcome) -> Page | None:
    """The page for all sizes; None where the pattern does not come so far."""
    if outcome.written is None:
        return None
    document = outcome.written.document
    page = set_type(choose_sizes(document, document.sizes.chosen))
    held: Page = {
        "title": msgspec.to_builtins(page.title),
        "sizes": msgspec.to_builtins((page.sizes, page.how_to_read)),
    }
    for section in page.sections:
        key = f"rows of {section.key}" if section.kind.name == "PIECE" else section.key
        held[key] = msgspec.to_builtins(section)
    return held


def changed_parts(before: Page, after: Page) -> frozenset[str]:
    """The parts that print something else, or are gone, or have come."""
    return frozenset(key for key in {*before, *after} if before.get(key) != after.get(key))
