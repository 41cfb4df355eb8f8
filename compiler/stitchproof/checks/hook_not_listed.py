"""SP067 hook-not-listed

Severity  error
Checks    a hook that a step or a heading names is the hook of a gauge or stands in `materials`; and where `materials` names
          hooks, the hook of every gauge that a piece is worked at is among them. Sizes are compared in mm.
Matters   the maker comes to a row that asks for a hook she was not told to have.
Mend      list the hook under `materials`, or correct its size.
Source    common practice, no source.

Fires:
    ---
    ## Piece {piece}

    ### Edge (3.5 mm hook)

    Row 1: Sc in each st across, turn.

Fires:
    ---
    Change to 5 mm hook.
    Row 1: Sc in each st across, turn.

Fires:
    materials: [5 mm hook, Yarn needle]
    ---
    Row 1: Sc in each st across, turn.

Quiet:
    materials: ["4.0 mm (G-6) hook, or the size that gives the gauge", "3.5 mm hook for the edge", "5 buttons, 15 mm"]
    ---
    Change to 3.5 mm hook.
    Row 1: With G-6 hook, sc in each st across, turn.
    Sew on the 15 mm buttons.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import blocks_of, steps_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import exact_text
from stitchproof.reading.pattern_source import Gauge, Header, Words

PAGE = read_page(__doc__)
_MM = LatePattern(r"(?<![\w.,])(?P<mm>\d{1,2}(?:[.,]\d{1,3})?)[\s-]*mm\b")
_TO_HOOK = LatePattern(
    r"(?:[\s-]*(?:\([^()]{0,30}\)|[/,()]|and\b|or\b|to\b|\d+(?:[.,]\d+)?|mm\b|US\b|UK\b|[A-Z](?:/[A-Z])?(?:-\d+(?:\.5)?)?\b"
    r"|crochet\b|steel\b|size\b))*[\s-]*hooks?\b"
)
_FROM_HOOK = LatePattern(r"\bhooks?(?:\s+sizes?)?(?:\s*[:,(]|\s+of|\s+to)?\s*(?:an?\s+)?$", re.IGNORECASE)
_CHANGE = LatePattern(
    r"\b(?:change|switch)(?:\s+back)?\s+to\s+(?:an?\s+|the\s+)?$", re.IGNORECASE, ("change", "switch")
)
_OTHER_THING = LatePattern(r"\s*(?:[\w-]+\s+)?(?:button|bead|eye|ring|needle)")
_LABEL = LatePattern(r"\b(?P<label>[A-Z](?:/[A-Z])?-\d{1,2}(?:\.5)?)(?:\s*\([^()]*\))?\s+(?:crochet\s+)?hook")
Found = tuple[frozenset[Fraction], int, int]
"""The sizes in mm that a hook may have (several only for a letter with several), and where it is named."""
_LABELS = LatePattern(r"\b[A-Z](?:/[A-Z])?-\d{1,2}(?:\.5)?")
_SLOT = LatePattern(r"<[^<>]*>\s*(?:mm\s*)?hook")
_ANY_HOOK = LatePattern(r"\bhooks?\b", re.IGNORECASE)


def hooks(expanded: ExpandedPattern, report: Report) -> None:
    """Hooks that the maker is not told to have."""
    header = expanded.sized.source.header
    materials = _sizes(words for words in header.materials if _ANY_HOOK.search(words.text))
    listed = materials | _sizes(gauge.hook for gauge in header.gauges if gauge.hook)
    if not listed or _has_slot(header):
        return
    for line, (sizes, start, end) in found_in(parts_of(expanded.document), _named_in):
        if not sizes & listed:
            report.add(_report(line, start, end, listed))
    lacking: dict[frozenset[Fraction], list[Gauge]] = {}
    for gauge in _worked_at(expanded) if materials else ():
        if gauge.hook and (sizes := _sizes((gauge.hook,))) and not sizes & materials:
            lacking.setdefault(sizes, []).append(gauge)
    for gauges in lacking.values():
        report.add(_gauge_report(gauges, materials))


def _named_in(part: Part) -> Iterator[tuple[Line, Found]]:
    for line in part.lines:
        if line.kind in (Kind.STEP, Kind.HEADING):
            yield from ((line, found) for found in _named(line.text))


def _named(text: str) -> Iterator[Found]:
    """The hooks that a line names."""
    for match in _MM.finditer(text):
        before, after = text[max(0, match.start() - 40) : match.start()], text[match.end() : match.end() + 60]
        changed = _CHANGE.search(before) and not _OTHER_THING.match(after)
        if _TO_HOOK.match(after) or _FROM_HOOK.search(before) or changed:
            yield frozenset((Fraction(match["mm"].replace(",", ".")),)), match.start(), match.end()
    for match in _LABEL.finditer(text):
        if sizes := _labelled(match["label"]):
            yield sizes, match.start("label"), match.end("label")


def _sizes(texts: Iterable[Words]) -> frozenset[Fraction]:
    """The hooks that values of pattern.yaml list, in mm or by a letter that has one size in mm."""
    found: set[Fraction] = set()
    for words in texts:
        found |= {Fraction(match["mm"].replace(",", ".")) for match in _MM.finditer(words.text)}
        for match in _LABELS.finditer(words.text):
            found |= _labelled(match[0])
    return frozenset(found)


def _labelled(label: str) -> frozenset[Fraction]:
    from stitchproof.standards.hooks import US, hooks_labelled  # most patterns name their hooks in mm

    return frozenset(mm for system, mm in hooks_labelled(label) if system == US)


def _has_slot(header: Header) -> bool:
    """Whether a hook is listed as a named number, which cannot be read from the words."""
    lines = (*header.materials, *(gauge.hook for gauge in header.gauges if gauge.hook))
    return any(_SLOT.search(words.text) for words in lines)


def _worked_at(expanded: ExpandedPattern) -> list[Gauge]:
    """The gauges of the pieces, and of the headings inside them."""
    header = expanded.sized.source.header
    used = {piece.gauge.text.strip() for piece in header.pieces if piece.gauge}
    used |= {step.gauge for step in steps_of(tuple(blocks_of(expanded.document)))}
    return [gauge for gauge in header.gauges if gauge.name in used]


def _report(line: Line, start: int, end: int, listed: frozenset[Fraction]) -> Diagnostic:
    place = line.place(start, end)
    return Diagnostic(
        PAGE,
        f"the {line.text[start:end]} hook is named, and only {_in_words(listed)} listed",
        Excerpt(place.span, "in no gauge and not in `materials`"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=(f"list the {line.text[start:end]} hook under `materials`, or correct its size",),
    )


def _gauge_report(gauges: list[Gauge], materials: frozenset[Fraction]) -> Diagnostic:
    """gauges: those that need the same hook; a hook left out of the materials is one fault."""
    hook, *others = [gauge.hook for gauge in gauges if gauge.hook]
    names = " and ".join(f'"{gauge.name}"' for gauge in gauges)
    need = f"the gauge {names} needs" if not others else f"the gauges {names} need"
    return Diagnostic(
        PAGE,
        f"{need} the {hook.text.strip()} hook, and `materials` lists only {_in_words(materials)}",
        Excerpt(hook.span, "not in `materials`"),
        related=tuple(Excerpt(other.span, "the same hook") for other in others),
        help=(f"list the {hook.text.strip()} hook under `materials`, or correct its size",),
    )


def _in_words(sizes: frozenset[Fraction]) -> str:
    return " and ".join(f"{exact_text(size)} mm" for size in sorted(sizes))


CHECKS = (hooks,)
