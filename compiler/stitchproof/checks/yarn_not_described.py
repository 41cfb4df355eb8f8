"""SP071 yarn-not-described

Severity  error
Checks    a line of `materials` that counts balls, skeins or hanks of yarn says what one holds (g, oz, m or yd), and which
          weight class the yarn is of. A line that counts none is not judged.
Matters   balls differ by half and more between yarns: without it the maker can neither buy nor substitute.
Mend      write "Light (category 3) wool, 220 m per 100 g: 9 balls of 50 g".
Source    common practice, no source; weight classes and their names: Craft Yarn Council, Standard Yarn Weight System.

Fires:
    materials: [9 balls DK]

Fires:
    materials: ["Soft Valley wool: 420 g, 9 balls of 50 g (125 m)"]

Quiet:
    materials:
      - "DK wool: 420 g, 9 balls of 50 g (125 m)"
      - "2 balls of 50 g, size 10 cotton thread"
      - Medium-weight (category 4) yarn
      - Yarn needle
"""

from __future__ import annotations

import re

from stitchproof.checks.materials_lines import materials_lines
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.dimension import LENGTH, WEIGHT

PAGE = read_page(__doc__)
_BALLS = LatePattern(r"\b\d+\s+(?:[\w-]+\s+)?(?:balls?|skeins?|hanks?)\b", re.IGNORECASE)
_HOLDS = LatePattern(r"\d\s*(?:g|gr|grams?|oz|ounces?|m|metres?|meters?|yds?|yards?)\b", re.IGNORECASE)
_CLASS = LatePattern(r"weight|category|\bCYC\b|\bply\b|\bthread\b|\bsize\s+\d|#\s*\d|\bN?[em]\s*\d+/\d", re.IGNORECASE)
_NOT_YARN = LatePattern(r"\b(?:cotton\s+balls?|bells?|foam|plastic|wooden|polystyrene)\b", re.IGNORECASE)


def yarns(expanded: ExpandedPattern, report: Report) -> None:
    """Lines that count balls of an unknown yarn."""
    for line in materials_lines(expanded):
        balls = _BALLS.search(line.text)
        if not balls or _NOT_YARN.search(line.text):
            continue
        measured = any(isinstance(token, Number) and token.dimension in (LENGTH, WEIGHT) for _, token in line.tokens)
        missing = [] if measured or _HOLDS.search(line.text) else ["what a ball holds"]
        if not _names_class(line.text):
            missing.append("the weight class of the yarn")
        if missing:
            found = " and ".join(missing)
            report.add(
                Diagnostic(
                    PAGE,
                    f"a line of `materials` counts balls, and does not say {found}",
                    Excerpt(line.place(balls.start(), balls.end()).span, "of which yarn?"),
                    help=(f"add {found}, as in `Light (category 3) wool, 220 m per 100 g: 9 balls of 50 g`",),
                )
            )


def _names_class(text: str) -> bool:
    """Whether a weight class is named, in words or as a number."""
    if _CLASS.search(text):
        return True
    from stitchproof.standards.yarn import yarn_weights  # most patterns write the category

    names = {weight.name for weight in yarn_weights()} | {kind for weight in yarn_weights() for kind in weight.types}
    names |= {name for weight in yarn_weights() for _, trade in weight.trade_names for name in trade}
    return re.search(rf"\b(?:{'|'.join(map(re.escape, names))})\b", text, re.IGNORECASE) is not None


CHECKS = (yarns,)
