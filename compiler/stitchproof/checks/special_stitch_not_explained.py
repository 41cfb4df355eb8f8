"""SP115 special-stitch-not-explained

Severity  error
Checks    a special stitch that a step uses, and that is in no published list, says under `how` how it is worked
          (`special_stitches`). A word that a step explains is explained before any step uses it.
Matters   a name is no instruction: the maker has to stop and ask, or works something else.
Mend      add `how` to the stitch, and say in it what it is worked into and how many stitches it makes.
Source    common practice, no source; what needs no explanation: Craft Yarn Council, Crochet Abbreviations Master List.

Fires:
    special_stitches:
      decp: {name: decrease pair}
    ---
    Row 1: Ch 1, decp over next 4 sts, sc in each st to end, turn.

Fires:
    special_stitches:
      puff: {name: puff stitch, how: "Worked as told in the rows; takes 1 st and makes 1 st."}
    ---
    Row 1: Ch 1, puff in next st, sc in each st to end, turn.
    Row 2: Ch 1, sc in each st across, turn.
    Puff: draw up 3 loops in one st and close them together.

Quiet:
    special_stitches:
      fsc: foundation single crochet
      decp: {name: decrease pair, how: "Sc2tog twice over the next 4 sts: 4 sts are taken, 2 made."}
    ---
    Row 1: Fsc in next st, decp over next 4 sts, sc in each st to end, turn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.reading.pattern_source import SpecialStitch
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_USUAL = LatePattern(
    r"\b(?:foundation|extended|front\s+post|back\s+post|front\s+loop|back\s+loop|both\s+loops|third\s+loop|reverse|together"
    r"|linked)\b",
    re.IGNORECASE,
)
"""A published stitch worked into another place, or joined to its neighbour: its name says how."""
_WORKED_AS = LatePattern(r"\b(?:in|into|over|around|through|same|one\s+place|\d+)\b", re.IGNORECASE)


def explained(written: WrittenPattern, report: Report) -> None:
    """Special stitches that are used and told nowhere, or too late."""
    defined = written.expanded.sized.source.header.special_stitches
    steps = [line for line in lines_of(written.document) if line.kind is Kind.STEP] if defined else []
    for stitch in defined:
        used = list(_uses(steps, stitch.abbreviation))
        if not used or stitch.name is None:
            continue
        told = next((each for each in used if _explains(each[1], each[2], stitch.abbreviation)), None)
        if told is None and not stitch.how and not _says_how(stitch):
            report.add(_report(stitch))
        elif told is not None and told[0] > used[0][0]:
            report.add(_too_late(stitch, used[0], told))


def _uses(steps: list[Line], key: str) -> Iterator[tuple[int, Line, int]]:
    """Each step that uses it, by its place among the steps, and where in it."""
    for number, line in enumerate(steps):
        for at, word in line.words():
            if word.entry == key:
                yield number, line, at


def _explains(line: Line, at: int, key: str) -> bool:
    """Whether a line begins with the word and a colon: "Puff: draw up ...", "Puff = ..."."""
    return not line.text[:at].strip() and re.match(r"s?\s*(?::|=)\s*\S", line.text[at + len(key) :]) is not None


def _says_how(stitch: SpecialStitch) -> bool:
    """Whether its name tells it (`two dc in one place`), or is that of a published stitch."""
    name = stitch.name.text if stitch.name else ""
    if _USUAL.search(name) or _WORKED_AS.search(name):
        return True
    from stitchproof.standards.abbreviations import abbreviations as published  # only a stitch without `how` needs them

    names = {form for each in published() for form in (each.written.lower(), each.meaning.lower())}
    return " ".join(name.lower().split()) in names or stitch.abbreviation.lower() in names


def _report(stitch: SpecialStitch) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f'nothing says how the special stitch "{stitch.abbreviation}" is worked',
        Excerpt(stitch.span, "a name alone"),
        help=("add `how`: what it is worked into, what is done, and how many stitches it takes and makes",),
    )


def _too_late(stitch: SpecialStitch, used: tuple[int, Line, int], told: tuple[int, Line, int]) -> Diagnostic:
    _, line, at = used
    place = line.place(at, at + len(stitch.abbreviation))
    after = told[1].place(told[2], told[2] + len(stitch.abbreviation))
    return Diagnostic(
        PAGE,
        f'"{stitch.abbreviation}" is used before the text explains it',
        Excerpt(place.span, "used here"),
        piece=line.piece,
        row=line.row,
        related=(Excerpt(after.span, "explained only here"), *used_from(place)),
        help=("put the explanation into `how` of the special stitch, which is printed before the first row",),
    )


CHECKS = (explained,)
