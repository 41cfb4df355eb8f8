"""SP051 told-too-late

Severity  warning
Checks    "at the same time" is told before the first row that it concerns.
Matters   a maker who works line by line has finished that row, and has to take it out again.
Mend      put the notice in front of that row.
Source    common practice, no source.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn. — 40 sc
    Rows 2–40: Ch 1, sc in each st across, turn. — 40 sc
    AT THE SAME TIME, dec 1 st at neck edge from Row 33.

Fires in M:
    counts:
      even_rows: {by_hand: [20 rows, 30 rows]}
      neck_row: {by_hand: [21 rows, 25 rows]}
    ---
    Row 1: Ch 1, sc in each st across, turn. — 40 sc
    Rep Row 1 until <even_rows> rows are complete.
    At the same time, starting on row <neck_row>, dec 1 st at neck edge on every RS row.

Quiet:
    ---
    Row 1: Ch 1, sc in each st across, turn. — 40 sc
    At the same time, starting on Row 33, dec 1 st at neck edge on every RS row as in Row 1.
    Rows 2–40: Ch 1, sc in each st across, turn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.wording import ROUNDS, ROWS
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import SizeList
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_NOUN = rf"(?:{ROWS}|{ROUNDS})"
_NOTICE = LatePattern(r"\bat\s+(?:the\s+)?same\s+time\b", re.IGNORECASE, ("same",))
_FROM = LatePattern(
    r"\b(?:from|on|starting|beginning|beg)\s+(?:(?:on|with|at|from)\s+)?(?:the\s+)?"
    rf"(?P<kind>(?:[^\W\d]+\s+)?{_NOUN})\s+(?P<row>\d+)",
    re.IGNORECASE,
)
_LABEL = LatePattern(
    rf"\s*(?P<kind>(?:[^\W\d]+\s+)*?{_NOUN})\s+(?P<row>\d+)(?:\s*(?:–|-|to)\s*(?P<last>\d+))?", re.IGNORECASE
)
_REACHED = LatePattern(
    rf"\b(?:until|there\s+are)\s+(?P<last>\d+)\s+(?P<kind>(?:[^\W\d]+\s+)?{_NOUN})\s+(?:are\b|in\s+all\b|have\b)",
    re.IGNORECASE,
)
_Rows = dict[tuple[str, int], int]
"""The last row reached, by what the rows are called and by size."""


def notices(written: WrittenPattern, report: Report) -> None:
    """Notices of a second shaping that come after a row it begins on. Rows are counted anew under each heading."""
    report.extend(found_in(parts_of(written.document), _late, written.document.sizes))


def _late(part: Part, sizes: SizeList) -> Iterator[Diagnostic]:
    reached: _Rows = {}
    for line in part.lines:
        if line.kind is Kind.HEADING:
            reached = {}
        elif line.kind is Kind.STEP:
            own = _LABEL.match(line.text, 0, line.label_end) if line.label_end else None
            before = {**reached, **_rows(line, own, "row", sizes, less=1)}
            if notice := _NOTICE.search(line.text):
                yield from _found(line, notice, before, sizes)
            reached |= _rows(line, own, "last" if own and own["last"] else "row", sizes)
            for match in _REACHED.finditer(line.text):
                reached |= _rows(line, match, "last", sizes)


def _rows(line: Line, match: re.Match[str] | None, group: str, sizes: SizeList, less: int = 0) -> _Rows:
    if match is None:
        return {}
    kind = _kind(match["kind"])
    values = ((size, _at(line, match, group, size)) for size in sizes.chosen)
    return {(kind, size): value - less for size, value in values if value is not None}


def _kind(words: str) -> str:
    return re.sub(
        r"\b(?:rnds|rounds?|rows)$", lambda end: "row" if end[0] == "rows" else "rnd", " ".join(words.lower().split())
    )


def _at(line: Line, match: re.Match[str], group: str, size: int) -> int | None:
    number = line.number_at(match.start(group))
    if number is None:
        return int(match[group])
    value = number.values[size] if size in number.served else None
    return int(value) if isinstance(value, Fraction) and value.denominator == 1 else None


def _found(line: Line, notice: re.Match[str], before: _Rows, sizes: SizeList) -> Iterator[Diagnostic]:
    for match in _FROM.finditer(line.text, line.label_end):
        late, noun = [], line.as_written(*match.span("kind"))
        for size in sizes.chosen:
            row, done = _at(line, match, "row", size), before.get((_kind(match["kind"]), size))
            if row is not None and done is not None and row <= done:
                late.append(SumLine(sizes.names[size], f"from {noun} {row}; {noun} {done} is done by then"))
        if late:
            place = line.place(*notice.span())
            yield Diagnostic(
                PAGE,
                f"`{line.as_written(*notice.span()).lower()}` is told after the first row it concerns",
                Excerpt(place.span, "told here"),
                sizes=tuple(each.size for each in late),
                piece=line.piece,
                row=line.row,
                related=(Excerpt(line.place(*match.span("row")).span, "from this row on"), *used_from(place)),
                sums=tuple(late),
                help=("put the notice in front of that row",),
            )
            return


CHECKS = (notices,)
