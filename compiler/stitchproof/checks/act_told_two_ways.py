"""SP113 act-told-two-ways

Severity  warning
Checks    one thing to do is told in the same words throughout: "across" or "to end of row" for a whole row, "work even"
          or "work straight", "fasten off" or "finish off", and a few more.
Matters   a reader takes another word for another thing to do, and stops to look for the difference.
Mend      choose one wording and keep to it.
Source    common practice, no source.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Row 2: Ch 1, sc in each st to end of row, turn.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn. Work 3 rows even.
    Work 3 rows straight. Fasten off.

Fires:
    ---
    Row 1: Ch 1, sc in each st across. Fasten off.
    Row 2: Ch 1, sc in each st across. Finish off.

Quiet:
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Row 2: Ch 1, 2 sc in next st, sc in each st to end, turn. Fasten off.
    Cut the yarn with a long tail, turn it straight, and finish off the seam by hand.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from stitchproof.checks.mentions import mention, one_report, only_places
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
_WHOLE = r"(?:(?:^|\n|:)\s*(?:ch\s+\d+(?:\s*\([^()]{0,60}\))?,\s*)?(?:[a-z][\w-]*)\s+in\s+each\s+(?:st|stitch|sc|hdc|dc|tr)\s+)"
"""The beginning of a row that is all one stitch: there "across" and "to end" say the same."""
_TO_END = rf"{_WHOLE}(?P<said>to\s+(?:the\s+)?end(?:\s+of\s+(?:the\s+)?(?:row|rnd|round))?)\b"
_COUNTED = r"(?:\d+\s+)?(?:more\s+)?(?:rows?|rnds?|rounds?)\s+"
_ACTS = (
    {
        rf"{_WHOLE}(?P<said>across)\b": ("across",),
        _TO_END: ("end",),
    },
    {
        rf"{_WHOLE}(?P<said>around)\b": ("around",),
        _TO_END: ("end",),
    },
    {
        rf"\bwork\s+(?:{_COUNTED})?(?P<said>even)\b(?!ly)": ("even",),
        rf"\bwork\s+(?:{_COUNTED})?(?P<said>straight)\b": ("straight",),
        rf"\bwork\s+(?:{_COUNTED})?(?P<said>without\s+(?:further\s+)?shaping)\b": ("without",),
    },
    {
        r"(?:^|[.;,:\n]\s*)(?P<said>fasten\s+off)(?=\s*(?:[.,;]|$))": ("fasten",),
        r"(?:^|[.;,:\n]\s*)(?P<said>(?:finish|end|tie|bind|cast)\s+off)(?=\s*(?:[.,;]|$))": (
            "finish",
            "end",
            "tie",
            "bind",
            "cast",
        ),
        r"(?:^|[.;,:\n]\s*)(?P<said>break\s+off(?:\s+yarn)?)(?=\s*(?:[.,;]|$))": ("break",),
    },
    {
        r"\b(?P<said>weave\s+in)\b[^.;]{0,20}\bends?\b": ("weave",),
        r"\b(?P<said>(?:sew|darn|work)\s+in)\b[^.;]{0,20}\bends?\b": ("end",),
    },
    {
        r"\b(?P<said>join\s+with\s+(?:a\s+)?sl\s+st)\b": ("join",),
        r"\b(?P<said>sl\s+st\s+to\s+join)\b": ("join",),
    },
)
"""Acts, each by its ways of being told, with the words that these need."""
Stretch = tuple[Line, int, int]
"""A line, and where the words of an act start and end in it."""
_WAYS = {form: LatePattern(form, re.IGNORECASE, needs) for forms in _ACTS for form, needs in forms.items()}


def acts(expanded: ExpandedPattern, report: Report) -> None:
    """Acts that are told in more than one way; one report for each, at the rarer wording."""
    found_as: dict[str, list[Stretch]] = {}
    for form, stretch in found_in(parts_of(expanded.document), _told):
        found_as.setdefault(form, []).append(stretch)
    for forms in _ACTS:
        ways = [found_as[form] for form in forms if form in found_as]
        if len(ways) > 1:
            told = [only_places(mention(*stretch) for stretch in stretches) for stretches in ways]
            usual, *rarer = sorted(told, key=len, reverse=True)
            found = list(chain.from_iterable(rarer))
            headline = f'one act is told in two ways: "{_words(usual[0].word)}" and "{_words(found[0].word)}"'
            label = f'elsewhere "{_words(usual[0].word)}"'
            report.add(one_report(PAGE, headline, found, label, (f'write "{_words(usual[0].word)}" everywhere',)))


def _told(part: Part) -> Iterator[tuple[str, Stretch]]:
    for line in part.lines:
        if line.is_instruction:
            for form, pattern in _WAYS.items():
                for match in pattern.finditer(line.text):
                    yield form, (line, *match.span("said"))


def _words(written: str) -> str:
    return " ".join(written.lower().split())


CHECKS = (acts,)
