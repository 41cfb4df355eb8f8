"""SP064 special-stitch-not-used

Severity  note
Checks    every stitch defined under `special_stitches` is used, by its abbreviation or its name.
Matters   the maker learns a stitch that the pattern never asks for.
Mend      take the definition out, or use the stitch.
Source    common practice, no source.

Fires:
    special_stitches:
      fsc: foundation single crochet
    ---
    Row 1: Sc in each st across, turn.

Quiet:
    special_stitches:
      fsc: foundation single crochet
      base: {name: base chain, how: The ch that an fsc makes below.}
    ---
    Row 1: Fsc in next st, sc in each st across, turn. Each base chain stays free.
"""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.checks.parts import lines_of
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Document, Word, inlines_of
from stitchproof.reading.pattern_source import SpecialStitch
from stitchproof.rows.written_pattern import WrittenPattern

PAGE = read_page(__doc__)
LISTS = ("special_stitches", "abbreviations")


def special_stitches(written: WrittenPattern, report: Report) -> None:
    """Definitions that nothing uses."""
    defined = written.expanded.sized.source.header.special_stitches
    if not defined:
        return
    used = set(_words(written.document))
    text = " ".join(line.text for line in lines_of(written.document)).lower()
    for stitch in defined:
        if stitch.name is None:  # reported
            continue
        explained = any(stitch.abbreviation.lower() in _how(other) for other in defined if other is not stitch)
        name = " ".join(stitch.name.text.lower().split())
        if stitch.abbreviation not in used and not explained and not (name and name in text):
            headline = f'the special stitch "{stitch.abbreviation}" is defined and never used'
            report.add(
                Diagnostic(PAGE, headline, Excerpt(stitch.span), help=("take the definition out, or use the stitch",))
            )


def _words(document: Document) -> Iterator[str]:
    """The keys of the trade's words in the text, those of the lists of stitches and abbreviations left out."""
    sections = (*document.front, *document.finishing, *document.back)
    blocks = [block for section in sections if section.key not in LISTS for block in section.blocks]
    blocks += [block for piece in document.pieces for block in (piece.heading, *piece.blocks)]
    for block in blocks:
        yield from (inline.entry for inline in inlines_of(block) if isinstance(inline, Word))


def _how(stitch: SpecialStitch) -> str:
    return stitch.how.text.lower() if stitch.how else ""


CHECKS = (special_stitches,)
