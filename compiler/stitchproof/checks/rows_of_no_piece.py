"""SP232 rows-of-no-piece

Severity  warning
Checks    rows stand under a heading that names their piece in braces, as in `## Thumb {thumb}`. A row is a line with a row's
          label that works a stitch; sections of notes, gauge swatches and stitch patterns may tell rows of their own.
Matters   rows that belong to no piece are printed, and neither worked nor proved: a wrong count in them passes.
Mend      name the piece in the heading and give it in `pieces`; or accept this where the rows are not to be proved.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    ---
    ## Hand {piece}

    Row 1: Sc in each st across.

    ## Thumb

    Rnd 1: Ch 1, sc in each st around, join with sl st in first sc. — 12 sc
    Rnd 2: Ch 1, sc in each st around, join with sl st in first sc. — 14 sc

Fires:
    counts:
      edge_rows: 3 rows
    ---
    ## Body {piece}

    Row 1: Sc in each st across.

    ## Finishing

    Sew the seams.

    ### Button Band

    With RS facing, join yarn at the lower edge and work as follows:
    Rows 2–<edge_rows> (RS): Ch 1, turn, sc in each st across.
    Next Row: Sl st in each st across.

Quiet:
    ---
    ## Notes

    Row 1 is worked into the back bumps; for the rows that follow: sc in each st.

    Row gauge: 12 sc rows to 10 cm.

    ## Stitch Pattern

    Row 1: Sc in each st across, turn.

    ## Body {piece}

    Row 1: Sc in each st across.

    ## Finishing

    Sew Row 1: it is the cast-on edge.

    Rows 1 and 2: weave in the ends.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from stitchproof.checks.parts import Part, parts_of
from stitchproof.checks.pattern_lines import Kind
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.source import Place

PAGE = read_page(__doc__)
_NUMBERS = r"\d+(?:\s*(?:[-–,&]|to|and)\s*\d+)*"
_ROWS = r"(?:Rows?|Rnds?|Rounds?|ROWS?|RNDS?|ROUNDS?)"
_LABEL = LatePattern(
    rf"(?:^|(?<=[.!?):]\s))(?P<label>(?:[A-Z][\w-]*\s+){{0,2}}{_ROWS}\s+{_NUMBERS}"
    rf"|(?:[A-Z][\w-]*\s+){{1,2}}(?:{_NUMBERS}\s+)?(?:{_ROWS}|rows?|rnds?|rounds?))(?:\s*\([^()]*\))?\s*:(?=\s)",
    needs=("ow", "nd", "OW", "ND"),
)
_TELLS_ROWS = LatePattern(
    r"\b(?:notes?|gauges?|tension|swatch(?:es)?|(?:stitch|st|lace|cable) patterns?|pattern stitch(?:es)?|special|charts?)\b",
    re.IGNORECASE,
)
"""Headings of sections in which rows are told that are no piece's. Common practice, no source."""


class LooseRow(Struct, frozen=True):
    """The first row below a heading inside a section: the heading, "" for that of the section, and where its label stands."""

    heading: str
    label: Place


def pieceless(written: WrittenPattern, report: Report) -> None:
    """The first row under each heading that names no piece. A piece that no heading names at all is reported for itself."""
    document, header = written.document, written.expanded.sized.source.header_file
    known = {piece.entry.name for piece in written.expanded.sized.pieces}
    unwritten = known - {piece.name for piece in document.pieces}
    if not written.expanded.whole or "pieces" in written.expanded.sized.source.header.unreadable:
        return
    parts = parts_of(document)
    first, after = len(document.front), len(document.front) + len(document.pieces)
    sections = zip((*document.front, *document.finishing), (*parts[:first], *parts[after:]), strict=False)
    stitches = frozenset(written.facts)
    for section, part in sections:
        for row in part.found(_first_rows, stitches):
            title = row.heading or section.title
            name = _name(title)
            if name in unwritten or _TELLS_ROWS.search(title) or row.label.span.file is header:
                continue
            report.add(_report(title, name, row.label, name in known))


def _first_rows(part: Part, stitches: frozenset[str]) -> Iterator[LooseRow]:
    """The first row under each heading of a part."""
    heading, found = "", False
    for line in part.lines:
        if line.kind is Kind.HEADING:
            heading, found = line.text.strip(), False
            continue
        match = None if found else _LABEL.search(line.text)
        if match and any(at >= match.end() and word.entry in stitches for at, word in line.words()):
            found = True
            yield LooseRow(heading, line.place(*match.span("label")))


def _name(title: str) -> str:
    """What a piece of that title would be called in pattern.yaml."""
    return re.sub(r"\W+", "_", title.lower()).strip("_")


def _report(title: str, name: str, label: Place, is_known: bool) -> Diagnostic:
    heading = f"write `## {title} {{{name}}}`"
    return Diagnostic(
        PAGE,
        f"the rows under “{title}” belong to no piece, so they are not worked",
        Excerpt(label.span, "of which piece?"),
        related=used_from(label),
        help=(heading if is_known else f"{heading}, and give `{name}` in `pieces`",),
    )


CHECKS = (pieceless,)
