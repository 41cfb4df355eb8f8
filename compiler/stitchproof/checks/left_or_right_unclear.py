"""SP109 left-or-right-unclear

Severity  warning
Checks    where the text tells a left front, sleeve or shoulder from a right one, it says once whose left that is: "as worn", or
          as seen from the front.
Matters   with the piece in her lap the maker sees its left on the other side, and works the buttonholes on the wrong front.
Mend      add to the notes "Left and right are as worn", or write it in the heading of the piece.
Source    common practice, no source.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Sew the buttons to the left front.

Fires:
    ---
    ## Right shoulder {piece}

    Row 1: Ch 1, sc in each st across, turn.

Quiet:
    ---
    ## Right front, as worn {piece}

    Row 1 (RS): With the right side facing, ch 1, sc in each st across, turn. Sew the left front to it.

Quiet:
    ---
    Row 1: With right side facing the front, ch 1, sc in each st left over, turn. Sew the left edge.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.mentions import Mention, mention, one_report, only_places
from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
_SIDED = LatePattern(
    r"\b(?:left|right)(?:[\s-]+hand)?\s+(?:(?:half\s+)?front|sleeve|shoulder|armhole|front\s+band)s?\b",
    re.IGNORECASE,
    ("left", "right"),
)
_SAID = LatePattern(
    r"\bas\s+(?:it\s+is\s+|they\s+are\s+)?(?:worn|you\s+wear|seen|you\s+look)|\bwhen\s+(?:it\s+is\s+)?worn\b|\bwearer|\bviewer"
    r"|\bfacing\s+you\b|\bseen\s+from\b|\bfrom\s+the\s+(?:front|outside)\b",
    re.IGNORECASE,
)


def sides(expanded: ExpandedPattern, report: Report) -> None:
    """The first left or right of a pattern that nowhere says whose; one report for all."""
    lines = list(lines_of(expanded.document))
    found = only_places(_mentions(lines))
    if found and not any(_SAID.search(line.text) for line in lines):
        headline = f"the pattern speaks of the {found[0].word.lower()}, and never says whose left and right it means"
        report.add(one_report(PAGE, headline, found, "as worn?", ('add to the notes "Left and right are as worn"',)))


def _mentions(lines: list[Line]) -> Iterator[Mention]:
    for line in lines:
        for match in _SIDED.finditer(line.text):
            yield mention(line, *match.span())


CHECKS = (sides,)
