"""SP043 repeat-times-unclear

Severity  warning
Checks    a repeat that is told with "rep" and a number of times says whether these come on top of the first one.
Matters   "rep from * 3 times" is worked 3 times by one maker and 4 times by the next. Where the row closes with either,
          the counts go wrong without anyone noticing.
Mend      write `3 more times` for further ones. For 3 in all put the repeat in square brackets, `[…] 3 times`; of rows
          say `3 times in all`.
Source    common practice, no source. It is read here as further times.

Fires:
    ---
    Row 1: Ch 1, *sc in next st, ch 1, sk next st; rep from * 3 times, sc in last st, turn.

Fires:
    counts:
      more_rows: 4 times
    ---
    Rep Rows 2 and 3 <more_rows> times.

Quiet:
    counts:
      more_rows: 4 times
    ---
    Row 1: Ch 1, *sc in next st, ch 1, sk next st; rep from * 3 more times, sc in last st, turn.
    Row 2: Ch 1, [sc in next st, ch 1, sk next st] 4 times, sc in last st, turn.
    Rep Rows 1 and 2 <more_rows> times more. Rep Row 2 once more, then rep Row 1 until 12 rows are complete.
    Rep last 2 rows 3 times (8 rows in all).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import COUNT, ROUNDS, ROWS, TIMES, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_REPEAT = LatePattern(
    r"(?:(?:^|[.;:,(*\])—\n])\s*|\b(?:and|then|again|now|next)\s+)"
    r"(?P<rep>(?:rep|repeat)\b"
    rf"(?:[^.,;:()\[\]—\n]|\([^()]*\)|,(?=\s*(?:and\s+)?(?:\d|{COUNT}\s+times))){{0,80}}?\s"
    rf"(?P<times>{TIMES}))",
    re.IGNORECASE,
    ("rep",),
)
_OF_ROWS = LatePattern(rf"\b(?:{ROWS}|{ROUNDS})\b", re.IGNORECASE)
_SAID = LatePattern(
    r"\b(?:more|further|additional(?:ly)?|another|extra|again|in\s+all|in\s+total|total|altogether)\b", re.IGNORECASE
)


def repeats(written: WrittenPattern, report: Report) -> None:
    """Repeats that do not say from where their times are counted."""
    report.extend(found_in(parts_of(written.document), _in_part))


def _in_part(part: Part) -> Iterator[Diagnostic]:
    for line in part.lines:
        for match in _REPEAT.finditer(line.text) if line.is_instruction else ():
            begin, end = sentence(line.text, *match.span("rep"))
            if not _SAID.search(line.text[begin:end]):
                yield _report(line, match)


def _report(line: Line, match: re.Match[str]) -> Diagnostic:
    place = line.place(*match.span("times"))
    times = line.as_written(*match.span("times"))
    return Diagnostic(
        PAGE,
        f"`{line.as_written(*match.span('rep'))}` can mean {times} more or {times} in all",
        Excerpt(place.span, "further times, or all of them?"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=(f"write {_offers(times, rows=bool(_OF_ROWS.search(match['rep'])))}",),
    )


def _offers(times: str, rows: bool) -> str:
    number = re.sub(r"\s*times?$|^[x×]\s*|\s*[x×]$", "", times)
    if number == times:  # once, twice
        return f"`{times} more`"
    in_all = f"`{number} times in all`" if rows else f"`[…] {number} times`"
    return f"`{number} more times`, or {in_all}"


CHECKS = (repeats,)
