"""SP059 dash-without-size-tag

Severity  error
Checks    a number that is `not worked` in a size, and would print as a dash, stands in a part for the other sizes, or
          in a repeat that this size leaves out whole. The times of that repeat and all numbers in it are then `not
          worked` in the same sizes.
Matters   a dash says that the line does not exist for a size; in a line that the size does work it leaves a hole.
Mend      set the line under the sizes that work it (`sizes with ...:`), or let the whole repeat be `not worked`.
Source    common practice, no source.

Fires in S:
    counts:
      plain_sts: [not worked, 4 sts]
    ---
    Row 1: Sc in each of next <plain_sts> sts, sc2tog, turn.

Fires in S:
    counts:
      plain_sts: [not worked, 4 sts]
    ---
    Row 1: [Sc in each of next <plain_sts> sts, sc2tog] 8 times, turn.

Quiet:
    counts:
      plain_sts: [not worked, 4 sts]
      repeats: [not worked, 3 times]
    ---
    Row 1: [Sc in each of next <plain_sts> sts, sc2tog] <repeats> times, turn.
    Row 2: *Sc in each of next <plain_sts> sts, sc2tog; rep from * <repeats> more times, turn.
    Row 3: Ch 1.
      size M: Sc in each of next <plain_sts> sts, turn.
"""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import SLOT, Kind, Line
from stitchproof.checks.stretches import numbers_of
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import Absent

PAGE = read_page(__doc__)
_BRACKET = LatePattern(rf"\[[^\[\]\n]*\]\s*{SLOT}+")
_STARRED = LatePattern(rf"\*[^*\n]*\*\s*(?:to end\s*)?{SLOT}+")


def dashes(expanded: ExpandedPattern, report: Report) -> None:
    """Numbers of steps that are not worked in a size their part serves."""
    for number, sizes, line in found_in(parts_of(expanded.document), _untagged):
        report.add(_report(number, tuple(expanded.sized.sizes[size] for size in sizes), line))


def _untagged(part: Part) -> Iterator[tuple[Number, tuple[int, ...], Line]]:
    for line in part.lines:
        if line.kind is not Kind.STEP or not line.row:
            continue
        numbers = [(at, number) for at, number, _, _ in numbers_of(line)]
        if not any(_dashed(number) for _, number in numbers):
            continue
        repeats = list(_repeats(line, numbers))
        for at, number in numbers:
            dashed = _dashed(number)
            if dashed and not any(
                at in where and all(_dashed(each) == dashed for each in held) for where, held in repeats
            ):
                yield number, dashed, line


def _dashed(number: Number) -> tuple[int, ...]:
    return tuple(size for size in number.served if number.values[size] is Absent.NOT_WORKED)


def _repeats(line: Line, numbers: list[tuple[int, Number]]) -> Iterator[tuple[range, list[Number]]]:
    """Each repeat with a sized number of times: where it stands, and all numbers of it."""
    text = line.typed
    for pattern in (_BRACKET, _STARRED):
        for match in pattern.finditer(text):
            where = range(match.start(), match.end())
            yield where, [number for at, number in numbers if at in where]


def _report(number: Number, sizes: tuple[str, ...], line: Line) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"`<{number.written}>` is not worked in a size that its line is for",
        Excerpt(number.place.span, "a dash there"),
        sizes=sizes,
        piece=line.piece,
        row=line.row,
        related=used_from(number.place),
        help=("set the line under the sizes that work it, such as `sizes with ...:`",),
    )


CHECKS = (dashes,)
