"""SP052 round-brackets-repeat

Severity  error
Checks    in a pattern of several sizes, a repeat stands in square brackets. Round brackets hold the numbers of the other
          sizes; a group worked into one place, `(2 dc, ch 1, 2 dc) in next ch-sp`, keeps its round brackets.
Matters   a maker who marks her size in "(sc, ch 1) 3 (4, 5) times" has two kinds of bracket to tell apart in one line.
Mend      write the repeat in square brackets: `[sc, ch 1] 3 times`.
Source    common practice, no source.

Fires:
    counts:
      repeats: {by_hand: [20 times, 24 times]}
    ---
    Row 1: Ch 1, (sc in next st, ch 1, sk next st) <repeats> times, turn.

Quiet:
    counts:
      repeats: {by_hand: [20 times, 24 times]}
    ---
    Row 1 (RS): Ch 1 (does not count as a st), [sc in next st, ch 1, sk next st] <repeats> times, turn.
    Row 2: Ch 1, [(2 dc, ch 1, 2 dc) in next ch-sp, sk next sc (2 dc made)] <repeats> times, turn.

Quiet:
    sizes: {names: [One size]}
    ---
    Row 1: Ch 1, (sc in next st, ch 1, sk next st) 20 times, turn.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import COUNT, STITCHES, TIMES
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_REPEATED = LatePattern(
    r"(?P<group>\((?P<inside>[^()]+)\))\s*,?\s*"
    rf"(?P<repeat>(?:a\s+total\s+of\s+)?(?:{COUNT}\s+more\s+times|{TIMES})(?!\s+in\b)"
    r"|around\b(?!\s+(?:the\s+|next\s+|each\s+)?(?:post|stem|st|sts|ch|neck|edge)\b)|across\b|to\s+(?:end|last|within)\b)",
    re.IGNORECASE,
    hint=r"\)\s*,?\s*[\d×xaefnost]",
)
_REMARK = LatePattern(r"\bcount|\bmade\b|\bmarker|\bas\b", re.IGNORECASE)
_COUNT_ALONE = LatePattern(rf"\s*{COUNT}\s+\S+\s*")
_WORKED = STITCHES | {
    "ch",
    "yo",
    "sk",
    "slst",
    "inc",
    "dec",
    "sc2tog",
    "hdc2tog",
    "dc2tog",
    "tr2tog",
    "fphdc",
    "bphdc",
    "fpdc",
    "bpdc",
}


def brackets(written: WrittenPattern, report: Report) -> None:
    """Round brackets around something that is repeated."""
    if len(written.document.sizes.names) < 2:
        return
    special = frozenset(each.abbreviation for each in written.expanded.sized.source.header.special_stitches)
    report.extend(found_in(parts_of(written.document), _in_part, special))


def _in_part(part: Part, special: frozenset[str]) -> Iterator[Diagnostic]:
    for line in part.lines:
        if not line.is_instruction:
            continue
        worked = [at for at, word in line.words() if word.entry in _WORKED | special]
        for match in _REPEATED.finditer(line.text):
            first = bisect_left(worked, match.start("inside"))
            holds_stitches = first < len(worked) and worked[first] < match.end("inside")
            if holds_stitches and not _REMARK.search(match["inside"]) and not _COUNT_ALONE.fullmatch(match["inside"]):
                yield _report(line, match)


def _report(line: Line, match: re.Match[str]) -> Diagnostic:
    place = line.place(*match.span("group"))
    group, repeat = line.as_written(*match.span("inside")), line.as_written(*match.span("repeat"))
    return Diagnostic(
        PAGE,
        "a repeat stands in round brackets, which hold the numbers of the other sizes",
        Excerpt(place.span, "repeated"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=(f"write `[{group}] {repeat}`",),
    )


CHECKS = (brackets,)
