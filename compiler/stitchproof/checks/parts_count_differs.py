"""SP069 parts-count-differs

Severity  error
Checks    where `materials` says how many buttons, markers or holders there are, the text asks for no more. Of buttons
          the text, the buttonholes and a count named `buttons` say the same number; a share of them ("on each front",
          "remaining") may be fewer.
Matters   the maker buys too few, or has one over and doubts her work.
Mend      correct one of the numbers, or write the same slot in both places.
Source    common practice, no source.

Fires in S, M:
    materials: [6 buttons, 15 mm]
    ---
    Row 1: Sc in each st across, turn.
    Sew 5 buttons to the left front, as worn.

Fires in M:
    counts:
      buttons: {by_hand: [5 buttons, 6 buttons]}
    materials: ["5 buttons, 15 mm"]

Fires in S, M:
    materials: [2 stitch markers]
    ---
    Row 1: Sc in each st across, turn; place 4 markers.

Quiet:
    counts:
      buttons: {by_hand: [5 buttons, 6 buttons]}
    materials: ["<buttons> buttons, 15 mm", "4 stitch markers", "1 button, 10 mm, spare"]
    ---
    Row 1: Sc in each st across, turn; place 2 markers.
    Sew <buttons> buttons to the left front, as worn. Sew 1 button inside.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.materials_lines import IN_WORDS, PartsCount, materials_lines, number_values, total_of
from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import PART_END, Kind, Line
from stitchproof.checks.wording import sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import exact_text

PAGE = read_page(__doc__)
_NUMBER = rf"(?P<number>\d+|{'|'.join(IN_WORDS)})"
_PARTS = {
    "buttons": r"buttons?(?:holes?)?",
    "markers": r"(?:stitch\s+)?markers?",
    "holders": r"(?:stitch\s+)?holders?",
}
_LISTED = {
    noun: LatePattern(rf"^\s*{_NUMBER}\s+(?:[\w-]+\s+){{0,3}}?{pattern}\b", re.IGNORECASE, (noun.removesuffix("s"),))
    for noun, pattern in _PARTS.items()
}
_ASKED = {
    noun: LatePattern(
        rf"\b{_NUMBER}\s+(?:(?!mm|cm|in\b)[\w-]+\s+)?{pattern}(?!\w)", re.IGNORECASE, (noun.removesuffix("s"),)
    )
    for noun, pattern in _PARTS.items()
}
_SHARE = LatePattern(
    r"\b(?:each|every|both|rem|remaining|other|first|last|next|more|spare|extra|about|between|either|or)\b",
    re.IGNORECASE,
)


def parts(expanded: ExpandedPattern, report: Report) -> None:
    """Numbers of buttons, markers and holders against the list of materials."""
    for noun in _PARTS:
        listed = list(_listed(expanded, _LISTED[noun]))
        if not listed:
            continue
        asked = list(_asked(expanded, _ASKED[noun]))
        if noun == "buttons":
            asked += _named(expanded)
        whole = noun == "buttons" and len(listed) == 1 and listed[0].in_full
        for each in asked:
            _compare(noun, listed, each, whole and each.in_full, expanded, report)


def _listed(expanded: ExpandedPattern, pattern: LatePattern) -> Iterator[PartsCount]:
    sizes = len(expanded.sized.sizes)
    for line in materials_lines(expanded):
        if match := pattern.match(line.text):
            values = number_values(line, match, "number", sizes)
            span = line.place(match.start("number"), match.end()).span
            yield PartsCount(values, span, not _SHARE.search(line.text))


def _asked(expanded: ExpandedPattern, pattern: LatePattern) -> Iterator[PartsCount]:
    """What the text asks for. One of several numbers, or one for some sizes, may be a share of the whole."""
    lines = [line for line in lines_of(expanded.document) if line.kind is not Kind.FRONT]
    found = [(line, match) for line in lines for match in pattern.finditer(line.text)]
    for line, match in found:
        first, last = sentence(line.text, match.start(), match.end())
        alone = len(found) == 1 and not _SHARE.search(line.text[first:last]) and PART_END not in line.text
        yield _asked_in(line, match, alone, len(expanded.sized.sizes))


def _asked_in(line: Line, match: re.Match[str], alone: bool, sizes: int) -> PartsCount:
    values = number_values(line, match, "number", sizes)
    typed = line.number_at(match.start("number")) is None
    return PartsCount(values, line.place(match.start(), match.end()).span, alone, typed)


def _named(expanded: ExpandedPattern) -> list[PartsCount]:
    """The count named `buttons`, where there is just one with that name."""
    found = [each for each in expanded.sized.quantities if each.name.rsplit(".", 1)[-1] == "buttons" and each.values]
    if len(found) != 1 or not found[0].kind.dimension.is_plain:
        return []
    return [PartsCount(found[0].values, found[0].value_span, True)]


def _compare(
    noun: str, listed: list[PartsCount], asked: PartsCount, in_full: bool, expanded: ExpandedPattern, report: Report
) -> None:
    totals = [total_of(listed, size) for size in range(len(asked.values))]
    known = [total for total in totals if total is not None]
    for size, (value, total) in enumerate(zip(asked.values, totals, strict=True)):
        if not isinstance(value, Fraction) or total is None:
            continue
        # A number typed into a passage may be meant for the sizes of the passage only.
        most, least = (max(known), min(known)) if asked.typed else (total, total)
        if value > most or (in_full and value < least):
            report.add(_report(noun, listed[0], asked, total, value, expanded.sized.sizes[size]))


def _report(
    noun: str, listed: PartsCount, asked: PartsCount, total: Fraction, value: Fraction, size: str
) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"the number of {noun} in `materials` is not the number that the pattern asks for",
        Excerpt(listed.span, "listed"),
        sizes=(size,),
        related=(Excerpt(asked.span, "asked for"),),
        sums=(SumLine(size, f"listed {exact_text(total)}, asked for {exact_text(value)}", note=_off(total - value)),),
        help=("correct one of the two numbers, or write the same slot in both places",),
    )


def _off(over: Fraction) -> str:
    return f"{exact_text(abs(over))} {'too many' if over > 0 else 'too few'} listed"


CHECKS = (parts,)
