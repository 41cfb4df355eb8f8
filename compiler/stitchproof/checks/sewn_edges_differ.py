"""SP166 sewn-edges-differ

Severity  error
Checks    where a line of sewing tells the stitches of both edges, they are as many, unless one is eased in; and where it tells
          those of the last row of a piece, that row has so many.
Matters   stitches are left over at the end of the seam, and the maker undoes it to look for her mistake.
Mend      print one count by its name in < > at both edges, or say that one is eased into the other.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — 20 sc
    Sew the 24 sts of the upper edge to the 26 skipped sts.

Fires in M:
    counts:
      top: {by_hand: [20, 22], unit: sts}
    pieces:
      strap: {gauge: fabric, worked: rows}
    ---
    ## Strap {strap}

    Ch <top + 1>.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — <top> sc
    Sew the 20 sts of the last row of the strap to the side.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — 20 sc
    Sew the 26 sts of the upper edge to the 26 skipped sts.

Quiet:
    pieces:
      strap: {gauge: fabric, worked: rows}
    ---
    ## Strap {strap}

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — 20 sc
    Sew the 20 sts of the last row of the strap to the 24 sts of the edge, easing them in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.wording import sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.row_tree import RowTree, Sewn
from stitchproof.simulation.worked_pattern import WorkedPattern, WorkedPiece

PAGE = read_page(__doc__)
_NOUN = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)"
_SEWN = LatePattern(
    r"\b(?:sew|graft|seam|whipstitch|mattress\s+stitch)\b",
    re.IGNORECASE,
    ("sew", "graft", "seam", "whipstitch", "mattress"),
)
_EASED = LatePattern(
    r"\b(?:eas(?:e|ing|ed)|gather\w*|stretch\w*|fit\w*|evenly|rem\w*|each\s+side|half|twice)\b", re.IGNORECASE
)
_BOTH = LatePattern(
    rf"\bthe\s+(?P<one>\d+)\s+(?:\w+\s+){{0,2}}{_NOUN}\b[^.;,\d]{{0,60}}?\bto\s+(?:the\s+)?(?P<other>\d+)\s+(?:\w+\s+){{0,2}}{_NOUN}\b",
    re.IGNORECASE,
)
_OF_LAST = LatePattern(
    rf"\b(?P<number>\d+)\s+(?:live\s+)?{_NOUN}\s+(?:of|along|on)\s+the\s+last\s+(?:row|rnd|round)\s+of\s+(?:the\s+|each\s+)?"
    r"(?P<piece>[^\W\d]+(?:\s+[^\W\d]+)?)",
    re.IGNORECASE,
)


def seams(worked: WorkedPattern, report: Report) -> None:
    """Lines of sewing whose numbers of stitches are not one another, or not those of the edge that they name."""
    told = set(_told_by_spans(worked))
    for line in lines_of(worked.written.document):
        if line.kind in (Kind.HEADING, Kind.FRONT) or (line.row and line.row in told):
            continue
        for found in _SEWN.finditer(line.text):
            begin, end = found.start(), sentence(line.text, *found.span())[1]
            if _EASED.search(line.text, begin, end):
                continue
            for match in _BOTH.finditer(line.text, begin, end):
                _hold_both(line, match, worked, report)
        for found in _SEWN.finditer(line.text):
            end = sentence(line.text, *found.span())[1]
            for match in _OF_LAST.finditer(line.text, found.start(), end):
                _hold_last(line, match, worked, report)


def _told_by_spans(worked: WorkedPattern) -> Iterator[str]:
    """Steps that sew spans by their names: those are held against the spans themselves."""
    for read in worked.written.readings:
        trees = [part.reading for part in read.parts if isinstance(part.reading, RowTree)]
        if any(isinstance(item, Sewn) for tree in trees for item in tree.items):
            yield read.step.identity


def _values(line: Line, match: re.Match[str], group: str, sizes: int) -> dict[int, int]:
    """A number of a line in each size that it serves."""
    number = line.number_at(match.start(group))
    if number is None:
        return dict.fromkeys(range(sizes), int(match[group]))
    held = {size: number.values[size] for size in number.served}
    return {size: int(value) for size, value in held.items() if isinstance(value, Fraction) and value.denominator == 1}


def _hold_both(line: Line, match: re.Match[str], worked: WorkedPattern, report: Report) -> None:
    names = worked.written.document.sizes.names
    one, other = (_values(line, match, group, len(names)) for group in ("one", "other"))
    sums = [
        SumLine(names[size], f"{one[size]} sts are sewn to {other[size]}: {abs(one[size] - other[size])} are left over")
        for size in one
        if size in other and one[size] != other[size]
    ]
    if sums:
        report.add(_report(line, match, sums, "the two edges that are sewn together have different numbers of sts"))


def _hold_last(line: Line, match: re.Match[str], worked: WorkedPattern, report: Report) -> None:
    names = worked.written.document.sizes.names
    piece = _named(match["piece"], worked)
    if piece is None:
        return
    said = _values(line, match, "number", len(names))
    due = {size: next(iter(piece.ends[size]), None) for size in said}
    sums = [
        SumLine(names[size], f"the last row of {piece.name} has {due[size]} sts, sewn are {said[size]}")
        for size in said
        if due[size] is not None and due[size] != said[size]
    ]
    if sums:
        report.add(_report(line, match, sums, f"the last row of {piece.name} has another number of sts than is sewn"))


def _named(words: str, worked: WorkedPattern) -> WorkedPiece | None:
    """The piece that the words begin with."""
    said = words.lower().split()
    for name in ("_".join(said), said[0]):
        for piece in worked.pieces:
            if piece.name.lower() in (name, f"{name}s", name.removesuffix("s")):
                return piece
    return None


def _report(line: Line, match: re.Match[str], sums: list[SumLine], headline: str) -> Diagnostic:
    place = line.place(*match.span())
    return Diagnostic(
        PAGE,
        headline,
        Excerpt(place.span, "these do not meet st to st"),
        sizes=tuple(each.size for each in sums if each.size),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        sums=tuple(sums),
        help=("give both edges one count by its name in < >, or say that one is eased in",),
    )


CHECKS = (seams,)
