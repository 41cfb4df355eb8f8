"""SP048 evenly-without-a-plan

Severity  warning
Checks    where increases or decreases are spread evenly, the text says in which stitches, or says that any place will
          do.
Matters   where a repeat follows, the places matter, and the maker has to work out the division for herself.
Mend      write the row out; or say `in any even spacing`.
Source    common practice, no source. The division with its remainder spread is widely published.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    counts:
      hem: {by_hand: [134 sts, 150 sts]}
    ---
    Rnd 1: Ch 1, sc in each st around, dec 16 sts evenly, join with sl st in first sc. — <hem> sc

Fires:
    ---
    Row 1: Work in sc across, increasing evenly, turn.

Quiet:
    ---
    Row 1: Ch 1, sc in each st across, dec 16 evenly in any spacing, turn. — 134 sc
    Row 2: Inc 6 evenly: [sc in each of next 20 sts, 2 sc in next st] 6 times, sc in each st to end, turn.
    Row 3: Work in sc across, decreasing evenly at every 20th st, turn. Work 60 sc evenly along edge.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.parts import instructions_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import COUNT, REACH, STITCHES, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
_SHAPING = r"(?P<{0}>inc|dec)(?:s|r?reas(?:e|es|ing))?\b"
_EVENLY = LatePattern(
    rf"\b(?:(?P<ahead>{COUNT})\s+)?(?:{_SHAPING.format('first')}(?:\s+(?P<behind>{COUNT})\b)?[^.;\n—\[\]]{{0,40}}?\s)"
    rf"evenly(?:\s+spaced)?\b|\bevenly(?:[\s-]spaced)?\s+{_SHAPING.format('last')}(?:\s+(?P<after>{COUNT})\b)?",
    re.IGNORECASE,
    ("evenly",),
)
_FREE = LatePattern(
    r"\b(?:any|anywhere|wherever|freely|like|wish|matter|apart|as\s+follows)\b|[\[*]"
    rf"|\bevery\s+(?:about\s+)?(?:\d|{COUNT})|\b(?:at|on)\s+each\s+side",
    re.IGNORECASE,
)
_STATED = LatePattern(rf"—\s*(?P<count>{COUNT})(?!\s*[(\[]\s*[\d–])\s+(?P<noun>[^\W\d]+)\s*\.?\s*$", re.IGNORECASE)


def plans(written: WrittenPattern, report: Report) -> None:
    """Shapings that are only said to be spread evenly."""
    for line in instructions_of(written.document):
        for match in _EVENLY.finditer(line.text):
            begin, _ = sentence(line.text, *match.span())
            if not _FREE.search(line.text, begin, match.end() + REACH):
                report.add(_report(line, match, written.expanded.sized))


def _report(line: Line, match: re.Match[str], sized: SizedPattern) -> Diagnostic:
    place = line.place(*match.span())
    sums = tuple(_sums(line, match, sized))
    return Diagnostic(
        PAGE,
        f"`{line.as_written(*match.span())}` does not say where",
        Excerpt(place.span, "at which sts?"),
        sizes=tuple(each.size for each in sums),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        sums=sums,
        help=(f"write {'the plan' if sums else 'the row'} out, or say that any even spacing will do",),
    )


def _sums(line: Line, match: re.Match[str], sized: SizedPattern) -> Iterator[SumLine]:
    """The row written out in each size, where the text states how many shapings there are and what they leave."""
    group = next((name for name in ("ahead", "behind", "after") if match[name]), "")
    stated = _STATED.search(line.text)
    stitch = line.word_at(stated.start("noun")) if stated else None
    piece = next((each for each in sized.pieces if each.entry.name == line.piece), None)
    if not group or not stated or not stitch or stitch.entry not in STITCHES or not piece or not piece.entry.worked:
        return
    loses = (match["first"] or match["last"]).lower() == "dec"
    for size in piece.served:
        times, after = _at(line, match, group, size), _at(line, stated, "count", size)
        if times and after:
            before = after + times if loses else after - times
            row = _row(before, times, loses, stitch.as_written, piece.entry.worked.text.strip() == "rows")
            if row:
                yield SumLine(sized.sizes[size], f"{before} {'−' if loses else '+'} {times} = {after}", note=row)


def _at(line: Line, match: re.Match[str], group: str, size: int) -> int | None:
    """A number of the text in a size; None for one in words or one that is not known."""
    number = line.number_at(match.start(group))
    if number is None:
        return int(match[group]) if match[group].isdecimal() else None
    value = number.values[size] if size in number.served else None
    return int(value) if isinstance(value, Fraction) and value.denominator == 1 else None


def _row(before: int, times: int, loses: bool, stitch: str, in_rows: bool) -> str:
    # Loaded only for a finding: a clean pattern does without the plans.
    from stitchproof.plans.evenly import DECREASE, INCREASE, evenly_in_rounds, evenly_in_rows
    from stitchproof.plans.no_plan import NoPlan
    from stitchproof.plans.row_text import StitchWords, as_row

    plan = (evenly_in_rows if in_rows else evenly_in_rounds)(before, times, DECREASE if loses else INCREASE)
    words = StitchWords(plain=stitch, shaping=f"{stitch}2tog" if loses else f"2 {stitch} in next st")
    return "" if isinstance(plan, NoPlan) else as_row(plan, words)


CHECKS = (plans,)
