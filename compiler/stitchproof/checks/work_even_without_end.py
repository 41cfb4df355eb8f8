"""SP047 work-even-without-end

Severity  error
Checks    where the work goes on without shaping, or in pattern, the text says how far: a number of rows, or a length.
Matters   without an end the maker has to stop and ask.
Mend      name the end: `Work even until 22 rows are complete, ending with a WS row`.
Source    common practice, no source.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn. — 40 sc
    Work even.

Fires:
    ---
    Continue in pattern on rem 20 sts. Fasten off.

Quiet:
    measures:
      depth: 20 cm
    counts:
      plain_rows: 12 rows
    ---
    Row 1: Work even.
    Work <plain_rows> rows even. Work even until piece measures <depth>. Work even for 3 rows.
    Continue in pattern without shaping. When piece measures <depth>, fasten off.
    Continue in pattern to end of row.

Quiet:
    ---
    Row 1: For next 4 rows, work straight.
"""

from __future__ import annotations

import re
from itertools import pairwise

from stitchproof.checks.parts import instructions_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import COUNT, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Role
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_PATTERN = r"in\s+(?:est\w*\s+|the\s+)?pat(?:t|tern)?\b(?:\s+as\s+(?:set|est\w*)\b)?"
_ON = LatePattern(
    rf"\b(?:work|cont(?:inue)?)\s+(?:(?:{_PATTERN}|on)\s+(?:[^.,;\n—]{{0,30}}\s)?)?"
    r"(?:even|straight|without\s+(?:further\s+|any\s+|more\s+)*(?:shap|inc|dec)\w*)(?=\s*(?:[.,;:)\n—]|$|\s\w))"
    rf"|\bcont(?:inue)?\s+(?:{_PATTERN}|in\s+this\s+(?:way|manner)\b|as\s+(?:set|est\w*)\b)",
    re.IGNORECASE,
    hint=r"\b(?:work|cont(?:inue)?)\s+(?:in|on|even|straight|without|as)",
)
_END = LatePattern(
    r"\b(?:until|till|for|to|through|thru|when|while|across|around|times|once|twice|ending|length|measur\w+)\b"
    rf"|\b{COUNT}\s+(?:[\w-]+\s+)?(?:rows?|rnds?|rounds?|cm|in|inches)\b"
    r"|\b(?:next|last|each|every|this|rem|other|all)\s+(?:\w+\s+)?(?:rows?|rnds?|rounds?)\b"
    r"|\b(?:rows?|rnds?|rounds?)\s+\d",
    re.IGNORECASE,
)
_NOTHING_MORE = LatePattern(r"[.!?\s]*$")
_THEN_END = LatePattern(r"[.!?—\s]*(?:when|once|at|after|until)\b", re.IGNORECASE)


def ends(written: WrittenPattern, report: Report) -> None:
    """Stretches of plain work that have no end."""
    lines = [*instructions_of(written.document), None]
    for line, following in pairwise(lines):
        if line is None:
            continue
        for match in _ON.finditer(line.text):
            if not _has_end(line, match, following.text if following else ""):
                report.add(_report(line, match))


def _has_end(line: Line, match: re.Match[str], following: str) -> bool:
    begin, end = sentence(line.text, *match.span())
    if begin < line.label_end or _END.search(line.text[begin : match.start()] + line.text[match.end() : end]):
        return True
    if any(isinstance(token, Number) and token.role is Role.LENGTH for _, token in line.tokens_in(begin, end)):
        return True
    is_last = _NOTHING_MORE.match(line.text, end)
    return bool(_THEN_END.match(following) if is_last else _THEN_END.match(line.text, end))


def _report(line: Line, match: re.Match[str]) -> Diagnostic:
    place = line.place(*match.span())
    return Diagnostic(
        PAGE,
        f"`{line.as_written(*match.span())}` has no end",
        Excerpt(place.span, "how far?"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=("name the end, as in `until 22 rows are complete, ending with a WS row`",),
    )


CHECKS = (ends,)
