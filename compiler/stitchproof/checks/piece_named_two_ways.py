"""SP107 piece-named-two-ways

Severity  warning
Checks    a piece is called by one name: where its heading says body, the text does not say bodice; where it says hem,
          not welt. Only names that mean the same part are compared, and only where no other piece has the second name.
Matters   the maker looks for a bodice, and no heading has that name.
Mend      use the name in the heading everywhere.
Source    common practice, no source.

Fires:
    ---
    ## Body {piece}

    Row 1: Ch 1, sc in each st across, turn.
    Sew the bodice to the hem.

Fires:
    ---
    ## Neckband {piece}

    Row 1: Ch 1, sc in each st across, turn.
    Weave in the ends of the neck edging.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: rows}
      welt: {gauge: fabric, worked: rows}
    ---
    ## Hem {piece}

    Row 1: Ch 1, sc in each st across, turn.

    ## Welt {welt}

    Row 1: Ch 1, sc in each st across, turn. Sew the welt to the hem.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.mentions import Mention, mention, one_report, only_places
from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
_SAME = (
    ("body", "bodice", "torso"),
    ("hem", "hemband", "hem band", "welt", "bottom band", "lower band", "waistband"),
    ("cuff", "wristband", "wrist band", "sleeve band"),
    ("neckband", "neck band", "neck edging", "neck border", "neck trim", "neckline band", "collar"),
    ("button band", "buttonband", "front border", "front edging"),
    ("armhole edging", "armhole band", "armband", "armhole border", "armhole trim"),
    ("brim", "hatband", "hat band"),
    ("strap", "handle"),
    ("ear flap", "earflap", "ear piece"),
    ("pocket", "pouch"),
    ("edging", "border", "trim"),
    ("gusset", "thumb gore"),
)
"""Names of one part in the trade; common practice, no source. A body is also a person's: it is no second name of a bodice."""
_NEVER_SECOND = frozenset({"body", "waistband", "collar", "trim", "handle", "border", "edging"})
"""Words with other uses as well ("trim the ends"), which are looked for in headings only."""


def names(expanded: ExpandedPattern, report: Report) -> None:
    """Second names of the parts that headings name; one report for each."""
    lines = list(lines_of(expanded.document))
    headings = " / ".join(line.text.lower() for line in lines if line.kind is Kind.HEADING)
    titles = f"{headings} / {' / '.join(each.entry.name.replace('_', ' ') for each in expanded.sized.pieces)}"
    for group in _SAME:
        named = [name for name in group if _stands_in(name, headings)]
        if len(named) != 1:
            continue
        for other in group:
            if other not in _NEVER_SECOND and not _stands_in(other, titles):
                found = only_places(_mentions(lines, other, named[0]))
                if found:
                    headline = f'the heading says "{named[0]}", and the text "{found[0].word.lower()}"'
                    report.add(one_report(PAGE, headline, found, "the same part?", (f'write "{named[0]}"',)))


def _mentions(lines: list[Line], other: str, name: str) -> Iterator[Mention]:
    """Where the second name stands by itself, not as a part of the first one."""
    for line in lines:
        if not _may_stand_in(other, line.text.lower()):
            continue
        held = [match.span() for match in _word(name).finditer(line.text)]
        for match in _word(other).finditer(line.text):
            if not any(start <= match.start() < end for start, end in held):
                yield mention(line, *match.span())


def _stands_in(name: str, text: str) -> bool:
    """Whether a name stands in a text in small letters; its words are looked for before any pattern is made."""
    return _may_stand_in(name, text) and _word(name).search(text) is not None


def _may_stand_in(name: str, text: str) -> bool:
    return all(word in text for word in name.split())


_WORDS: dict[str, LatePattern] = {}


def _word(name: str) -> LatePattern:
    if name not in _WORDS:
        _WORDS[name] = LatePattern(rf"\b{name.replace(' ', r'[ -]')}(?:s|es)?\b", re.IGNORECASE)
    return _WORDS[name]


CHECKS = (names,)
