"""SP062 singular-or-plural

Severity  note
Checks    after a typed 1 stands the singular (1 st), after any other typed number the plural (2 sts), and after a slot that is
          more than 1 in some size the plural.
Matters   it is only a slip of the pen, but a maker who finds one looks at the numbers with less trust.
Mend      write the noun as its number asks; after a slot always the plural: where it is 1 for all who read it, the singular
          is printed by itself.
Source    common practice, no source.

Fires:
    ---
    Row 1: Sc in each st to last 1 sts, turn.

Fires:
    ---
    Row 1: Sc in next 2 st, sc2tog, turn.

Fires:
    ---
    Rep Row 1, 1 more rows.

Fires in M:
    counts:
      underarm: {by_hand: [1, 4], unit: sts}
    ---
    Row 1: Sc in each of next <underarm> st, turn.

Quiet:
    counts:
      seam_sts: 1 st
    ---
    Work a 2 row repeat in Row 1 sts with ch-1 sps, 2-st cables and 1½ rows, taking in <seam_sts> st, then 1 more st, 0–1 sts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.parts import Part, found_in, printed_parts
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.stretches import before, calls_to, excerpt, numbers_of
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.slot import PrintAs
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
PLURALS = {
    "st": "sts",
    "stitch": "stitches",
    "row": "rows",
    "rnd": "rnds",
    "round": "rounds",
    "time": "times",
    "rib": "ribs",
    "group": "groups",
    "marker": "markers",
    "button": "buttons",
    "ball": "balls",
    "skein": "skeins",
}
SINGULARS = {plural: singular for singular, plural in PLURALS.items()}
_NOT_A_COUNT = r"(?<![\w.,/½¼¾–—×-])(?<!to )(?<!or )"
_ONE = LatePattern(rf"{_NOT_A_COUNT}1 (?:more )?(?P<noun>{'|'.join(SINGULARS)})\b")
# Two nouns in a row make a name ("a 2 row repeat"); the number then keeps the singular, so what follows has to end the phrase.
_ENDS = (
    r"(?=\s*(?:[,.;)\]—]|$)|\s+(?:across|around|each|at|from|to|then|and|unworked|rem|more|left|before|after|even)\b)"
)
_SINGULAR = rf"(?P<noun>{'|'.join(PLURALS)})\b(?!-){_ENDS}"
_MORE = LatePattern(rf"{_NOT_A_COUNT}(?:[2-9]|[1-9]\d+) (?:more )?{_SINGULAR}")
_AFTER_SLOT = LatePattern(rf"\s(?:more )?{_SINGULAR}")
_NAMES_A_PLACE = LatePattern(
    r"\b(?:rows?|rnds?|rounds?|ch|chain|sizes?|steps?|nos?|charts?|pages?|category|us|uk)\.?\s*$", re.IGNORECASE
)


def typed_nouns(expanded: ExpandedPattern, report: Report) -> None:
    """Nouns after typed numbers and after slots."""
    report.extend(found_in(printed_parts(expanded), _found, expanded.sized.sizes))


def _found(part: Part, names: tuple[str, ...]) -> Iterator[Diagnostic]:
    for line in part.printed:
        for match, better in _typed(line):
            start, end = match.span("noun")
            yield Diagnostic(
                PAGE,
                f"`{match[0]}` takes the {'singular' if match['noun'] in SINGULARS else 'plural'}",
                excerpt(line, match.start(), end, f"`{better}`"),
                piece=line.piece,
                row=line.row,
                related=calls_to(line, start),
                help=(f"write `{better}`",),
            )
        yield from _after_slots(line, names)


def _typed(line: Line) -> Iterator[tuple[re.Match[str], str]]:
    """Typed numbers with the wrong noun, and the right one."""
    text = line.typed
    for pattern, nouns in ((_ONE, SINGULARS), (_MORE, PLURALS)):
        for match in pattern.finditer(text):
            if match.start() >= line.label_end and not _NAMES_A_PLACE.search(before(text, match.start())):
                yield match, nouns[match["noun"]]


def _after_slots(line: Line, names: tuple[str, ...]) -> Iterator[Diagnostic]:
    for _, number, words, after in numbers_of(line):
        match = _AFTER_SLOT.match(after) if number.dimension.is_count else None
        if not match or number.print_as is PrintAs.ORDINAL or _NAMES_A_PLACE.search(words):
            continue
        values = [(size, number.values[size]) for size in number.served]
        many = tuple(names[size] for size, value in values if isinstance(value, Fraction) and value != 1)
        if many:
            yield Diagnostic(
                PAGE,
                f"`<{number.written}>` takes the plural, `{PLURALS[match['noun']]}`",
                Excerpt(number.place.span, "not always 1"),
                sizes=many,
                piece=line.piece,
                row=line.row,
                related=used_from(number.place),
                help=(
                    f"write `{PLURALS[match['noun']]}`; it is printed as the singular where it is 1 for all who read it",
                ),
            )


CHECKS = (typed_nouns,)
