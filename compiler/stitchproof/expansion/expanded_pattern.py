"""What expansion hands on: the Document, and the numbers it was made from."""

from __future__ import annotations

import msgspec
from msgspec import Struct

from stitchproof.expansion.document import Document
from stitchproof.expansion.k_values import KsInUse
from stitchproof.sizing.sized_pattern import SizedPattern


class ExpandedPattern(Struct, frozen=True, eq=False):
    """A pattern whose text is unfolded. The Document has no list of abbreviations yet: its words are not read.

    whole: whether every text could be read and unfolded. in_use: the k at which values that take one are worked with.
    """

    sized: SizedPattern
    document: Document
    whole: bool = True
    in_use: KsInUse = msgspec.field(default_factory=dict)
