"""SP111 key-measure-missing

Severity  warning
Checks    the table of finished measurements of a garment holds those that its pieces call for: bust or chest, length; upper arm,
          sleeve length and cuff where there are sleeves; the yoke's depth where there is a yoke, else the armhole's; the
          neck. A hat, a scarf or a toy needs none of them.
Matters   the maker chooses her size by them, and holds the finished pieces against them.
Mend      add the line to `finished`, with the formula that the piece is made by.
Source    common practice, no source.

Fires:
    measures:
      around: 90 cm
      depth: 60 cm
    pieces:
      yoke: {gauge: fabric, worked: rows}
      sleeve: {gauge: fabric, worked: rows}
    finished:
      Finished bust: <around>
      Length: <depth>
      Yoke depth: <depth>
      Sleeve to underarm: <depth>
      Neck: <around>
    ---
    ## Yoke {yoke}

    Row 1: Ch 1, sc in each st across, turn.

    ## Sleeve {sleeve}

    Row 1: Ch 1, sc in each st across, turn.

Fires:
    pieces:
      back: {gauge: fabric, worked: rows}
    ---
    ## Back {back}

    Row 1: Ch 1, sc in each st across, turn.

    ### Shape armholes

    Row 2: Ch 1, sc in each st across, turn.

Fires:
    title: Harbour Cardigan
    audience: [child]
    pieces:
      back: {gauge: fabric, worked: rows}
    ---
    ## Back {back}

    Row 1: Ch 1, sc in each st across, turn.

    ### Shape armholes

    Row 2: Ch 1, sc in each st across, turn.

Quiet:
    measures:
      around: 90 cm
    pieces:
      back: {gauge: fabric, worked: rows}
    finished:
      Cushion: <around>
    ---
    ## Back {back}

    Row 1: Ch 1, sc in each st across, turn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.child_ages import AGES, wearers_of
from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import Kind
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.reading.pattern_source import Header

PAGE = read_page(__doc__)
_SLEEVE = LatePattern(r"\bsleeves?\b", re.IGNORECASE)
_YOKE = LatePattern(r"\byokes?\b", re.IGNORECASE)
_ARMHOLE = LatePattern(r"\barm\s?holes?\b", re.IGNORECASE)
_CUFF = LatePattern(r"\bcuffs?\b", re.IGNORECASE)
_BODICE = LatePattern(r"\bbodice\b", re.IGNORECASE)
_NOT_WORN = LatePattern(
    r"\b(?:hat|doll|toy|bear|bunny|amigurumi|mittens?|gloves?|socks?|cushion|bag|blanket)\b",
    re.IGNORECASE,
    ("hat", "doll", "toy", "bear", "bunny", "amigurumi", "mitten", "glove", "sock", "cushion", "bag", "blanket"),
)
_TO_FIT = LatePattern(r"\b(?:to\s+fit|body)\b", re.IGNORECASE)
_MEASURES = {
    "bust": LatePattern(r"\b(?:bust|chest|body\s+circumference|around\s+the\s+body)\b", re.IGNORECASE),
    "length": LatePattern(
        r"\b(?:length|underarm\s+to|to\s+(?:underarm|hem)|hem\s+to|body\s+depth|height)\b(?!.*sleeve)", re.IGNORECASE
    ),
    "upper arm": LatePattern(
        r"\b(?:upper\s+arm|bicep\w*|sleeve\s+(?:width|top|circumference)|around\s+the\s+arm)\b", re.IGNORECASE
    ),
    "sleeve length": LatePattern(
        r"\bsleeve\b.*\b(?:length|to|seam|depth)\b|\b(?:to|length)\b.*\bsleeve\b|\bto\s+cuff\b", re.IGNORECASE
    ),
    "cuff": LatePattern(r"\b(?:cuff|wrist)\b", re.IGNORECASE),
    "yoke depth": LatePattern(r"\byoke\b", re.IGNORECASE),
    "armhole depth": LatePattern(r"\barm\s?hole\b", re.IGNORECASE),
    "neck": LatePattern(r"\bneck", re.IGNORECASE),
}
"""What a label of the table says where it holds a measure."""
_WITH_A_CHEST = ("men", "men_european", "babies", "children", "youth")
"""Shipped body tables of those who have a chest; that of women has a bust."""


def measures(expanded: ExpandedPattern, report: Report) -> None:
    """The measures that a garment lacks, in one report."""
    header = expanded.sized.source.header
    titles = [each.entry.name.replace("_", " ") for each in expanded.sized.pieces]
    headings = [line.text for line in lines_of(expanded.document) if line.kind is Kind.HEADING]
    if "finished" in header.unreadable or _NOT_WORN.search(f"{header.identity.title.text} / {' / '.join(titles)}"):
        return
    labels = [line.label.text for line in header.finished if not _TO_FIT.search(line.label.text)]
    missing = [
        name for name in _wanted(" / ".join((*titles, *headings))) if not any(map(_MEASURES[name].search, labels))
    ]
    if missing:
        missing = [_around_the_body(header) if name == "bust" else name for name in missing]
        listed = " and no ".join(filter(None, (", no ".join(missing[:-1]), missing[-1])))
        span = header.finished[0].label.span if header.finished else header.identity.title.span
        report.add(
            Diagnostic(
                PAGE,
                f"the finished measurements of this garment have no {listed}",
                Excerpt(span, "the table begins here" if header.finished else "the pattern has no `finished`"),
                help=tuple(f"add a line for the {name} to `finished`" for name in missing),
            )
        )


def _around_the_body(header: Header) -> str:
    """What the measure is called by those who wear it: a child and a man have a chest."""
    ages = [any(pattern.search(words.text) for pattern in AGES.values()) for words in header.identity.audience]
    young = all(ages) if ages else any(True for _ in wearers_of(header))
    table = header.body.named.text.strip() if header.body and not header.body.is_file else ""
    if young or table in _WITH_A_CHEST:
        return "chest"
    return "bust or chest" if any(ages) else "bust"


def _wanted(titles: str) -> Iterator[str]:
    """The measures that the pieces and headings of a garment call for; none where nothing says that it is one."""
    sleeve, yoke, armhole = (bool(each.search(titles)) for each in (_SLEEVE, _YOKE, _ARMHOLE))
    if not (sleeve or yoke or armhole or _BODICE.search(titles)):
        return
    yield from ("bust", "length")
    if sleeve:
        yield from ("upper arm", "sleeve length")
        if _CUFF.search(titles) or yoke:
            yield "cuff"
    yield "yoke depth" if yoke else "armhole depth"
    yield "neck"


CHECKS = (measures,)
