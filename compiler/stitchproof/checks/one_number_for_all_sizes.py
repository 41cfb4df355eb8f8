"""SP105 one-number-for-all-sizes

Severity  error
Checks    a number typed once for all sizes is not one that differs by size. Looked at are: a thing that a count in
          pattern.yaml is named for (`10 underarm sts`), the balls in `materials`, and two rows with the same words and
          the same count, of which only one prints the sized number.
Matters   the row is right in one size and wrong in the others, and looks right to the designer, who works that size.
Mend      print the number by its slot, its name in < >, so that every size has its own.
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
    Row 1: Ch 1, sc in each of next 5 sts, sc in each of next <underarm> sts, turn. — <underarm + 5> sc
    Row 2: Ch 1, sc in each of next 5 sts, sc in each of next <underarm> sts, turn. — <underarm + 5> sc
    Sew the <underarm> underarm sts together.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.materials_lines import materials_lines
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import PART_END, Kind, Line
from stitchproof.checks.things_counted import things_said
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.values import Absent, PerSize, exact_text
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.sizing.sized_pattern import Quantity
from stitchproof.source import Span

PAGE = read_page(__doc__)
FEWEST_WORDS = 6
"""Rows that end in this many same words, count and all, are meant to be worked alike."""
MOST_NUMBERS = 60
"""A row with more of them has no twin that anybody would see."""
WORDS_BEFORE = 6
"""How many words before the number must be the same as well."""
_BALLS = LatePattern(r"(?<![\w.,])(?P<number>\d+)\s+(?:balls?|skeins?|hanks?)\b")
_NUMBER = LatePattern(
    r"\d(?<![\w.,–-]\d)\d*(?![\w.,–-]*\d)"
)  # a digit first: looked for faster than what stands before
_WORD = LatePattern(r"\S+")
_Twin = tuple[Line, int]
"""A step, and where one of its numbers stands."""


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
        typed = Fraction(found[0]["number"]) if len(found) == 1 else None
        if typed in counts[0].values and _varies(counts[0]) and not _falls_short(line, typed, counts[0]):
            place = found[0].span("number")
            _add(report, expanded, line, place, counts[0].values, (counts[0].name, counts[0].value_span))


def late_balls(complete: CompletePattern, report: Report) -> None:
    """The same where the balls are counted from the rows."""
    balls(complete.expanded, report)


def twins(expanded: ExpandedPattern, report: Report) -> None:
    """Two rows that go on in the same way, only that one has a typed number where the other has a sized one."""
    alike: dict[str, list[_Twin]] = {}
    for line, at, words in found_in(parts_of(expanded.document), _endings_in):
        alike.setdefault(words, []).append((line, at))
    for found in alike.values():
        for line, at, number in _collapsed(found):
            place = (at, at + len(_at(line, at)))
            _add(report, expanded, line, place, number.values, (number.written, number.place.span))


def _endings_in(part: Part) -> Iterator[tuple[Line, int, str]]:
    for line in part.lines:
        if line.kind is Kind.STEP and PART_END not in line.text[line.label_end + 1 :]:
            yield from ((line, at, words) for at, words in _endings(line))


def _endings(line: Line) -> Iterator[tuple[int, str]]:
    """Each number of a row, and the words from a little before it to the end of the row, numbers blotted out but counted."""
    numbers = _numbers(line, line.label_end)
    if len(numbers) > MOST_NUMBERS:
        return
    starts = [match.start() for match in _WORD.finditer(line.text, line.label_end)]
    for at in numbers:
        before = [start for start in starts if start < at][-WORDS_BEFORE:]
        start = before[0] if before else at
        words = _NUMBER.sub("#", line.text[start:]).strip()
        if len(words.split()) >= FEWEST_WORDS:
            yield at, f"{len(_NUMBER.findall(line.text[start:at]))} before: {words}"


def _numbers(line: Line, start: int) -> tuple[int, ...]:
    return tuple(match.start() for match in _NUMBER.finditer(line.text, start))


def _at(line: Line, at: int) -> str:
    match = _NUMBER.match(line.text, at)
    return match[0] if match else ""


def _collapsed(alike: list[_Twin]) -> Iterator[tuple[Line, int, Number]]:
    """The typed numbers that are a sized one in a twin, where the numbers around them are the same and one of these is sized."""
    for line, at in alike:
        if line.number_at(at) is not None:
            continue
        for other, there in alike:
            sized = other.number_at(there)
            fits = sized and _is_sized(sized) and Fraction(_at(line, at)) in sized.values
            if sized and fits and _agree_but_for(line, at, other, there):
                yield line, at, sized
                break


def _agree_but_for(line: Line, at: int, other: Line, there: int) -> bool:
    """Whether all later numbers of two rows are the same, and those just before, and one of them differs by size."""
    mine, its = _numbers(line, line.label_end), _numbers(other, other.label_end)
    i, j = mine.index(at), its.index(there)
    if len(mine) - i != len(its) - j:
        return False
    after = list(zip(mine[i + 1 :], its[j + 1 :], strict=True))
    before = list(zip(mine[max(i - 1, 0) : i], its[max(j - 1, 0) : j], strict=False))
    pairs = [*before, *after]
    return all(_same(line, a, other, b) for a, b in pairs) and any(_is_sized(line.number_at(a)) for a, _ in pairs)


def _is_sized(number: Number | None) -> bool:
    return number is not None and len(set(number.values)) > 1


def _same(line: Line, at: int, other: Line, there: int) -> bool:
    mine, its = line.number_at(at), other.number_at(there)
    if mine is None or its is None:
        return mine is its and _at(line, at) == _at(other, there)
    return mine.values == its.values


def _falls_short(line: Line, typed: Fraction | None, count: Quantity) -> bool:
    """Whether the balls hold less than the amount in the same line: a report of its own."""
    amounts = any(isinstance(token, Number) and token.dimension in (LENGTH, WEIGHT) for _, token in line.tokens)
    return amounts and any(
        isinstance(value, Fraction) and typed is not None and value > typed for value in count.values
    )


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


CHECKS = (named_things, balls, late_balls, twins)
