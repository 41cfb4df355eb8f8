"""SP046 differences-not-written-out

Severity  warning
Checks    where the work follows another piece, it says how far, or tells what is different; it does not leave the maker to
          reverse the shaping.
Matters   "as back, reversing shaping" has her turn every row around in her head, and what is true for one size need not be
          for the next.
Mend      write the rows out. Rows that are the same may be named: `Work as right front until 42 rows are complete`.
Source    common practice, no source.

Fires:
    ---
    Work left front, as worn, as right front, reversing shaping.

Fires:
    ---
    Work as for back.

Fires:
    ---
    Complete second side of neck to match first side.

Quiet:
    ---
    Work as right front, as worn, until 42 rows are complete, ending with a WS row.
    Work as back, except that Rows 5 and 6 are left out.
    Rep Row 2, working as before. Work second sleeve as first sleeve.
    Row 12: As Row 2.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import COUNT, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_NAME = r"(?:back|front|sleeve|body|yoke|band|collar|strap|shoulder|panel|pocket|leg|cuff|side|half|armhole|neck)"
_PIECE = rf"{_NAME}s?\b(?!\s+(?:loops?|lps?|post))"
_POINTER = LatePattern(
    rf"(?:(?:^|[.:;,]\s*)(?:same\s+)?|\b(?:work(?:ed)?|make|complete|finish|shape|same)\b[^.;\n—]{{0,40}}?\s)"
    rf"(?P<pointer>(?:as|like)\s+(?:given\s+|described\s+)?(?:for\s+|on\s+)?(?:the\s+)?(?P<ordinal>first\s+)?(?:\w+\s+)?{_PIECE})"
    rf"|\b(?:work|complete|finish|shape)\b[^.;\n—]{{0,40}}?(?P<matched>to\s+(?:match|correspond\s+(?:to|with))\s+"
    rf"(?:the\s+)?(?:\w+\s+)?(?:{_PIECE}|(?:first|other)\b))",
    re.IGNORECASE,
    hint=rf"(?:as|like)\s+(?:\w+\s+){{0,5}}{_NAME}|to\s+(?:match|correspond)",
)
_REVERSED = LatePattern(
    r"\brevers(?:e|ed|ing)\s+(?:all\s+|the\s+|neck\s+|armhole\s+|shoulder\s+|and\s+)*shap\w+"
    r"|\b(?:all\s+)?shaping\s+reversed\b|\bmirror(?:ed|ing|\s+image)\b",
    re.IGNORECASE,
    ("revers", "mirror"),
)
_TOLD = LatePattern(
    rf"\b(?:except|but|instead|omitting|as\s+follows|until|till|through|thru)\b|\bto\s+(?!match|correspond)"
    rf"|\b(?:rows?|rnds?|rounds?)\s+\d|\b{COUNT}\s+(?:\w+\s+)?(?:rows|rnds|rounds)\b",
    re.IGNORECASE,
)
_WRITTEN_OUT = LatePattern(r"\bas\s+follows\b", re.IGNORECASE)


def pointers(written: WrittenPattern, report: Report) -> None:
    """Lines that follow another piece and leave the differences to the maker; one report for a sentence."""
    report.extend(found_in(parts_of(written.document), _in_part))


def _in_part(part: Part) -> Iterator[Diagnostic]:
    for line in part.lines:
        if not line.is_instruction:
            continue
        told_until = 0
        for match in (*_REVERSED.finditer(line.text), *_POINTER.finditer(line.text)):
            begin, end = sentence(line.text, *match.span())
            if begin >= told_until and (found := _pointed(line.text, match, begin, end)):
                yield _report(line, *found)
                told_until = end


def _pointed(text: str, match: re.Match[str], begin: int, end: int) -> tuple[int, int] | None:
    """The stretch that leaves something to the maker, if the sentence does."""
    if match.re is _REVERSED.compiled:
        pointer = _POINTER.search(text, begin, match.start())
        start = (max(pointer.start("pointer"), pointer.start("matched"))) if pointer else match.start()
        return None if _WRITTEN_OUT.search(text[begin:end]) else (start, match.end())
    if match["ordinal"] or _TOLD.search(text[match.end() : end]):
        return None
    return match.span("pointer") if match["pointer"] else match.span("matched")


def _report(line: Line, start: int, end: int) -> Diagnostic:
    place = line.place(start, end)
    return Diagnostic(
        PAGE,
        f"`{line.as_written(start, end)}` leaves the differences to the maker",
        Excerpt(place.span, "how far, and what is different?"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=("write the rows out, or say how far the two are worked alike",),
    )


CHECKS = (pointers,)
