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
from collections.abc import Iterable, Iterator

from stitchproof.checks.mentions import Mention, mention, one_report, only_places
from stitchproof.checks.parts import Part, found_in, parts_of
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
_FIRST_WORDS = tuple((name, name.split()[0]) for group in _SAME for name in group)
_WORDS = {
    name: LatePattern(rf"\b{name.replace(' ', r'[ -]')}(?:s|es)?\b", re.IGNORECASE) for group in _SAME for name in group
}
_Said = tuple[Line, tuple[int, int]]
"""A name in a line."""


def names(expanded: ExpandedPattern, report: Report) -> None:
    """Second names of the parts that headings name; one report for each."""
    parts = parts_of(expanded.document)
    headings = " / ".join(found_in(parts, _headings))
    titles = f"{headings} / {' / '.join(each.entry.name.replace('_', ' ') for each in expanded.sized.pieces)}"
    said: dict[str, list[_Said]] = {}
    for name, line, span in found_in(parts, _named):
        said.setdefault(name, []).append((line, span))
    for group in _SAME:
        named = [name for name in group if _stands_in(name, headings)]
        if len(named) != 1:
            continue
        for other in group:
            if other not in _NEVER_SECOND and not _stands_in(other, titles):
                found = only_places(_mentions(said.get(other, ()), said.get(named[0], ())))
                if found:
                    headline = f'the heading says "{named[0]}", and the text "{found[0].word.lower()}"'
                    report.add(one_report(PAGE, headline, found, "the same part?", (f'write "{named[0]}"',)))


def _headings(part: Part) -> Iterator[str]:
    return (line.text.lower() for line in part.lines if line.kind is Kind.HEADING)


def _named(part: Part) -> Iterator[tuple[str, Line, tuple[int, int]]]:
    """Every name of a part of a garment that stands in the text, and where."""
    for line in part.lines:
        text = line.text.lower()
        for name, first in _FIRST_WORDS:
            if first in text:
                yield from ((name, line, match.span()) for match in _WORDS[name].finditer(line.text))


def _mentions(other: Iterable[_Said], name: Iterable[_Said]) -> Iterator[Mention]:
    """Where the second name stands by itself, not as a part of the first one."""
    for line, (start, end) in other:
        if not any(held is line and first <= start < last for held, (first, last) in name):
            yield mention(line, start, end)


def _stands_in(name: str, text: str) -> bool:
    """Whether a name stands in a text in small letters; its words are looked for before any pattern is made."""
    return _may_stand_in(name, text) and _WORDS[name].search(text) is not None


def _may_stand_in(name: str, text: str) -> bool:
    return all(word in text for word in name.split())


CHECKS = (names,)
