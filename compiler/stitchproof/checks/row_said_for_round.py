"""SP049 row-said-for-round

Severity  warning
Checks    a piece that is worked in rounds says "round" of them, one that is worked in rows "row", unless the text changes
          to the other way ("now work in rows").
Matters   a maker who reads "row" turns.
Mend      write the word for the way in which the piece is worked; or change `worked` of the piece.
Source    common practice, no source.

Fires:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each of first 58 row-ends, sc in next row-end. — 59 sc
    Work 3 rows even.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn. — 40 sc
    Rnd 2: Ch 1, sc in each st across, turn. — 40 sc

Quiet:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each row-end around, 2 sc for every 3 rows of the band. — 60 sc
    Work 3 rnds even.
    Now work back and forth in rows on the first 20 sts.
    Row 1: Ch 1, sc in each st across, turn. — 20 sc

Quiet:
    ---
    Row 1: Ch 1, sc in each st across, turn. — 40 sc
    Work 1 rnd of sc around the outer edge, shape round neck, and rep Row 1 all round.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, part_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.wording import COUNT, ROUNDS, ROWS
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
MOST_SHOWN = 3
"""Further places that a report of one piece shows."""
_TURNS_TO = LatePattern(
    rf"\b(?:in|into)\s+(?:\w+\s+)?(?:(?P<rows>{ROWS})|(?P<rounds>{ROUNDS}|the\s+round|a\s+spiral))\b(?![\s-]+ends?\b)"
    r"|(?P<flat>\bback\s+and\s+forth\b)",
    re.IGNORECASE,
)


def _said(noun: str, *needs: str) -> LatePattern:
    """Where the text speaks of rows, or rounds, of the piece itself: not of a row-end, a row of another piece, a round neck."""
    return LatePattern(
        rf"\b(?:(?:rep(?:eat)?|until|next|last|these|this|previous|prev)\s+(?:{COUNT}\s+)?(?:[\w-]+\s+)?(?P<a>{noun})"
        rf"|(?:work|for)\s+{COUNT}\s+(?:more\s+|plain\s+|further\s+)?(?P<b>{noun})"
        rf"|(?P<c>{noun})\s+(?:even|in\s+all|are\s+complete))\b(?![\s-]+(?:of|ends?|around|neck|yoke)\b)",
        re.IGNORECASE,
        needs,
    )


_WORDS = {"rows": (LatePattern(rf"\b{ROUNDS}\b", re.IGNORECASE), _said(ROUNDS, "rnd", "round"))}
_WORDS["rounds"] = (LatePattern(rf"\b{ROWS}\b", re.IGNORECASE), _said(ROWS, "row"))


def words(written: WrittenPattern, report: Report) -> None:
    """Pieces whose text has the word for the other way of working; one report for a piece."""
    entries = {each.entry.name: each.entry for each in written.expanded.sized.pieces}
    for piece in written.document.pieces:
        entry = entries.get(piece.name)
        if entry and entry.worked and (found := part_of(piece).found(_wrong, entry.worked.text.strip())):
            report.add(_report(list(found), piece.name, entry.worked.text.strip()))


def _wrong(part: Part, worked: str) -> Iterator[tuple[Line, int, int]]:
    """The wrong words of a piece, up to where its text changes to the other way."""
    way = "rows" if worked == "rows" else "rounds"
    label_words, said = _WORDS[way]
    for line in part.lines:
        if any(("rows" if each["rows"] or each["flat"] else "rounds") != way for each in _TURNS_TO.finditer(line.text)):
            return
        if line.kind is not Kind.STEP:
            continue
        label = label_words.search(line.text, 0, line.label_end)
        if label and line.label_end:
            yield line, *label.span()
        for match in said.finditer(line.text, line.label_end):
            yield line, *match.span(next(name for name in "abc" if match[name]))


def _report(found: list[tuple[Line, int, int]], piece: str, worked: str) -> Diagnostic:
    (line, start, end), *others = found
    place = line.place(start, end)
    more = tuple(Excerpt(each.place(at, to).span, "here too") for each, at, to in others[:MOST_SHOWN])
    here = tuple(each for each in dict.fromkeys(more) if each.span != place.span)
    right = "row" if worked == "rows" else "rnd"
    return Diagnostic(
        PAGE,
        f"the {piece.replace('_', ' ')} is worked in {worked}, but the text says `{line.as_written(start, end)}`",
        Excerpt(place.span, f"a {right}?"),
        piece=line.piece,
        row=line.row,
        related=(*here, *used_from(place)),
        help=(f"write `{right}`, or say in `worked` of the piece how it is worked",),
    )


CHECKS = (words,)
