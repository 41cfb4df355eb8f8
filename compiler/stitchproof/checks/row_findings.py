"""What the rules about worked rows share: from a slip in a size to the facts of a report."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import TypeVar

from msgspec.structs import replace

from stitchproof.checks.told_before import follows_from_told
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import Page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Served, Step, Text, Token, Word
from stitchproof.measures.values import exact_text
from stitchproof.rows.row_tree import Stretch
from stitchproof.simulation.slips import Absent, Joined, LeftOver, PastEnd, Slip
from stitchproof.simulation.worked_pattern import IN_LABEL, RowFinding, WorkedPattern
from stitchproof.source import Place

S = TypeVar("S")
FIRST_WORDS = 5
_SAID_IN_FULL = ("st", "sl", "sk", "sp", "lp", "rnd", "mr", "tr", "cl")
"""Abbreviations that are read out as the words they stand for: "a slip stitch", "a round"."""
NOT_WORKED = "–"
_HELD = "\N{WORD JOINER}"
"""Stands for the blanks in a sized number while words are counted: it is one."""
SHOWN_ONCE = ((LeftOver, PastEnd), (Absent,))
"""Slips that show in another place of the row in each size, though they have one cause."""


def slips_of(kind: type[S], worked: WorkedPattern, report: Report) -> Iterator[tuple[RowFinding, S]]:
    """The slips of a kind, each in its size; those that follow from a fault told before, in numbers or text, are silent."""
    for finding in worked.findings:
        if isinstance(finding.slip, kind) and not follows_from_told(finding, worked, report):
            yield finding, finding.slip


def ends_of(kind: type[Slip], worked: WorkedPattern, report: Report) -> Iterator[tuple[RowFinding, LeftOver | PastEnd]]:
    """Rows that do not come out at the end; one with too much in a size and too little in another is told as its first."""
    for finding in worked.findings:
        slip = finding.slip
        if isinstance(slip, LeftOver | PastEnd) and not follows_from_told(finding, worked, report):
            first = next(other.slip for other in worked.findings if other.step is finding.step and _is_end(other.slip))
            if isinstance(first, kind):
                yield finding, slip


def _is_end(slip: Slip) -> bool:
    return isinstance(slip, LeftOver | PastEnd)


def row_report(
    page: Page,
    headline: str,
    finding: RowFinding,
    at: Stretch,
    caret: str,
    sum_: str,
    worked: WorkedPattern,
    help_: tuple[str, ...] = (),
    note: str = "",
) -> Diagnostic:
    """A report about a row in one size. at: the words of the part where it shows."""
    part, at = _first_place(finding, at, worked)
    place = place_of(replace(finding, part=part), at, worked)
    size, row = worked.written.document.sizes.names[finding.size], _which_row(finding, worked)
    return Diagnostic(
        page,
        headline,
        Excerpt(place.span, caret),
        sizes=(size,),
        piece=finding.step.piece,
        row=finding.step.identity,
        related=(*_called_from(finding), *used_from(place)),
        sums=(SumLine(size, f"{row}: {sum_}" if row else sum_, note=note, row=row),),
        help=help_,
        causes_open=finding.mends is None,
    )


def _called_from(finding: RowFinding) -> tuple[Excerpt, ...]:
    """The line that has a row worked which is written elsewhere."""
    caller = finding.called_by
    return (Excerpt(caller.place.span, "worked from here"),) if caller else ()


def _which_row(finding: RowFinding, worked: WorkedPattern) -> str:
    """The row to be told before its sum, where several rows come of one written line and more than one of them has the slip.

    Of a row that is defined by name, as which it was worked.
    """
    if finding.as_row:
        return f"worked as {finding.as_row}"
    line = finding.step.place.span
    alike = (each.step for each in worked.findings if type(each.slip) is type(finding.slip))
    rows = {
        step.identity for step in alike if step.place.span.file is line.file and step.place.span.start == line.start
    }
    return row_words(finding).removesuffix(f" of {finding.step.piece}") if len(rows) > 1 else ""


def _first_place(finding: RowFinding, at: Stretch, worked: WorkedPattern) -> tuple[int, Stretch]:
    """Where a row that stops or does not come to its end is shown: in one place for all sizes, though it shows here and there."""
    alike = next((kinds for kinds in SHOWN_ONCE if isinstance(finding.slip, kinds)), None)
    if alike is None:
        return finding.part, at
    for other in worked.findings:
        if other.step is finding.step and isinstance(other.slip, alike):
            return other.part, other.slip.at
    return finding.part, at


def end_sum(slip: LeftOver | PastEnd) -> str:
    """The sum of a row that does not come out at the end of the row below."""
    if isinstance(slip, LeftOver):
        return f"uses {slip.taken} of {slip.available} sts, {slip.available - slip.taken} left"
    return f"needs {slip.needed} sts, there are {slip.available}: {slip.needed - slip.available} too few"


def place_of(finding: RowFinding, at: Stretch, worked: WorkedPattern) -> Place:
    """Where words of a part of a step stand; the step itself where they have no place of their own."""
    for read in worked.written.readings:
        if read.step is not finding.step or at.end <= at.start:
            continue
        if finding.part == IN_LABEL and read.label_line:
            return read.label_line.place(at)
        if 0 <= finding.part < len(read.parts):
            return read.parts[finding.part].line.place(at)
    return finding.step.place


def row_words(finding: RowFinding) -> str:
    """The row in a headline: "Dec Rnd 3 of crown", or a line without a label by its first words."""
    return step_words(finding.step, finding.step.served)


def step_words(step: Step, served: Served) -> str:
    """The same for a step; served: indexes of the sizes that are spoken of."""
    tokens = step.label or next((part.tokens for part in step.parts if part.tokens), ())
    words = "".join(_token_words(token, served) for token in tokens).split()
    if step.label:
        return f"{' '.join(words).rstrip(' :.,')} of {step.piece}".replace(_HELD, " ")
    return f"“{' '.join(words[:FIRST_WORDS])} …” of {step.piece}".replace(_HELD, " ")


def _token_words(token: Token, served: Served) -> str:
    match token:
        case Text():
            return token.text
        case Word():
            return token.as_written
        case Number():
            held = [token.values[size] for size in served]
            values = [exact_text(each) if isinstance(each, Fraction) else NOT_WORKED for each in held]
            if not token.dimension.is_count:
                return values[0] if len(set(values)) == 1 else "…"
            return in_sizes(values).replace(" ", _HELD)


def in_sizes(values: list[str]) -> str:
    """Values as the pattern prints them, "40 (48, 56)"; one that is the same in all sizes once."""
    same = len(set(values)) < 2
    return "".join(values[:1]) if same else f"{values[0]} ({', '.join(values[1:])})"


def counted(number: int, one: str, more: str = "") -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else more or one + 's'}"


def span_words(name: str) -> str:
    """A span as it is written: "underarm A"."""
    return " ".join(word.upper() if len(word) == 1 else word for word in name.split())


def joined_words(joined: Joined | None) -> tuple[str, str]:
    """Of a row that meets several pieces: what is live on the piece, and what the row comes to; "" of any other row."""
    if joined is None:
        return "", ""
    live = joined.whole - joined.left_out
    sum_ = f"{joined.whole} − {joined.left_out} = {live} sts" if joined.left_out else f"{live} sts"
    stated = f", stated {joined.stated}" if joined.stated is not None else ""
    return f"{sum_} are live on {joined.of}; ", f"the row comes to {joined.total}{stated}"


def words_for(name: str) -> str:
    """A place in plain words: "a ch-1 sp", "an hdc"."""
    if name.startswith("chsp"):
        return f"a ch-{name[4:]} sp" if name[4:] else "a ch-sp"
    known = {"tch": "a turning chain"}
    return known.get(name) or f"{_article(name)} {name}"


def _article(name: str) -> str:
    """By its sound. What has a vowel is said as a word; of letters alone each is named ("an sc", "a dc"), but for those that
    stand for a word ("a sl st")."""
    first = re.split(r"[\s-]|\d+tog|blo$|flo$", name)[0].lower()
    if first in _SAID_IN_FULL or not first:
        return "a"
    is_word = any(letter in "aeiou" for letter in first)
    return "an" if first[0] in ("aeio" if is_word else "aefhilmnorsx") else "a"
