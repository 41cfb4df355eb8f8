"""SP044 stitches-without-a-place

Severity  warning
Checks    several stitches in a list say where they go: into one place, or one into each of the next.
Matters   "2 sc" is an increase to one maker and two plain stitches to the next; the row then comes out too long or too
          short.
Mend      write `2 sc in next st`, or `sc in each of next 2 sts`.
Source    common practice, no source. It is read here as one into each of the next.

Fires:
    ---
    Row 1: Ch 1, [3 hdc, 2 sc] 5 times, turn.

Fires:
    counts:
      plain: 6 sts
    ---
    Row 1: Ch 1, <plain> sc, sc2tog, sc in each st to end, turn.

Quiet:
    counts:
      plain: 6 sts
    ---
    Row 1: Ch 1, [hdc in each of next 3 sts, 2 sc in next st] 5 times, 1 hdc, turn. — 27 hdc, 10 sc
    Row 2: Ch 1, sc <plain>, 2 sc into same st, (2 dc, ch 1, 2 dc) in next ch-sp, sc to last 2 sc, 2 sc in last st, turn.
    Row 3: Ch 1, 2 dc, ch 2, 2 dc in corner sp, 3 ch, 3 dc, 3 hdc, 3 sc all in next ch-sp, turn. (24 sc, 6 hdc)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import COUNT, REACH, STITCHES
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
MOST_NAMED = 3
"""Items that the headline of one report names."""
_BEFORE = LatePattern(rf"(?:^|[,;:*\[(\n]|[.,;]\s+(?:and|then)|\bthen)\s*(?P<number>{COUNT})\s*$", re.IGNORECASE)
_AFTER = LatePattern(
    r"(?:\s+(?:blo|flo|tbl))?\s*(?=[,;\])*]|$|\n|\.(?:\s|$)|(?:then|rep|repeat|turn)\b)", re.IGNORECASE
)
_INTO = r"(?:in|into|under|over|between|around\s+(?:the\s+|next\s+)?(?:post|st|ch|sc|dc))\b"
_PLACE = LatePattern(rf"\s*,?\s*(?:all\s+|both\s+|each\s+)?{_INTO}", re.IGNORECASE)
_REPEATED = LatePattern(rf"\s*(?:{COUNT}\b|once|twice|thrice|[x×]|around|across|to\b|rep|until|along)", re.IGNORECASE)
_SHARED_PLACE = LatePattern(
    rf"[^;.\n\[\]()]{{0,80}}?\b(?:ch[\s-]?\d+|\d+[\s-]?ch)\b[^;.\n\[\]()]{{0,80}}?\s{_INTO}", re.IGNORECASE
)
_PLACE_AHEAD = LatePattern(r"(?:^|[;.:*\[(\n])\s*(?:working\s+)?(?:in|into)\s[^;.:*\[\]()\n]*$", re.IGNORECASE)
_AS_MANY_LEFT = LatePattern(rf"\blast\s+(?P<left>{COUNT})\s+[^\s,]+,\s*$", re.IGNORECASE)
_COUNTS = LatePattern(r"—[^\n]*$")
_COUNT_AHEAD, _COUNT_BEHIND = LatePattern(r"[.:]\s*$"), LatePattern(r"\s*(?:\.|$)")
_ALL_IN_ONE = LatePattern(rf"[^;.\n\[\]()]{{0,160}}?\b(?:all|both)\s+{_INTO}", re.IGNORECASE)


def places(written: WrittenPattern, report: Report) -> None:
    """Rows with stitches that do not say where they go; one report for a row."""
    report.extend(found_in(parts_of(written.document), _in_part))


def _in_part(part: Part) -> Iterator[Diagnostic]:
    for line in part.lines:
        words = [(at, word) for at, word in line.words() if word.entry in STITCHES] if line.is_instruction else []
        bare = [span for at, word in words if (span := _bare(line, at, word.as_written))]
        if bare:
            yield _report(line, bare)


def _bare(line: Line, at: int, stitch: str) -> tuple[int, int] | None:
    """The stretch of a number and its stitch that stand alone in a list."""
    before = _BEFORE.search(line.text, max(at - 40, 0), at)
    end = at + len(stitch)
    if not before or not _AFTER.match(line.text, end) or _is_one(line, before):
        return None
    start = before.start("number")
    ahead = max(start - REACH, 0)
    left = _AS_MANY_LEFT.search(line.text, ahead, start)
    if _COUNTS.search(line.text, ahead, start) or _PLACE_AHEAD.search(line.text, ahead, start):
        return None
    if (left and left["left"] == before["number"]) or _is_placed_by_others(line.text, start, end):
        return None
    return start, end


def _is_one(line: Line, before: re.Match[str]) -> bool:
    number = line.number_at(before.start("number"))
    if number is None:
        return before["number"] in ("0", "1")
    return all(number.values[size] == 1 for size in number.served)


def _is_placed_by_others(text: str, start: int, end: int) -> bool:
    """Whether a place named later in the list, or behind the brackets around it, is this one's too; or it is a count."""
    opened = _bracket_around(text, start)
    if opened is None:
        is_count = _COUNT_AHEAD.search(text, max(start - 4, 0), start) and _COUNT_BEHIND.match(text, end)
        return bool(is_count) or _shares_a_place(text, end, len(text))
    closing = text.find(")" if text[opened] == "(" else "]", end, end + REACH)
    if closing < 0 or _PLACE.match(text, closing + 1) or not _REPEATED.match(text, closing + 1):
        return True
    return _shares_a_place(text, end, closing)


def _shares_a_place(text: str, start: int, end: int) -> bool:
    return bool(_SHARED_PLACE.match(text, start, end) or _ALL_IN_ONE.match(text, start, end))


def _bracket_around(text: str, start: int) -> int | None:
    """Where the innermost bracket around a place opens."""
    closed = 0
    for at in range(start - 1, max(start - REACH, 0) - 1, -1):
        if text[at] in ")]":
            closed += 1
        elif text[at] in "([":
            if not closed:
                return at
            closed -= 1
    return None


def _report(line: Line, bare: list[tuple[int, int]]) -> Diagnostic:
    place = line.place(*bare[0])
    items = list(dict.fromkeys(f"`{line.as_written(*each)}`" for each in bare[:MOST_NAMED]))
    number, _, stitch = line.as_written(*bare[0]).rpartition(" ")
    one_each = f"`{stitch.lower()} in each of next {number} sts`"
    in_one = f", or `{number} {stitch.lower()} in next st`" if number in ("2", "3", "4", "5") else ""
    return Diagnostic(
        PAGE,
        f"{' and '.join(items)} {'do' if len(items) > 1 else 'does'} not say whether in one place or in several",
        Excerpt(place.span, "in one stitch, or one in each?"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=(f"write {one_each}{in_one}",),
    )


CHECKS = (places,)
