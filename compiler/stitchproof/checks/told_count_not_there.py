"""SP174 told-count-not-there

Severity  error
Checks    a number of stitches that a line between the rows tells in passing is the one that is there: "sew shoulders, 15 sts
          each" is held against the stitches that the pieces end in, "through rem 8 sts" against those of its own piece, "so that
          8 ch lie ahead" against what the next row works into.
Matters   a maker who counts 15 stitches where 17 are told looks for her mistake in rows that have none.
Mend      print the count of the piece there.
Source    common practice, no source.

Fires in M:
    counts:
      shoulder: {by_hand: [20 sts, 22 sts]}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across. Fasten off. — 20 sc
    Sew shoulders, <shoulder> sts each.

Fires in M:
    counts:
      crown_end: {by_hand: [20 sts, 8 sts]}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across. — 20 sc
    Fasten off. Thread tail through front loops of rem <crown_end> sts, draw up.

Quiet:
    counts:
      shoulder: {by_hand: [20 sts, 20 sts]}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across. Fasten off. — 20 sc
    Sew shoulders, <shoulder> sts each.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from stitchproof.checks.told_before import follows_from_told
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import PerSize
from stitchproof.rows.row_tree import Remark, RowTree, Stretch, Work
from stitchproof.rows.written_pattern import ReadPart, ReadStep
from stitchproof.simulation.slips import CannotWork
from stitchproof.simulation.worked_pattern import RowFinding, WorkedPattern

PAGE = read_page(__doc__)
_SHOULDERS = LatePattern(
    r"\b(?:sew|seam|join|graft)\b[^.;]{0,40}\bshoulders?\b[^.;]{0,40}$", re.IGNORECASE, ("shoulder",)
)
_REST = LatePattern(r"\brem(?:aining)?\s*$", re.IGNORECASE, ("rem",))
_STITCHES = LatePattern(r"\s*(?:sts|st|stitch(?:es)?)\b", re.IGNORECASE)
_EACH = LatePattern(r"\s*(?:sts|st|stitch(?:es)?)\s+(?:each|of each|on each|tog)", re.IGNORECASE)
_AHEAD = LatePattern(r"\s*ch(?:ains?|s)?\s+(?:lie|are|remain)\s+(?:ahead|before)\b", re.IGNORECASE)


def shoulders(worked: WorkedPattern, report: Report) -> None:
    """Shoulders sewn over another number of stitches than their pieces end in."""
    names = worked.written.document.sizes.names
    for read, part, at, values in _told(worked):
        sewn = _SHOULDERS.search(part.line.text, 0, at) and _EACH.match(part.line.text, at + 1)
        for size in part.served if sewn else ():
            if any(each.size == size for each in worked.findings) or _follows(read, part, size, worked, report):
                continue
            ends = [piece.ends[size] for piece in worked.pieces if piece.ends[size]]
            said, there = values[size], sorted({each for end in ends for each in end})
            if isinstance(said, Fraction) and there and said not in there:
                pieces = " or ".join(str(each) for each in there)
                sum_ = f"{said} sts told, and no piece ends in as many: they end in {pieces}"
                report.add(
                    _report(
                        "the shoulders are sewn over stitches that are not there", read, part, at, names[size], sum_
                    )
                )


def rest(worked: WorkedPattern, report: Report) -> None:
    """Stitches said to remain at the end of a piece that ends in another number of them."""
    names = worked.written.document.sizes.names
    ends = {piece.name: piece.ends for piece in worked.pieces}
    for read, part, at, values in _told(worked):
        ends_piece = read.step.piece in ends and read is _last_of(read.step.piece, worked)
        if not ends_piece or read.label or not _REST.search(part.line.text, 0, at):
            continue
        for size in part.served if _STITCHES.match(part.line.text, at + 1) else ():
            if _follows(read, part, size, worked, report):
                continue
            said, there = values[size], ends[read.step.piece][size]
            if isinstance(said, Fraction) and there and said != there[0]:
                sum_ = f"{said} sts told, and the piece ends in {there[0]}"
                report.add(
                    _report("the stitches that remain are not those of the last row", read, part, at, names[size], sum_)
                )


def _last_of(piece: str, worked: WorkedPattern) -> ReadStep:
    return next(read for read in reversed(worked.written.readings) if read.step.piece == piece)


def ahead(worked: WorkedPattern, report: Report) -> None:
    """Chains said to lie ahead of which the next row works another number."""
    names = worked.written.document.sizes.names
    following = {id(one): other for one, other in pairwise(worked.written.readings)}
    for read, part, at, values in _told(worked):
        then = following.get(id(read)) if _AHEAD.match(part.line.text, at + 1) else None
        works = _first_chains(then) if then else ()
        for size in part.served if works else ():
            if _follows(read, part, size, worked, report):
                continue
            said, next_ = values[size], works[size]
            told = any(each.worked_at is then.step and each.size == size for each in worked.findings) if then else False
            if isinstance(said, Fraction) and isinstance(next_, Fraction) and said != next_ and not told:
                sum_ = f"{said} ch told to lie ahead, and the next row works into {next_}"
                report.add(_report("the chains ahead are not those of the next row", read, part, at, names[size], sum_))


def _follows(read: ReadStep, part: ReadPart, size: int, worked: WorkedPattern, report: Report) -> bool:
    """Whether a number is wrong because of another one that is told."""
    number = next(index for index, each in enumerate(read.parts) if each is part)
    return follows_from_told(RowFinding(CannotWork("", Stretch(0, 0)), read.step, number, size), worked, report)


def _told(worked: WorkedPattern) -> Iterator[tuple[ReadStep, ReadPart, int, PerSize]]:
    """The numbers that stand in remarks of the steps."""
    for read in worked.written.readings:
        for part in read.parts:
            for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                if isinstance(item, Remark):
                    for at, number in part.line.numbers.items():
                        if item.at.start <= at < item.at.end and not number.is_length:
                            yield read, part, at, number.values


def _first_chains(read: ReadStep) -> PerSize:
    """How many chains a row works into first, in each size; () for a row that begins otherwise."""
    for part in read.parts[:1]:
        items = part.reading.items if isinstance(part.reading, RowTree) else ()
        first = next((item for item in items if isinstance(item, Work)), None)
        if first and first.target and first.target.count and any(each.name == "ch" for each in first.target.things):
            return first.target.count.values
    return ()


def _report(headline: str, read: ReadStep, part: ReadPart, at: int, size: str, sum_: str) -> Diagnostic:
    place = part.line.place(Stretch(at, at + 1))
    return Diagnostic(
        PAGE,
        headline,
        Excerpt(place.span, "as many are not there"),
        sizes=(size,),
        piece=read.step.piece,
        row=read.step.identity,
        related=used_from(place),
        sums=(SumLine(size, sum_),),
        help=("print the count of the piece here",),
    )


CHECKS = (shoulders, rest, ahead)
