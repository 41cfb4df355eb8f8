"""SP066 terms-mixed

Severity  error
Checks    a pattern set in US terms holds no word that only UK terms have, and the other way round. `dc`, `tr` and `dtr` alone
          prove nothing; `miss` counts only as an instruction, `tension` only as a heading; `skip` and `gauge` are in use in
          UK patterns as well. A line that names both US and UK is taken as an explanation.
Matters   dc and tr are different stitches in the two: the maker cannot know which one is meant, and the size comes out wrong.
Mend      write the word of the pattern's own terms, or set `terms` to the other.
Source    Craft Yarn Council, term differences between the U.S., U.K. and Canada.

Fires:
    ---
    Row 1: Sc in next st, htr in each st to end, turn.

Fires:
    ---
    Row 1: Sc in next st, miss next st, sc in each st to end, turn.

Fires:
    terms: UK
    gauges:
      fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: dc, worked: rows, hook: 4 mm, state: blocked}
    ---
    Row 1: Dc in next st, hdc in each st to end, turn.

Fires:
    ---
    ## Tension

    Work a square before you begin.

    ## Piece {piece}

    Row 1: Sc in each st across, turn.

Quiet:
    ---
    ## Notes

    US terms: a UK maker reads sc as dc, and hdc as htr. Keep an even tension.

    ## Piece {piece}

    Row 1: Dc in next st, tr in each st to end; do not miss the last st, turn.

Quiet:
    terms: UK
    gauges:
      fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: dc, worked: rows, hook: 4 mm, state: blocked}
    ---
    Row 1: Dc in next st, miss next st, htr in each st to end, turn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from stitchproof.checks.mentions import Mention, mention, one_report, only_places, unread_words
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind
from stitchproof.checks.stitch_shapes import in_these_terms, is_of_other_terms
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.source import Place

PAGE = read_page(__doc__)
_BOTH = LatePattern(r"(?<!\w)(?:U\.?S|U\.?K|American|British)\b", needs=("U", "American", "British"))
_MISS = LatePattern(
    r"(?<!not )(?<!n't )(?<!n’t )(?<!never )(?<!to )(?<!you )\bmiss(?=\s+(?:the\s+)?"
    r"(?:next|first|last|foll|following|same|\d+|one|two|three|ch|st|sts)\b)",
    re.IGNORECASE,
    ("miss",),
)
_TENSION = LatePattern(
    r"^#{1,6}\s+(?P<word>tension)(?:\s+(?:square|swatch))?\s*$", re.IGNORECASE | re.MULTILINE, ("tension",)
)
_SPREADING = "is spreading"
"""How the published caveat begins of a word that both terms use by now."""


def terms(written: WrittenPattern, report: Report) -> None:
    """Words that only the other terms have, each once."""
    ours = written.expanded.sized.source.header.identity.terms
    other = "US" if ours == "UK" else "UK"
    found: dict[str, list[Mention]] = {}
    for each in _mentions(written, ours, other):
        found.setdefault(" ".join(each.word.lower().split()), []).append(each)
    for word, mentions in found.items():
        places = only_places(mentions)
        headline = f'{places[0].where} uses the {other} term "{word}" in a pattern set in {ours} terms'
        mend = (f'write "{_our_word(word, ours, other)}", or set `terms: {other}` if the whole pattern is meant so',)
        report.add(one_report(PAGE, headline, places, f"{other} only", mend))


def _mentions(written: WrittenPattern, ours: str, other: str) -> Iterator[Mention]:
    yield from found_in(parts_of(written.document), _in_part, ours, other)
    for text in written.expanded.sized.source.texts if other == "UK" else ():
        for match in _TENSION.finditer(text.file.text):
            span = text.file.whole.part(match.start("word"), match.end("word"))
            yield Mention(match["word"], Place(span), "", "", "a heading")


def _in_part(part: Part, ours: str, other: str) -> Iterator[Mention]:
    phrases = _phrases(other)
    for line in part.lines:
        if _BOTH.search(line.text):
            continue
        for match in phrases.finditer(line.text):
            yield mention(line, match.start(), match.end())
        for match in _MISS.finditer(line.text) if other == "UK" and line.kind is Kind.STEP else ():
            yield mention(line, match.start(), match.end())
    for line, match in part.found(unread_words):
        if is_of_other_terms(match[0], ours) and not _BOTH.search(line.text):
            yield mention(line, match.start(), match.end())


@cache
def _phrases(other: str) -> LatePattern:
    """The certain signs that are not found by the shape of a stitch's abbreviation, and are no ordinary words."""
    from stitchproof.standards.terms import certain_signs

    words = [sign.word for sign in certain_signs(other) if not sign.caveat.startswith(_SPREADING)]
    kept = [word for word in words if word not in ("miss", "tension") and not is_of_other_terms(word, _not(other))]
    return LatePattern(
        rf"(?<![\w-])(?:{'|'.join(map(re.escape, kept))})(?![\w-])".replace(r"\ ", r"\s+"),
        re.IGNORECASE,
        tuple(word.lower().split()[-1] for word in kept),
    )


def _our_word(word: str, ours: str, other: str) -> str:
    """The same thing in the pattern's own terms."""
    from stitchproof.standards.terms import stitch_pairs, word_pairs

    for pair in (*stitch_pairs(), *word_pairs()):
        if pair.key != "htr_us" and word in pair.in_terms(other).spellings:
            term = pair.in_terms(ours)
            return term.name if word == pair.in_terms(other).name else term.abbreviation or term.name
    return "half double crochet" if word == "half treble" else in_these_terms(word, ours)


def _not(one: str) -> str:
    return "US" if one == "UK" else "UK"


CHECKS = (terms,)
