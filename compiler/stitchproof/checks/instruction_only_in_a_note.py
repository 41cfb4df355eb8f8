"""SP050 instruction-only-in-a-note

Severity  warning
Checks    what a note tells the maker to do with stitches is told in a step of the piece as well.
Matters   a note is read once, before the work, or not at all; the step is what she follows.
Mend      say it in the step where it happens.
Source    common practice, no source.

Fires:
    counts:
      underarm: 10 sts
    ---
    ::: note
    Leave <underarm> sts at each underarm.
    :::

    Row 1: Ch 1, sc in each st across, turn. — 40 sc

Fires:
    ---
    ::: note
    The band is worked last; place a marker in the center st.
    :::

    Row 1: Ch 1, sc in each st across, turn. — 40 sc

Quiet:
    counts:
      underarm: 10 sts
    ---
    ::: note
    Move the marker up at the start of each rnd, and place a marker in the first st of every rnd. Leave a long tail.
    Skip <underarm> sts at each underarm. The last row leaves 10 sts unworked. Ch 3 counts as dc.
    :::

    Row 1: Ch 1, sc in each of next 5 sts, sk next <underarm> sts, sc in each st to end, turn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.wording import COUNT, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_ACTS = {
    "leave": (r"leave|leaving", ("leav",)),
    "skip": (r"skip(?:ping)?|sk|miss(?:ing)?", ("sk", "miss")),
    "hold": (r"hold(?:ing)?|put|place", ("hold", "put", "place")),
    "increase": (r"inc(?:reas\w+)?", ("inc",)),
    "decrease": (r"dec(?:reas\w+)?", ("dec",)),
    "work": (r"work|make", ("work", "make")),
    "pick up": (r"pick(?:ing)?\s+up", ("pick",)),
}
"""The words of each act, and what stands in all of them."""
_STITCHES = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|dtr|ch|chains?)\b(?!-)"
_OPENS = r"(?:(?:^|[.;:!]\s*|\s—\s*)(?:then\s+)?|\b(?:and|then)\s+)"
_HABIT = LatePattern(
    r"\b(?:each|every)\s+(?:rnd|round|row)|\bthroughout\b|\bas\s+you\b|\bif\b|\bcount(?:s|ing)?\b", re.IGNORECASE
)


def _told(verbs: str, needs: tuple[str, ...]) -> LatePattern:
    return LatePattern(
        rf"{_OPENS}(?P<act>(?:{verbs})\s+(?:the\s+)?(?:(?:next|first|last|rem|center|centre)\s+)?"
        rf"(?:(?P<number>{COUNT})\s+)?(?:\w+\s+)?{_STITCHES})",
        re.IGNORECASE,
        needs,
    )


_TOLD = {act: _told(*verbs) for act, verbs in _ACTS.items()}
_MARKER = LatePattern(
    rf"{_OPENS}(?P<act>(?:pm|(?:place|put)\s+(?:a\s+|the\s+)?(?:\w+\s+)?markers?)\b)", re.IGNORECASE, ("pm", "marker")
)
_DONE = {act: LatePattern(rf"\b(?:{verbs})\b", re.IGNORECASE) for act, (verbs, _) in _ACTS.items()}
_MARKED = LatePattern(r"\bpm\b|\b(?:place|put)\b[^.;]*\bmarkers?\b|\bmark(?:ing)?\b", re.IGNORECASE)
_WITHOUT_A_NUMBER = frozenset({"leave", "skip"})
"""What is an instruction even where it names no number."""


def notes(written: WrittenPattern, report: Report) -> None:
    """Acts that a piece's notes tell and none of its steps does."""
    report.extend(found_in(parts_of(written.document), _in_notes))


def _in_notes(part: Part) -> Iterator[Diagnostic]:
    noted = [line for line in part.lines if line.kind is Kind.NOTE]
    steps = [line.as_written(0, len(line.text)) for line in part.lines if line.kind is Kind.STEP] if noted else []
    return (_report(line, match) for line in noted for match in _untold(line, steps))


def _untold(line: Line, steps: list[str]) -> Iterator[re.Match[str]]:
    for act, told in _TOLD.items():
        for match in told.finditer(line.text):
            number = match["number"] and line.as_written(*match.span("number"))
            tells = (number or act in _WITHOUT_A_NUMBER) and not _is_habit(line, match)
            if tells and not any(_does(step, act, number or "") for step in steps):
                yield match
    for match in _MARKER.finditer(line.text):
        if not _is_habit(line, match) and not any(_MARKED.search(step) for step in steps):
            yield match


def _is_habit(line: Line, match: re.Match[str]) -> bool:
    """Whether it is told for the whole of the work, not for one place in it."""
    begin, end = sentence(line.text, *match.span("act"))
    return bool(_HABIT.search(line.text[begin:end]))


def _does(step: str, act: str, number: str) -> bool:
    """Whether a step does the same, with the same number where there is one."""
    has_number = not number or re.search(rf"(?<!\w){re.escape(number)}(?!\w)", step)
    return bool(has_number and (act in ("work", "hold", "pick up") or _DONE[act].search(step)))


def _report(line: Line, match: re.Match[str]) -> Diagnostic:
    place = line.place(*match.span("act"))
    return Diagnostic(
        PAGE,
        f"a note says `{line.as_written(*match.span('act'))}`, and no step of the piece does",
        Excerpt(place.span, "only told in a note"),
        piece=line.piece,
        related=used_from(place),
        help=("say it in the step where it happens",),
    )


CHECKS = (notes,)
