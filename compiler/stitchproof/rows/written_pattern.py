"""What reading the rows hands on."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.expansion.document import Document
from stitchproof.expansion.expanded_pattern import ExpandedPattern


class WrittenPattern(Struct, frozen=True, eq=False):
    """A pattern whose words are read: stitch names are Words, numbers in steps know their role, abbreviations are listed."""

    expanded: ExpandedPattern
    document: Document
