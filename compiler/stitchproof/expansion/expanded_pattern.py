"""What expansion hands on: the Document, and the numbers it was made from."""

from __future__ import annotations

import msgspec
from msgspec import Struct

from stitchproof.expansion.document import Document, Served
from stitchproof.expansion.k_values import KsInUse
from stitchproof.expansion.slot_scope import SlotScope
from stitchproof.formulas.tree import Formula
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import Place


class LateSlot(Struct, frozen=True, eq=False):
    """A slot that only the worked rows give a value: its formula, the names it may speak of, and the sizes served."""

    formula: Formula
    scope: SlotScope
    served: Served
    place: Place


class ExpandedPattern(Struct, frozen=True, eq=False):
    """A pattern whose text is unfolded. The Document has no list of abbreviations yet: its words are not read.

    whole: whether every text could be read and unfolded. in_use: the k at which values that take one are worked with.
    late: the slots that wait for the worked rows; each Number among them knows its place in the list.
    """

    sized: SizedPattern
    document: Document
    whole: bool = True
    in_use: KsInUse = msgspec.field(default_factory=dict)
    late: tuple[LateSlot, ...] = ()
