"""SP010 leftover-placeholder

Severity  error
Checks    the text holds no stand-in for a number that was to be filled in later (XX, TBD, TODO, ??), and no name of this
          pattern in braces or square brackets instead of < >.
Matters   it would be printed as it stands, and the maker has no number.
Mend      write the slot `<name>`, or the missing words.
Source    common practice, no source.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Row 1: Sc in each st across. — XX sc

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are {cuff_rows} rows in all.

Quiet:
    sizes: {names: [X-Large, XX-Large], choose: "X-Large to XX-Large: choose by the chest."}

Quiet:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows> rows in all. [Sc in next st, ch 1] 3 times.
"""

from __future__ import annotations

import re

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Text, blocks_of, inlines_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
_STAND_IN = LatePattern(
    r"(?<![\w])(?:XX+|xx+|TBD|TBC|TBA|TK|TODO|FIXME)(?!\w|-[LlSs](?:arge|mall)\b)|\?\?+|(?<!\w)_{2,}(?!\w)|\{\{|\}\}|#{2,}"
)
_BRACED = LatePattern(r"[{\[](?P<name>[^\W\d]\w*(?:\.\w+)*)[}\]]")


def placeholders(expanded: ExpandedPattern, report: Report) -> None:
    """Stand-ins and misbracketed names anywhere in the text."""
    scope = expanded.sized.scope
    names = set(scope.names())
    for block in blocks_of(expanded.document):
        for inline in inlines_of(block):
            if not isinstance(inline, Text):
                continue
            for match in _STAND_IN.finditer(inline.text):
                report.add(_report(inline, match, "fill in the number as a slot, or the missing words"))
            for match in _BRACED.finditer(inline.text):
                if match["name"] in names:
                    report.add(_report(inline, match, f"write `<{match['name']}>`"))


def _report(text: Text, match: re.Match[str], help_text: str) -> Diagnostic:
    span = text.place.span
    exact = span.end - span.start >= match.end()
    here = span.part(match.start(), match.end()) if exact else span
    return Diagnostic(
        PAGE,
        f"`{match[0]}` was left in the text",
        Excerpt(here, "left over"),
        related=used_from(text.place),
        help=(help_text,),
    )


CHECKS = (placeholders,)
