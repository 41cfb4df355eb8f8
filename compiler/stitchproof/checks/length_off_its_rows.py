"""SP173 length-off-its-rows

Severity  warning
Checks    a length told after rows ("piece measures about 30 cm") is the one that the rows worked up to there give at their
          gauge, to less than a row. Where it is measured from an edge of another piece, the size that is out of step with the
          others is named.
Matters   one maker counts rows and the other holds up a tape: where the two differ, they make two garments.
Mend      correct the number of rows, or print the length from it.
Source    common practice, no source.

Fires in M:
    counts:
      rows_in_all: {by_hand: [24 rows, 30 rows]}
    measures:
      length: {cm: [20, 24]}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 2 until <rows_in_all> rows are complete. Piece measures about <length>.

Fires in L:
    sizes: {names: [S, M, L, XL]}
    counts:
      rows_in_all: {by_hand: [24 rows, 30 rows, 38 rows, 42 rows]}
    measures:
      from_brim: {cm: [26, 31, 36, 41]}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 2 until <rows_in_all> rows are complete. Piece measures about <from_brim> from brim edge.

Quiet:
    counts:
      rows_in_all: {by_hand: [24 rows, 30 rows]}
    measures:
      length: rows_in_all / fabric.rows
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 2 until <rows_in_all> rows are complete. Piece measures about <length>.
"""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from operator import itemgetter

from msgspec import Struct

from stitchproof.checks.told_before import follows_from_told
from stitchproof.checks.wording import STITCHES
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import on_cm_grid
from stitchproof.measures.values import PerSize, exact_text
from stitchproof.rows.row_tree import Stretch
from stitchproof.rows.written_pattern import ReadPart
from stitchproof.simulation.slips import CannotWork
from stitchproof.simulation.worked_pattern import RowFinding, WorkedPattern, WorkedPiece, WorkedStep
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
_BEFORE = LatePattern(
    r"(?P<begin>(?P<what>[\w-]+)\s+(?:now\s+)?measures?\s+(?:about\s+|approx\w*\.?\s+)?)$", re.IGNORECASE
)
_AFTER = LatePattern(r"(?:\s+(?:long|tall|deep))?(?:\s+from\s+(?P<edge>[^.,;—]+))?(?=\s*(?:[.,;—]|$))", re.IGNORECASE)
_A_PART = LatePattern(
    r"armholes?|necks?|necklines?|straps?|openings?|shaping|ribb?ing|ribs?|edges?|points?",
    re.IGNORECASE,
    ("armhole", "neck", "strap", "opening", "shaping", "rib", "edge", "point"),
)
_BEGINNING = LatePattern(r"\b(?:foundation|cast|beg\w*|start\w*|lower edge|bottom)\b", re.IGNORECASE)
_UNDERARM = LatePattern(r"\bunderarms?\b", re.IGNORECASE)
_DIVIDES = LatePattern(r"\b(?:underarms?|divid\w+)\b", re.IGNORECASE)
NEARLY_A_ROW = Fraction(9, 10)
"""Lengths are told from whole rows; what is off by so much of one is off by a row."""
FEWEST_ALIKE = 3
"""Sizes that must agree on how much lies below the rows before another is out of step."""

Rows = dict[tuple[str, str], int]


class _Off(Struct, frozen=True):
    """The length told in a size. given: what its rows give; below: the lengths of other pieces that the sheet adds to them."""

    size: int
    rows: int
    given: Fraction
    told: Fraction
    below: Fraction

    @property
    def off(self) -> Fraction:
        """What is told beyond the rows and the other pieces."""
        return self.told - self.given - self.below


def lengths(worked: WorkedPattern, report: Report) -> None:
    """Lengths told beside rows that give another."""
    parts = {id(read.step): read.parts for read in worked.written.readings}
    for piece in worked.pieces:
        for step in piece.steps:
            if any(step.rows):
                for part in parts.get(id(step.step), ()):
                    for at, number in part.line.numbers.items():
                        if number.is_length:
                            _judge(at, part, step, piece, worked, report)


def _judge(
    at: int,
    part: ReadPart,
    step: WorkedStep,
    piece: WorkedPiece,
    worked: WorkedPattern,
    report: Report,
) -> None:
    text, values = part.line.text, part.line.numbers[at].values
    before, after = _BEFORE.search(text, 0, at), _AFTER.match(text, at + 1)
    if not before or not after or _A_PART.fullmatch(before["what"]):
        return
    sized, found = worked.written.expanded.sized, list[_Off]()
    elsewhere = _is_elsewhere(after["edge"] or "", piece)
    row = Fraction(0)
    for size in part.served:
        rows, told = step.rows[size], values[size]
        heights = [(number, _height(key, sized)) for key, number in (rows or {}).items()]
        known = [(number, height) for number, height in heights if height is not None]
        if not rows or not isinstance(told, Fraction) or len(known) < len(heights):
            continue
        row = min(height for _, height in known)
        given = sum((number * height for number, height in known), Fraction(0))
        below = _added(values, step, size, sized) if elsewhere else Fraction(0)
        found.append(_Off(size, sum(rows.values()), given, told, below))
    usual = _usual(found, row) if elsewhere else Fraction(0)
    for each in found:
        wrong = usual is not None and abs(each.off - usual) >= row * NEARLY_A_ROW
        finding = RowFinding(CannotWork("", Stretch(0, 0)), step.step, 0, each.size)
        if usual is not None and wrong and not follows_from_told(finding, worked, report):
            report.add(_report(each, usual, part, Stretch(before.start(), after.end()), step, worked))


def _is_elsewhere(edge: str, piece: WorkedPiece) -> bool:
    """Whether a length is measured from an edge that is not where the piece begins."""
    return bool(edge) and not (_BEGINNING.search(edge) or (_UNDERARM.search(edge) and _begins_there(piece)))


def _added(values: PerSize, step: WorkedStep, size: int, sized: SizedPattern) -> Fraction:
    """The other lengths of which the sheet makes a length, added up: those of the pieces that lie below."""
    tokens = [token for part in step.step.parts for token in part.tokens if isinstance(token, Number)]
    written = next((token.written for token in tokens if token.values == values), "")
    named = {each.name: each for each in sized.quantities if each.kind.dimension == LENGTH}
    inputs = named[written].inputs if written in named else ()
    lengths = [named[name].values[size] for name in inputs if name in named and named[name].values]
    return sum((each for each in lengths if isinstance(each, Fraction)), Fraction(0))


def _usual(found: list[_Off], row: Fraction) -> Fraction | None:
    """What most sizes tell beyond their rows; None where too few agree."""
    alike = Counter(round(each.off / row * 10) for each in found)
    usual, number = max(alike.items(), key=itemgetter(1)) if alike else (0, 0)
    if number < FEWEST_ALIKE or 2 * number <= len(found):
        return None
    return next(each.off for each in found if round(each.off / row * 10) == usual)


def _begins_there(piece: WorkedPiece) -> bool:
    """Whether a piece begins at the underarms: it divides for them, or is worked into them."""
    words = [str(getattr(token, "text", "")) for step in piece.steps[:2] for token in step.step.label]
    words += [
        str(getattr(token, "text", "")) for step in piece.steps[:2] for part in step.step.parts for token in part.tokens
    ]
    return _DIVIDES.search(" ".join(words)) is not None


def _height(key: tuple[str, str], sized: SizedPattern) -> Fraction | None:
    """Height of a row in cm: at its gauge, or at the one gauge of its own stitch, where its own is that of another stitch."""
    name, stitch = key
    gauges = sized.source.header.gauges
    own = next((each for each in gauges if each.name == name), None)
    others = [each for each in gauges if each.stitch and each.stitch.text.strip() == stitch]
    of = own.stitch.text.strip() if own and own.stitch else ""
    if len(others) == 1 and of in STITCHES and of != stitch:
        name = others[0].name
    for word in ("rows", "rounds"):
        per_cm = sized.scope.value(f"gauges.{name}.{word}", 0, None)
        if isinstance(per_cm, Fraction) and per_cm:
            return 1 / per_cm
    return None


def _report(
    off: _Off, usual: Fraction, part: ReadPart, at: Stretch, step: WorkedStep, worked: WorkedPattern
) -> Diagnostic:
    size = worked.written.document.sizes.names[off.size]
    place = part.line.place(at)
    given = exact_text(on_cm_grid(off.given + off.below + usual))
    sum_ = (
        f"{off.rows} rows give {given} cm"
        if not off.below + usual
        else f"{off.rows} rows and what lies below them give {given} cm"
    )
    words = " ".join(part.line.text[at.start : at.end].split()[:2])
    return Diagnostic(
        PAGE,
        f"“{words} …” of {step.step.piece} tells another length than its rows give",
        Excerpt(place.span, "the rows give another"),
        sizes=(size,),
        piece=step.step.piece,
        row=step.step.identity,
        related=used_from(place),
        sums=(SumLine(size, f"{sum_}, told {exact_text(on_cm_grid(off.told))} cm"),),
        help=("correct the number of rows, or print the length from it",),
    )


CHECKS = (lengths,)
