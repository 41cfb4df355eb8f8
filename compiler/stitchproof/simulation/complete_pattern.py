"""What is handed on at the end: the pattern with its rows worked, and with all that only the worked rows could tell."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.expansion.document import Document
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.simulation.worked_pattern import WorkedPattern
from stitchproof.sizing.sized_pattern import SizedPattern


class CompletePattern(Struct, frozen=True, eq=False):
    """sized, document: as before the rows were worked, the late quantities and the Numbers that print them filled in."""

    worked: WorkedPattern
    sized: SizedPattern
    document: Document

    @property
    def expanded(self) -> ExpandedPattern:
        """The same for rules that read an unfolded pattern."""
        return replace(self.worked.written.expanded, sized=self.sized, document=self.document)
