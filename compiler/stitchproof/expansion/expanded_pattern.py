"""What expansion hands on: the Document, and the numbers it was made from."""

from __future__ import annotations

from dataclasses import dataclass

from stitchproof.expansion.document import Document
from stitchproof.sizing.sized_pattern import SizedPattern


@dataclass(frozen=True, eq=False)
class ExpandedPattern:
    """A pattern whose text is unfolded. The Document has no list of abbreviations yet: its words are not read."""

    sized: SizedPattern
    document: Document
