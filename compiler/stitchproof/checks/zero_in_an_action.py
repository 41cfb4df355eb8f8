"""SP058 zero-in-an-action

Severity  error
Checks    no number of stitches, rows or times that a step tells the maker to work is 0 in a size it serves, or is typed as 0.
          A closing count may be 0.
Matters   "sc in each of next 0 sts" and "0 times" make a maker stop and doubt whether the number is a misprint.
Mend      give the size a part of its own without these words; where a whole repeat is not worked, let its times and all numbers
          in it be `not worked`.
Source    common practice, no source.

Fires in S:
    counts:
      plain_sts: {by_hand: [0, 4], unit: sts}
    ---
    Row 1: Sc in each of next <plain_sts> sts, sc2tog, turn.

Fires in M:
    counts:
      quick: {by_hand: [3, 1], unit: times}
    ---
    Work Dec Row every 2nd row <quick - 1> more times.

Fires:
    title: Smallest
    ---
    Row 1: Sc in each of next 0 sts, sc in each st across, turn.

Quiet:
    title: Smallest
    ---
    Row 1: Sc in each of next 10 sts, sc2tog, turn. — 0 sts left unworked

Quiet:
    counts:
      plain_sts: {by_hand: [0, 4], unit: sts}
      dec_sts: {by_hand: [0, 2], unit: sts}
    ---
    ::: note
    Size S has <plain_sts> plain sts.
    :::
    Row 1:
      sizes with plain_sts = 0: Sc2tog, turn. — <dec_sts> sts dec
      other sizes: Sc in each of next <plain_sts> sts, sc2tog, turn. — <dec_sts> sts dec
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.stretches import calls_to, excerpt, numbers_of
from stitchproof.checks.wrong_counts import text_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Role
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
_BEFORE = LatePattern(r"\b(?:next|first|last|every|ch|chain)\s+$", re.IGNORECASE)
_AFTER = LatePattern(
    r"\s*(?:(?:more|rem|remaining|held|base|underarm|plain|sl|wrong|right)\s+)*"
    r"(?:sts?|stitch(?:es)?|rows?|rnds?|rounds?|times?|row-ends?|chs?|chains?|ch-sps?|sps?|loops?|lps?|ribs?|groups?|repeats?"
    r"|markers?|[a-z]*(?:sc|hdc|dc|tr|dtr|htr)s?)\b(?!\s+(?:rem|remain|left|in all|inc|dec|are left)\b)",
    re.IGNORECASE,
)
_TYPED = LatePattern(
    r"\b(?:next|first|last|every|ch|chain|skip|sk|miss|work)\s+(?P<zero>0)(?!\w|[.,/]\d|\s*\()|\b(?P<times>0)\s+(?:more\s+)?times\b",
    re.IGNORECASE,
)


def typed_zeros(written: WrittenPattern, report: Report) -> None:
    """A 0 that is typed where something is to be worked."""
    for line, start, end in found_in(parts_of(written.document), _typed):
        report.add(
            Diagnostic(
                PAGE,
                f"`{line.as_written(start, end)}` tells the maker to work nothing",
                excerpt(line, start, end, "0 here"),
                piece=line.piece,
                row=line.row,
                related=calls_to(line, start),
                help=("leave these words out, or put in the number that is meant",),
            )
        )


def _typed(part: Part) -> Iterator[tuple[Line, int, int]]:
    for line in part.lines:
        if line.kind is Kind.STEP and line.row:
            for match in _TYPED.finditer(line.typed):
                if match.start() >= line.label_end:
                    yield line, match.start(), match.end()


def zeros(written: WrittenPattern, report: Report) -> None:
    """Numbers of steps that come to nothing in a size."""
    sized = written.expanded.sized
    for line, number, size in found_in(parts_of(written.document), _zeros):
        if not text_follows_from_wrong(number.written, size, sized):
            report.add(_report(number, size, line, sized))


def _zeros(part: Part) -> Iterator[tuple[Line, Number, int]]:
    """The numbers of a part that come to nothing, each with the size."""
    for line in part.lines:
        if line.kind is Kind.STEP and line.row:
            for at, number, before, after in numbers_of(line):
                sizes = [size for size in number.served if number.values[size] == 0]
                if sizes and _is_worked(number, at, line) and (_BEFORE.search(before) or _AFTER.match(after)):
                    yield from ((line, number, size) for size in sizes)


def _is_worked(number: Number, at: int, line: Line) -> bool:
    """Whether a number tells what to do; one that numbers a row or states what there is does not."""
    return number.dimension.is_count and number.role is not Role.STATED_COUNT and at >= line.label_end


def _report(number: Number, size: int, line: Line, sized: SizedPattern) -> Diagnostic:
    loop = ", ".join(part for part in line.row.split("/")[2:] if "=" in part)
    return Diagnostic(
        PAGE,
        f"`<{number.written}>` comes to 0 where something is to be worked",
        Excerpt(number.place.span, "0 here"),
        sizes=(sized.sizes[size],),
        piece=line.piece,
        row=line.row,
        related=used_from(number.place),
        sums=(SumLine(sized.sizes[size], f"{number.written} = 0", note=f"at {loop}" if loop else ""),),
        help=("give this size a part of its own without these words, or make a whole repeat `not worked`",),
    )


CHECKS = (zeros, typed_zeros)
