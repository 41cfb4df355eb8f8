"""SP045 join-without-a-place

Severity  error
Checks    a round that is joined, and yarn that is joined, say where.
Matters   the first stitch, the turning chain and the top of the chain are three places; which of them is joined into decides
          how many stitches the round has.
Mend      name the place: `join with sl st in first sc`; or say once in the notes where rounds are joined.
Source    common practice, no source.

Fires:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    ---
    Rnd 1: Ch 1, sc in each st around, join with sl st. — 60 sc

Fires:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    ---
    Rnd 1: Ch 1, sc in each st around, sl st to join, do not turn. — 60 sc

Fires:
    ---
    Fasten off. With RS facing, join yarn.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    ---
    Ch 60, join with sl st to form a ring.
    Rnd 1: Ch 1, sc in each ch around, join with sl st in first sc. — 60 sc
    Rnd 2: Ch 1, sc in each st around, sl st in first sc to join. Fasten off. — 60 sc
    With RS facing, join yarn with sl st at center back. Join shoulders.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    ---
    ::: note
    To join a rnd, work a sl st into the first sc.
    :::

    Rnd 1: Ch 1, sc in each st around, join. — 60 sc
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.mentions import Mention, mention, one_report, only_places
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind
from stitchproof.checks.wording import SLIP_STITCH, rest_of_clause, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
HELP = "write where, as in `join with sl st in first sc`"
HELP_FOR_ALL = f"{HELP}; or once in the notes, as in `join every rnd with a sl st in the first st`"
_JOIN = LatePattern(
    rf"\bjoin(?:ing)?\s+with\s+(?:a\s+)?{SLIP_STITCH}\b"
    rf"|\b{SLIP_STITCH}\s+to\s+join\b"
    r"|(?:(?<=[,;.]\s)|^)join(?:\s+(?:rnd|round))?(?=\s*(?:[,;.)]|$|\n))",
    re.IGNORECASE,
)
_YARN = LatePattern(rf"\b(?:re)?join\s+(?:the\s+|new\s+)?yarn(?:\s+with\s+(?:a\s+)?{SLIP_STITCH}\b)?", re.IGNORECASE)
_PLACE = LatePattern(
    r"\b(?:in|into|to|at|on|onto|through|under|around|between|over|behind|along|from|as)\b", re.IGNORECASE
)
_YARN_PLACE = LatePattern(rf"{_PLACE.text}|\b(?:edge|corner|seam|underarm|insert)\b", re.IGNORECASE)
_SAID_ONCE = LatePattern(
    r"\bjoin(?:ed|ing|s)?\b[^.;()]{0,80}?\b(?:in|into|to)\s+(?:the\s+)?(?:first|top|beg\w*|starting|turning|\w+\s+ch)\b",
    re.IGNORECASE,
)
_FOR_ALL = LatePattern(
    r"[^.;]{0,200}?\b(?:throughout|this\s+way|(?:every|each)\s+(?:rnd|round)|all\s+rnds)\b", re.IGNORECASE
)
_INSERT = LatePattern(r"\binsert\b", re.IGNORECASE)


def joins(written: WrittenPattern, report: Report) -> None:
    """Joins that name no place, in a pattern that does not say once where they go."""
    parts = parts_of(written.document)
    for each in found_in(parts, _yarns):
        report.add(_report([each], "write where, as in `join yarn in first st`"))
    rounds = () if any(found_in(parts, _said_once)) else found_in(parts, _rounds)
    # One habit of writing is one report, however many rounds are written so.
    by_words: dict[str, list[Mention]] = {}
    for each in only_places(rounds):
        by_words.setdefault(" ".join(each.word.lower().split()), []).append(each)
    for same in by_words.values():
        report.add(_report(same, HELP if len(same) == 1 else HELP_FOR_ALL))


def _rounds(part: Part) -> Iterator[Mention]:
    """Joins of rounds that name no place."""
    for line in part.lines:
        for match in _JOIN.finditer(line.text) if line.is_instruction else ():
            begin, _ = sentence(line.text, *match.span())
            inserted = _INSERT.search(line.text[begin : match.start()])
            if not inserted and not _PLACE.search(rest_of_clause(line.text, match.end())):
                yield mention(line, *match.span())


def _yarns(part: Part) -> Iterator[Mention]:
    """Yarn that is joined at no place."""
    for line in part.lines:
        for match in _YARN.finditer(line.text) if line.is_instruction else ():
            begin, end = sentence(line.text, *match.span())
            if not _YARN_PLACE.search(line.text[begin : match.start()] + line.text[match.end() : end]):
                yield mention(line, *match.span())


def _said_once(part: Part) -> Iterator[bool]:
    """Whether a note says where rounds are joined, or a step says it for all."""
    for line in part.lines:
        said = _SAID_ONCE.search(line.text)
        if said and (line.kind in (Kind.FRONT, Kind.NOTE) or _FOR_ALL.match(line.text, said.end())):
            yield True


def _report(places: list[Mention], help_text: str) -> Diagnostic:
    headline = f"`{' '.join(places[0].word.lower().split())}` does not say where"
    return one_report(PAGE, headline, places, "in which stitch?", (help_text,))


CHECKS = (joins,)
