"""SP117 spiral-round-joined

Severity  error
Checks    no round of a piece that is worked in spiral rounds is joined with a slip stitch. The ring of chains at its beginning,
          the last round, and rounds after "work on in joined rounds" are left alone.
Matters   a joined round begins with a chain and in another stitch than a spiral does. From there on the maker's rounds
          no longer begin where the pattern's do.
Mend      take out the join, or say `worked: joined rounds` of the piece.
Source    common practice, no source.

Fires:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each st around. — 60 sc
    Rnd 2: Sc in each st around, join with sl st in first sc. — 60 sc

Quiet:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Ch 60, join with sl st in first ch to form a ring.
    Rnd 1: Sc in each ch around. — 60 sc
    Last rnd: Sc in each st around, join with sl st in first sc. Fasten off. — 60 sc
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.mentions import Mention, mention, one_report, only_places
from stitchproof.checks.parts import lines_of_piece
from stitchproof.checks.pattern_lines import Kind
from stitchproof.checks.wording import ROUNDS
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Piece
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_JOINED = LatePattern(
    r"\bjoin(?:ed)?\s+with\s+(?:a\s+)?(?:sl\s+st|ss)\b|\b(?:sl\s+st|ss)\s+(?:[\w ]{0,30}\s)?to\s+join\b", re.IGNORECASE
)
_ROUND = LatePattern(rf"\b{ROUNDS}\b", re.IGNORECASE)
_ENDS = LatePattern(r"\bring\b|\bfasten\s+off\b|\blast\s+r", re.IGNORECASE)
_CHANGES = LatePattern(rf"\b(?:in|to)\s+joined\s+{ROUNDS}\b", re.IGNORECASE)


def joins(written: WrittenPattern, report: Report) -> None:
    """Spiral pieces with a joined round; one report for a piece."""
    worked = {each.entry.name: each.entry.worked for each in written.expanded.sized.pieces}
    for piece in written.document.pieces:
        way = worked.get(piece.name)
        if way and way.text.strip() == "spiral rounds" and (found := only_places(_joined(piece))):
            headline = f"the {piece.name.replace('_', ' ')} is worked in spiral rounds, and {found[0].where} is joined"
            help_texts = ("take out the join, or say `worked: joined rounds` of the piece",)
            report.add(one_report(PAGE, headline, found, "a spiral goes on without a join", help_texts))


def _joined(piece: Piece) -> Iterator[Mention]:
    for line in lines_of_piece(piece):
        if _CHANGES.search(line.text):
            return
        is_round = line.kind is Kind.STEP and line.label_end and _ROUND.search(line.text, 0, line.label_end)
        if is_round and not _ENDS.search(line.text):
            for match in _JOINED.finditer(line.text, line.label_end):
                yield mention(line, *match.span())


CHECKS = (joins,)
