"""SP010 leftover-placeholder

Severity  error
Checks    the text holds no stand-in for a number that was to be filled in later (XX, TBD, TODO, ??), and no name of this
          pattern in braces or square brackets instead of < >, with blanks inside < > or in ‹ ›, or bare. Bare names are found
          by the underscore or dot in them: `cuff` is a word as well.
Matters   it would be printed as it stands, and the maker has no number.
Mend      write the slot `<name>`, or the missing words.
Source    common practice, no source.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Row 1: Sc in each st across. — XX sc

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are {cuff_rows} rows in all.

Fires:
    counts:
      gusset_sts: 12 sts
    ---
    Row 1: Sc in each of next 4 sts, skip next gusset_sts sts, sc in each st across, turn.

Fires:
    counts:
      gusset_sts: 12 sts
    ---
    Row 1: Sc in each of next 4 sts, skip next < gusset_sts > sts, sc in each st across, turn.

Fires:
    counts:
      cuff: 12 rows
    ---
    ::: note
    The cuff has ‹cuff› rows.
    :::

Fires:
    counts:
      after_dec(k): 12 sts - k
    ---
    Row 1: Sc in each st across, turn. — after_dec(1) sc

Quiet:
    sizes: {names: [X-Large, XX-Large], choose: "X-Large to XX-Large: choose by the chest."}

Quiet:
    counts:
      cuff_rows: 12 rows
      cuff: 12 rows
    ---
    Rep Row 2 until there are <cuff_rows> rows in all. [Sc in next st, ch 1] 3 times.
    ::: note
    The cuff is folded; see example.org/cuff_rows, and ask cuff_rows@example.org.
    :::
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Text, inlines_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
_STAND_IN = LatePattern(
    r"(?<![\w])(?:XX+|xx+|TBD|TBC|TBA|TK|TODO|FIXME)(?!\w|-[LlSs](?:arge|mall)\b)|\?\?+|(?<!\w)_{2,}(?!\w)|\{\{|\}\}|#{2,}",
    needs=("XX", "xx", "TBD", "TBC", "TBA", "TK", "TODO", "FIXME", "??", "_", "{{", "}}", "#"),
)
_NAME = r"[^\W\d]\w*(?:\.\w+)*"
_FORMULA = rf"{_NAME}(?:\s*[-+*/(][^<>‹›＜＞{{}}\n]{{0,80}}?)?"
_BRACED = LatePattern(
    rf"\{{(?P<braced>{_FORMULA})\s*\}}"
    rf"|\[(?P<bracketed>{_NAME})\]"
    rf"|(?:<\s+|[‹＜]\s*)(?P<angled>{_FORMULA})\s*[>›＞]"
    r"|<\S[^<>\n]*(?:>|$)"  # a slot that cannot be read, which is reported as such
    rf"|(?<![\w.@/:-])(?P<bare>(?=[^\W_]+[_.]\w){_NAME}(?:\([^()]*\))?)(?![\w@/])"
)
_MAY_BE_BRACED = LatePattern(r"[{\[<‹＜_]|\.\w")
"""Stands in all that the one before it finds, and in few texts."""
_FIRST_NAME = LatePattern(_NAME)


def placeholders(expanded: ExpandedPattern, report: Report) -> None:
    """Stand-ins, and names that are no slot, anywhere in the text."""
    names = set(expanded.sized.scope.names())
    for text, match in found_in(parts_of(expanded.document), _marks):
        if match.re is _STAND_IN.compiled:
            report.add(_report(text, match, "fill in the number as a slot, or the missing words"))
            continue
        written = match[match.lastgroup] if match.lastgroup else ""
        name = _FIRST_NAME.match(written)
        if name and name[0] in names:
            report.add(_report(text, match, f"write `<{written}>`"))


def _marks(part: Part) -> Iterator[tuple[Text, re.Match[str]]]:
    """Stand-ins, and what may be names: in brackets common words as well, bare only what is no English word."""
    for block in part.blocks:
        for inline in inlines_of(block):
            if isinstance(inline, Text):
                yield from ((inline, match) for match in _STAND_IN.finditer(inline.text))
                if _MAY_BE_BRACED.search(inline.text):
                    yield from ((inline, match) for match in _BRACED.finditer(inline.text))


def _report(text: Text, match: re.Match[str], help_text: str) -> Diagnostic:
    span = text.place.span
    exact = span.end - span.start >= match.end()
    here = span.part(match.start(), match.end()) if exact else span
    return Diagnostic(
        PAGE,
        f"`{match[0]}` was left in the text",
        Excerpt(here, "left over"),
        related=used_from(text.place),
        help=(help_text,),
    )


CHECKS = (placeholders,)
