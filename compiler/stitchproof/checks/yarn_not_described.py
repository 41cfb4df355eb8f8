"""SP071 yarn-not-described

Severity  error
Checks    `materials` says four things of a yarn: its weight class, its fibre, how many metres or yards a ball or 100 g hold, and
          how much of it is needed. Where one yarn is described, its amounts may stand in lines of their own, colour by colour.
Matters   balls differ by half and more between yarns: without these the maker can neither buy nor substitute.
Mend      write "Light (category 3) wool, 220 m per 100 g: 420 g, 9 balls of 50 g".
Source    common practice, no source; weight classes and their names: Craft Yarn Council, Standard Yarn Weight System.

Fires:
    materials: [9 balls DK]

Fires:
    materials: ["Soft Valley wool: 420 g, 9 balls of 50 g (125 m)"]

Fires:
    materials: [Medium-weight (category 4) yarn, Yarn needle]

Quiet:
    materials:
      - "DK wool: 420 g, 9 balls of 50 g (125 m)"
      - "2 balls of 50 g (265 m), size 10 cotton thread"
      - A little waste yarn
      - Yarn needle

Quiet:
    materials:
      - Light (category 3) wool, 220 m per 100 g
      - "Main color: 6 balls of 50 g"
      - "Contrast color: 50 g"
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum

from msgspec import Struct

from stitchproof.checks.materials_lines import materials_lines
from stitchproof.checks.pattern_lines import Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.dimension import LENGTH, WEIGHT

PAGE = read_page(__doc__)
_BALLS = LatePattern(r"\b\d+\s+(?:[\w-]+\s+)?(?:balls?|skeins?|hanks?|cones?)\b", re.IGNORECASE)
_GRAMS = r"(?:g|gr|grams?|oz|ounces?)\b"
_HELD = r"(?:m|metres?|meters?|yds?|yards?)\b"
_PER = LatePattern(
    rf"\d\s*{_HELD}[^;:]{{0,12}}(?:\bper\b|/|=)|=\s*\d+\s*{_HELD}|\(\s*(?:about\s+)?\d+\s*{_HELD}", re.IGNORECASE
)
_BALL_HOLDS = LatePattern(
    rf"\b(?:balls?|skeins?|hanks?|cones?)\s+of\b[^;:]{{0,24}}\d\s*{_HELD}|\d\s*{_HELD}\s+balls?\b",
    re.IGNORECASE,
    ("ball", "skein", "hank", "cone"),
)
_AMOUNT = LatePattern(
    rf"(?<!per )(?<!/)(?<!/ )(?<!of )(?<![\d.,])\d[\d.,]*\s*(?:{_GRAMS}|{_HELD}(?!\s*(?:per\b|/|=)))", re.IGNORECASE
)
_WEIGHT = LatePattern(rf"(?<![\w.])\d[\d.,]*\s*{_GRAMS}", re.IGNORECASE)
_CLASS = LatePattern(r"weight|category|\bCYC\b|\bply\b|\bthread\b|\bsize\s+\d|#\s*\d|\bN?[em]\s*\d+/\d", re.IGNORECASE)
_YARN = LatePattern(r"\b(?:yarn|thread)s?\b(?!\s+(?:needle|cutter|bobbin|winder))", re.IGNORECASE, ("yarn", "thread"))
_FIBER = LatePattern(
    r"\b(?:wool\w*|merino|lambswool|cotton|linen|flax|hemp|silk|alpaca|mohair|cashmere|angora|camel|yak|llama|bamboo|viscose|rayon"
    r"|tencel|lyocell|modal|acrylic|nylon|polyamide|polyester|microfib(?:er|re)|polypropylene|elastane|jute|raffia|paper|ramie"
    r"|nettle|bluefaced|shetland|corriedale|superwash|chenille|soy|milk|blend|any\s+fib(?:er|re))\b",
    re.IGNORECASE,
)
_NOT_YARN = LatePattern(
    r"\b(?:cotton\s+balls?|bells?|foam|plastic|wooden|polystyrene|waste|scraps?|oddments?|stuffing|filling|fib(?:er|re)fill|tape"
    r"|ribbon|sewing|embroidery)\b",
    re.IGNORECASE,
    (
        *(
            "cotton",
            "bell",
            "foam",
            "plastic",
            "wooden",
            "polystyrene",
            "waste",
            "scrap",
            "oddment",
            "stuffing",
            "filling",
        ),
        *("fib", "tape", "ribbon", "sewing", "embroidery"),
    ),
)


class Fact(Enum):
    """What a maker needs to know of a yarn, in the order in which it is asked for."""

    LENGTH = "what a ball or 100 g hold in metres"
    CLASS = "the weight class of the yarn"
    FIBER = "the fibre"
    AMOUNT = "how much is needed"


class YarnLine(Struct, frozen=True):
    """A line of `materials` that speaks of yarn, and what it says."""

    line: Line
    facts: frozenset[Fact]


def yarns(expanded: ExpandedPattern, report: Report) -> None:
    """Yarns that a maker could not buy by what is said of them. Lines of one yarn are taken together."""
    lines = [YarnLine(line, _facts(line)) for line in materials_lines(expanded) if not _NOT_YARN.search(line.text)]
    of_yarn = [each for each in lines if _is_yarn(each)]
    described = [each for each in of_yarn if Fact.CLASS in each.facts]
    if len(described) == 1:
        told = frozenset(fact for each in (*of_yarn, *_amounts(lines)) for fact in each.facts)
        of_yarn = [YarnLine(described[0].line, told)]
    for each in of_yarn:
        missing = [fact.value for fact in Fact if fact not in each.facts]
        if missing:
            report.add(_report(each.line, missing))


def _amounts(lines: list[YarnLine]) -> Iterator[YarnLine]:
    """Lines such as "Contrast color: 50 g"."""
    return (each for each in lines if Fact.AMOUNT in each.facts)


def _is_yarn(found: YarnLine) -> bool:
    """Whether it counts balls; or says yarn, or a fibre, together with a weight or a weight class."""
    text = found.line.text
    if _BALLS.search(text):
        return True
    named = _YARN.search(text) or Fact.FIBER in found.facts
    weighs = _WEIGHT.search(text) or any(number.dimension == WEIGHT for number in _numbers(found.line))
    return bool(named and (weighs or Fact.CLASS in found.facts))


def _facts(line: Line) -> frozenset[Fact]:
    facts = set()
    if _PER.search(line.text) or _BALL_HOLDS.search(line.text) or _slot_holds(line):
        facts.add(Fact.LENGTH)
    if _names_class(line.text):
        facts.add(Fact.CLASS)
    if _FIBER.search(line.text):
        facts.add(Fact.FIBER)
    measured = any(number.dimension in (LENGTH, WEIGHT) for number in _numbers(line))
    if measured or _BALLS.search(line.text) or _AMOUNT.search(line.text):
        facts.add(Fact.AMOUNT)
    return frozenset(facts)


def _slot_holds(line: Line) -> bool:
    """Whether both a weight and a length are printed by slots: the one then tells what the other holds."""
    return {LENGTH, WEIGHT} <= {number.dimension for number in _numbers(line)}


def _numbers(line: Line) -> Iterator[Number]:
    return (token for _, token in line.tokens if isinstance(token, Number))


def _names_class(text: str) -> bool:
    """Whether a weight class is named, in words or as a number."""
    if _CLASS.search(text):
        return True
    if not any(each.search(text) for each in (_BALLS, _YARN, _FIBER, _WEIGHT)):
        return False
    from stitchproof.standards.yarn import yarn_weights  # most patterns write the category

    names = {weight.name for weight in yarn_weights()} | {kind for weight in yarn_weights() for kind in weight.types}
    names |= {name for weight in yarn_weights() for _, trade in weight.trade_names for name in trade}
    return re.search(rf"\b(?:{'|'.join(map(re.escape, names))})\b", text, re.IGNORECASE) is not None


def _report(line: Line, missing: list[str]) -> Diagnostic:
    said = " and ".join(filter(None, (", ".join(missing[:-1]), missing[-1])))
    return Diagnostic(
        PAGE,
        f"`materials` names a yarn, and does not say {said}",
        Excerpt(line.place(0, len(line.text)).span, "of which yarn, and how much?"),
        help=(f"add {said}, as in `Light (category 3) wool, 220 m per 100 g: 420 g, 9 balls of 50 g`",),
    )


CHECKS = (yarns,)
