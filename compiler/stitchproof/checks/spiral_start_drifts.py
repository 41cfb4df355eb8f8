"""SP114 spiral-start-drifts

Severity  warning
Checks    in a piece of more than 20 spiral rounds, no step places a side, an underarm or the centre by the start of the
          round or its marker, unless the text has the maker find the place again.
Matters   the start of a spiral round creeps sideways over many rounds; what lies at the side in the first round lies well in
          front after forty.
Mend      tell the maker to mark the place again: fold the work flat, or count from a marked stitch.
Source    common practice, no source; more than about 20 rounds is a rule of thumb.

Fires:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each st around. — 60 sc
    Rep Rnd 1 until 40 rnds are complete. The marker is at the left side.

Fires in M:
    counts:
      body_rnds: {by_hand: [18 rows, 24 rows]}
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each st around. — 60 sc
    Rep Rnd 1 until <body_rnds> rnds are complete.
    From the start of the rnd, which is the center of the underarm, sc in each of next 10 sts.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each st around, moving the marker up at the start of the rnd. — 60 sc
    Rep Rnd 1 until 40 rnds are complete.
    Fold the work flat and mark the underarm anew; the start of the rnd is now at the back of it.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each st around. — 60 sc
    Rep Rnd 1 until 12 rnds are complete. The marker is at the left side.
"""

from __future__ import annotations

import re
from fractions import Fraction

from stitchproof.checks.parts import lines_of_piece
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.wording import ROUNDS, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Piece, SizeList
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
MOST_ROUNDS = 20
"""Rounds after which the start has crept too far to place anything by; a rule of thumb, common practice, no source."""
_REACHED = LatePattern(
    rf"\b(?:until\s+|there\s+are\s+)(?P<rounds>\d+)\s+(?:[^\W\d]+\s+)?{ROUNDS}\b|(?:–|-|\bto)\s*(?P<last>\d+):",
    re.IGNORECASE,
)
_START = LatePattern(rf"\b(?:marker|(?:start|beg(?:inning)?)\s+of\s+(?:the\s+|each\s+)?(?:{ROUNDS}))\b", re.IGNORECASE)
_PLACE = LatePattern(
    r"\b(?:(?:left|right|one)\s+side\b(?!\s+fac)|side\s+seam|side\s+of\s+the\b|underarm|cent(?:er|re)\b|middle\b)",
    re.IGNORECASE,
)
_ANEW = LatePattern(
    r"\bre-?mark|\b(?:mark|marked|place|find|count)\w*\b[^.;]{0,60}\b(?:anew|again|new)\b|\bnew\s+marker\b|\bfold\w*\b[^.;]{0,40}"
    r"\bflat\b|\bcounting\s+from\b|\bmove\s+the\s+start\b",
    re.IGNORECASE,
)


def starts(written: WrittenPattern, report: Report) -> None:
    """Long spirals whose start is taken for a place of the garment; one report for a piece."""
    spirals = {
        each.entry.name
        for each in written.expanded.sized.pieces
        if each.entry.worked and each.entry.worked.text.strip() == "spiral rounds"
    }
    for piece in written.document.pieces:
        if piece.name in spirals and (found := _first(piece, written.document.sizes)):
            report.add(found)


def _first(piece: Piece, sizes: SizeList) -> Diagnostic | None:
    """The first step, after the rounds, that places something by their start."""
    reached: dict[int, Fraction] = {}
    for line in lines_of_piece(piece):
        if _ANEW.search(line.text):
            return None
        if line.kind is not Kind.STEP:
            continue
        for match in _REACHED.finditer(line.text):
            for size, rounds in _rounds(line, match, sizes).items():
                reached[size] = max(rounds, reached.get(size, Fraction(0)))
        far = [size for size in sizes.chosen if reached.get(size, Fraction(0)) > MOST_ROUNDS]
        for match in _START.finditer(line.text) if far else ():
            begin, end = sentence(line.text, *match.span())
            if _PLACE.search(line.text, begin, end):
                return _report(line, match, {sizes.names[size]: reached[size] for size in far})
    return None


def _rounds(line: Line, match: re.Match[str], sizes: SizeList) -> dict[int, Fraction]:
    group = "rounds" if match["rounds"] else "last"
    number = line.number_at(match.start(group))
    if number is None:
        return dict.fromkeys(sizes.chosen, Fraction(match[group]))
    return {size: value for size in number.served if isinstance(value := number.values[size], Fraction)}


def _report(line: Line, match: re.Match[str], rounds: dict[str, Fraction]) -> Diagnostic:
    place = line.place(*match.span())
    return Diagnostic(
        PAGE,
        "a place is told by the start of a spiral that has crept sideways by then",
        Excerpt(place.span, "no longer where Rnd 1 began"),
        sizes=tuple(rounds),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        sums=tuple(SumLine(size, f"{count} spiral rnds are complete by then") for size, count in rounds.items()),
        help=("mark the place anew: fold the work flat, or count from a stitch that is marked",),
    )


CHECKS = (starts,)
