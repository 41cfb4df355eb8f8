"""SP105 one-number-for-all-sizes

Severity  error
Checks    a number typed once for all sizes is not one that differs from size to size: where the text names the thing that a
          count in pattern.yaml is named for (`10 underarm sts`), where `materials` counts balls, and where two rows are the
          same, word for word and count for count, and only one of them prints the sized number.
Matters   the row is right in one size and wrong in the others, and looks right to the designer, who works that size.
Mend      print the number by its slot, so that every size has its own.
Source    common practice, no source.

Fires in M:
    counts:
      underarm: {by_hand: [10 sts, 12 sts]}
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Sew the 10 underarm sts of body and sleeve together.

Fires in S:
    counts:
      yarn_balls: {by_hand: [4, 5], unit: balls}
    materials: ["DK wool, 210 m per 100 g: 250 g, 5 balls of 50 g"]

Fires in M:
    counts:
      decs: {by_hand: [9, 11], unit: times}
      left: {by_hand: [40 sts, 44 sts]}
    ---
    Row 1: Ch 1, [hdc in next st, hdc2tog] <decs> times, turn. — <left> hdc
    Row 5: Ch 1, [hdc in next st, hdc2tog] 9 times, turn. — <left> hdc

Quiet:
    counts:
      underarm: {by_hand: [10 sts, 12 sts]}
      yarn_balls: {by_hand: [4, 5], unit: balls}
    materials: ["DK wool, 210 m per 100 g: <yarn_balls> balls of 50 g"]
    ---
    Row 1: Ch 1, sc in each of next 5 sts, sc in each of next <underarm> sts, turn. — <underarm> sc
    Row 2: Ch 1, sc in each of next 10 sts, sc in each of first 5 underarm sts, turn. — <underarm> sc
    Sew the <underarm> underarm sts together.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.materials_lines import materials_lines
from stitchproof.checks.pattern_lines import PART_END, Kind, Line, lines_of
from stitchproof.checks.things_counted import things_said
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import Absent, PerSize, exact_text
from stitchproof.sizing.sized_pattern import Quantity
from stitchproof.source import Span

PAGE = read_page(__doc__)
FEWEST_WORDS = 6
"""A row this long that is the same as another, count and all, is meant to be worked like it."""
_BALLS = LatePattern(r"(?<![\w.,])(?P<number>\d+)\s+(?:balls?|skeins?|hanks?)\b")
_NUMBER = LatePattern(r"(?<![\w.,–-])\d+(?![\w.,–-]*\d)")
_Twin = tuple[Line, tuple[int, ...]]
"""A step, and where its numbers stand in it."""


def named_things(expanded: ExpandedPattern, report: Report) -> None:
    """One number for a thing whose named count is right with it in some sizes only."""
    for said in things_said(expanded):
        if not said.is_list and 0 < len(said.wrong_in()) < len(said.values):
            span, values = said.quantity.value_span, said.quantity.values
            _add(report, expanded, said.line, (said.start, said.end), values, (said.quantity.name, span))


def balls(expanded: ExpandedPattern, report: Report) -> None:
    """One number of balls where a count of balls differs by size."""
    counts = [
        each for each in expanded.sized.quantities if each.kind.noun in ("balls", "skeins", "hanks") and each.values
    ]
    for line in materials_lines(expanded) if len(counts) == 1 else ():
        found = [match for match in _BALLS.finditer(line.text) if line.number_at(match.start()) is None]
        if len(found) == 1 and _varies(counts[0]) and Fraction(found[0]["number"]) in counts[0].values:
            place = found[0].span("number")
            _add(report, expanded, line, place, counts[0].values, (counts[0].name, counts[0].value_span))


def twins(expanded: ExpandedPattern, report: Report) -> None:
    """Two rows that differ only in that one has a typed number where the other has a sized one."""
    rows: dict[str, list[_Twin]] = {}
    for line in lines_of(expanded.document):
        if line.kind is Kind.STEP and PART_END not in line.text[line.label_end + 1 :]:
            rows.setdefault(_NUMBER.sub("#", line.text[line.label_end :]), []).append((line, _places(line)))
    for words, alike in rows.items():
        if len(words.split()) >= FEWEST_WORDS:
            for line, at, number in _collapsed(alike):
                place = (at, at + len(_at(line, at)))
                _add(report, expanded, line, place, number.values, (number.written, number.place.span))


def _places(line: Line) -> tuple[int, ...]:
    return tuple(match.start() for match in _NUMBER.finditer(line.text, line.label_end))


def _at(line: Line, at: int) -> str:
    match = _NUMBER.match(line.text, at)
    return match[0] if match else ""


def _collapsed(alike: list[_Twin]) -> Iterator[tuple[Line, int, Number]]:
    """The typed numbers of rows whose twin has a sized one there, while another sized number is the same in both."""
    for line, places in alike:
        for other, theirs in alike:
            pairs = list(zip(places, theirs, strict=True))
            differ = [(mine, its) for mine, its in pairs if not _same(line, mine, other, its)]
            if len(differ) != 1 or not any(
                _is_sized(line.number_at(mine)) for mine, its in pairs if (mine, its) not in differ
            ):
                continue
            at, there = differ[0]
            sized = other.number_at(there)
            if line.number_at(at) is None and sized and _is_sized(sized) and Fraction(_at(line, at)) in sized.values:
                yield line, at, sized
                break


def _is_sized(number: Number | None) -> bool:
    return number is not None and len(set(number.values)) > 1


def _same(line: Line, at: int, other: Line, there: int) -> bool:
    mine, its = line.number_at(at), other.number_at(there)
    if mine is None or its is None:
        return mine is its and _at(line, at) == _at(other, there)
    return mine.values == its.values


def _varies(quantity: Quantity) -> bool:
    return len(set(quantity.values)) > 1


def _add(
    report: Report,
    expanded: ExpandedPattern,
    line: Line,
    stretch: tuple[int, int],
    values: PerSize,
    named: tuple[str, Span],
) -> None:
    """One report for the sizes in which the typed number is wrong."""
    place, typed = line.place(*stretch), Fraction(line.text[stretch[0] : stretch[1]])
    names = expanded.sized.sizes
    wrong = [
        SumLine(names[size], f"typed {exact_text(typed)}, `{named[0]}` is {_in_words(value)}")
        for size, value in enumerate(values)
        if value != typed and value is not Absent.UNKNOWN
    ]
    report.add(
        Diagnostic(
            PAGE,
            f"`{exact_text(typed)}` is typed for all sizes, and `{named[0]}` differs from size to size",
            Excerpt(place.span, "the same in every size"),
            sizes=tuple(each.size for each in wrong),
            piece=line.piece,
            row=line.row,
            related=(Excerpt(named[1], "one number per size"), *used_from(place)),
            sums=tuple(wrong),
            help=(f"write `<{named[0]}>`",),
        )
    )


def _in_words(value: object) -> str:
    return exact_text(value) if isinstance(value, Fraction) else "not worked"


CHECKS = (named_things, balls, twins)
