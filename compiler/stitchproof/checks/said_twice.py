"""SP172 said-twice

Severity  warning
Checks    no clause stands twice in a row where it can be meant only once: "turn, turn", a join, the chain at the start, "each st
          across", or words that make no stitch.
Matters   a maker who follows it to the letter turns twice, or looks for the stitches that the second "each st" means.
Mend      take one of the two out.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn, turn. — 20 sc

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, ch 1, sc in each st across, turn. — 20 sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, [sc in next st, sc in next st, sc in each of next 2 sts, sc in each of next 2 sts] 3 times, sc in next st,
      sc in next st, turn. — 20 sc
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Word
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
_CLAUSE = LatePattern(r"[^,;:.()\[\]\n—]+")
_COMMA = LatePattern(r"\s*[,;]\s*")
_ONCE = LatePattern(r"(?:turn|join|fasten|sl(?:ip)? st (?:to|in) (?:first|top))\b", re.IGNORECASE)
_EACH = LatePattern(r"\bin (?:each|every) (?!of (?:next|first|last)\b)", re.IGNORECASE)
_CHAIN = LatePattern(r"ch(?:ain)? \d+$", re.IGNORECASE)
FEWEST_LETTERS = 4


def clauses(written: WrittenPattern, report: Report) -> None:
    """Clauses that stand twice, one right after the other."""
    names = written.document.sizes.names
    served = {(each.step.piece, each.step.identity): each.step.served for each in written.readings}
    for line, first, second in found_in(parts_of(written.document), _twice):
        sizes = served.get((line.piece, line.row), ())
        report.add(_report(line, first, second, tuple(names[size] for size in sizes), len(sizes) == len(names)))


def _twice(part: Part) -> Iterator[tuple[Line, tuple[int, int], tuple[int, int]]]:
    for line in part.lines:
        found = list(_clauses(line)) if line.is_instruction else []
        for first, second in pairwise(found):
            if _only_once(line, first, first is found[0]) and _same(line, first, second):
                yield line, first, second


def _clauses(line: Line) -> Iterator[tuple[int, int]]:
    """The clauses of a line after its label, without the blanks around them."""
    for match in _CLAUSE.finditer(line.text, line.label_end):
        words = match[0].strip()
        if words:
            start = match.start() + len(match[0]) - len(match[0].lstrip())
            yield start, start + len(words)


def _same(line: Line, first: tuple[int, int], second: tuple[int, int]) -> bool:
    between = _COMMA.fullmatch(line.text[first[1] : second[0]])
    return between is not None and line.as_written(*first).lower() == line.as_written(*second).lower()


def _only_once(line: Line, clause: tuple[int, int], begins: bool) -> bool:
    """Whether a clause cannot be meant twice. begins: it is the first of its line."""
    start, end = clause
    text = line.text[start:end]
    if _ONCE.match(text) or _EACH.search(text):
        return True
    if _CHAIN.fullmatch(text):
        return begins
    stitches = any(isinstance(token, Word) for _, token in line.tokens_in(start, end))
    return not stitches and not any(sign.isdigit() for sign in text) and len(text) >= FEWEST_LETTERS


def _report(
    line: Line, first: tuple[int, int], second: tuple[int, int], sizes: tuple[str, ...], in_all: bool
) -> Diagnostic:
    place, before = line.place(*second), line.place(*first)
    words = line.as_written(*second)
    return Diagnostic(
        PAGE,
        f"`{words}` stands twice, one right after the other",
        Excerpt(place.span, "a second time"),
        sizes=sizes,
        in_all_sizes=in_all,
        piece=line.piece,
        row=line.row,
        related=(Excerpt(before.span, "the first time"), *used_from(place)),
        help=("take one of the two out",),
    )


CHECKS = (clauses,)
