"""SP070 yarn-falls-short

Severity  error
Checks    where a line of `materials` gives balls, what a ball holds, and how much is needed, the balls hold that much.
          The length that is needed may be a little more (less than 10 m), because it is printed rounded up.
Matters   the maker runs out of yarn, and the next dye lot has another shade.
Mend      work the balls out from the amount, `yarn / 50 g` rounded up.
Source    common practice, no source.

Fires in S, M:
    materials: ["Light (category 3) wool, 4 balls of 125 m for 520 m"]

Fires in M:
    measures:
      yarn: {by_hand: [100, 110], unit: g}
    materials: ["Light (category 3) wool, 220 m per 100 g: <yarn>, 2 balls of 50 g"]

Fires in S, M:
    yarn:
      weights: {sc: 3 g}
    materials: ["Light (category 3) wool, 220 m per 100 g: <yarn.grams>, 1 ball of 50 g"]
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc

Quiet:
    measures:
      yarn: {by_hand: [100, 110], unit: g}
      yarn_length: {is: yarn * 215 m per 100 g, round: up, multiple: 10 m}
    counts:
      balls: {is: yarn / 50 g, round: up, unit: balls}
    materials: ["Light (category 3) wool, 215 m per 100 g: <yarn>, <yarn_length as m>, <balls> balls of 50 g"]
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.checks.materials_lines import materials_lines, text_in_size
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import exact_text
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.source import Span

PAGE = read_page(__doc__)
_N = r"\d+(?:\.\d+|/\d+)?"
_METRES = r"m(?:etres|eters)?\b"
_LENGTH_PER_WEIGHT = LatePattern(rf"(?P<m>{_N})\s*{_METRES}\s*(?:per|/|in|=|\()\s*(?P<g>{_N})\s*g\b\)?")
_WEIGHT_OF_LENGTH = LatePattern(rf"(?P<g>{_N})\s*g\s*(?:/|=|\()\s*(?P<m>{_N})\s*{_METRES}\)?")
_BALLS = LatePattern(rf"(?P<n>{_N})\s*(?:balls?|skeins?|hanks?)(?:\s+of|,|\s*\()\s*(?P<of>{_N})\s*(?P<unit>g|m)\b\)?")
_UNCERTAIN = LatePattern(r"\b(?:each|or|spare|extra)\b", re.IGNORECASE)
ROUNDED = {"g": Fraction(0), "m": Fraction(10)}
"""How far an amount may be above what the balls hold: lengths are printed rounded up to 10 m."""


class Shortage(Struct, frozen=True):
    """Balls that do not hold what is needed, in g or m."""

    balls: Fraction
    each: Fraction
    needed: Fraction
    unit: str


def yarn(expanded: ExpandedPattern, report: Report) -> None:
    """Lines of yarn whose balls do not suffice."""
    for line in materials_lines(expanded):
        for size, name in enumerate(expanded.sized.sizes):
            for short in _shortages(text_in_size(line, size)):
                report.add(_report(short, line.place(0, len(line.text)).span, name))


def late_yarn(complete: CompletePattern, report: Report) -> None:
    """The same of lines whose amounts are counted from the rows."""
    yarn(complete.expanded, report)


def _shortages(text: str) -> Iterator[Shortage]:
    """The amounts of a line that its balls do not hold; at most one is looked for of each unit."""
    rate = _LENGTH_PER_WEIGHT.search(text) or _WEIGHT_OF_LENGTH.search(text)
    rest = text.replace(rate[0], f" {rate['g']} g " if "ball" in text[: rate.start()][-12:] else " ") if rate else text
    balls = _BALLS.search(rest)
    if not balls or _UNCERTAIN.search(text):
        return
    rest = rest.replace(balls[0], " ")
    holds = {balls["unit"]: Fraction(balls["of"])}
    if rate and balls["unit"] == "g" and Fraction(rate["g"]):
        holds["m"] = Fraction(balls["of"]) * Fraction(rate["m"]) / Fraction(rate["g"])
    for unit, each in holds.items():
        needed = re.findall(rf"(?<![\w.,])({_N})\s*{'g' if unit == 'g' else _METRES}\b", rest)
        number = Fraction(balls["n"])
        if len(needed) == 1 and _is_short(Fraction(needed[0]), number * each, unit):
            yield Shortage(number, each, Fraction(needed[0]), unit)
            return


def _is_short(needed: Fraction, held: Fraction, unit: str) -> bool:
    short = needed - held
    return short > 0 and short >= ROUNDED[unit]


def _report(short: Shortage, span: Span, size: str) -> Diagnostic:
    held = short.balls * short.each
    unit = short.unit
    sum_text = f"{exact_text(short.balls)} balls × {exact_text(short.each)} {unit} = {exact_text(held)} {unit}"
    return Diagnostic(
        PAGE,
        "the balls of yarn do not hold the amount that is needed",
        Excerpt(span, "too few balls"),
        sizes=(size,),
        sums=(
            SumLine(
                size,
                sum_text,
                note=f"{exact_text(short.needed - held)} {unit} short of {exact_text(short.needed)} {unit}",
            ),
        ),
        help=("work the balls out from the amount, rounded up",),
    )


CHECKS = (yarn, late_yarn)
