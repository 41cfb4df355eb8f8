"""SP065 spelling-varies

Severity  warning
Checks    one word of the trade is written in one way throughout: `sl st` or `ss`, `sk` or `skip`, `ch-sp` or `ch sp`, Rnd or
          Round in the labels of rows, and every abbreviation that has several spellings.
Matters   the maker wonders whether two things are meant, and the list of abbreviations explains only one of them.
Mend      write it in one way.
Source    common practice, no source.

Fires:
    ---
    Row 1: Sl st in first st, sc in each st across, turn.
    Row 2: Ss in first st, sc in each st across, turn.

Fires:
    ---
    Row 1: Sk first st, sc in each st across, turn.
    Row 2: Skip first st, sc in each st across, turn.

Fires:
    ---
    Row 1: Sc in each st to last st, BLO sc in last st, turn.
    Row 2: Sc in each st to last st, BL sc in last st, turn.

Fires:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    ---
    Rnd 1: Sc in each st around. — 20 sc
    Round 2: Sc in each st around. — 20 sc

Quiet:
    ---
    Row 1: Sk first st, sl st in next st, sc in each st across, turn. Take care not to leave gaps between rounds of tape.
    Row 2: Sl sts may be tight. Sk 1 st, sc in each st across, turn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.mentions import Mention, mention, only_places
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.stitches.lexicon import Entry, Lexicon

PAGE = read_page(__doc__)
_SLIP_STITCH = LatePattern(r"(?<![\w-])(?:ss|slst|sl[ -]st)(?=s?(?![\w-]))", re.IGNORECASE)
_CHAIN_SPACE = LatePattern(r"(?<![\w-])ch[ -]sp(?=s?(?![\w-]))", re.IGNORECASE)
_SKIP = {
    "US": LatePattern(r"\b(?:sk|skip)\b", re.IGNORECASE),
    "UK": LatePattern(r"\b(?:miss|sk|skip)\b", re.IGNORECASE),
}
_ROUND = LatePattern(r"\b(?:rnd|round)(?=s?\b)", re.IGNORECASE)
_BY_TEXT = ("slst", "chsp", "sk", "rnd")
"""Words whose spellings are looked for in the text itself, because some of them are not in the lexicon."""
Stretch = tuple[Line, int, int]
"""A line, and where a word starts and ends in it."""


def spellings(written: WrittenPattern, report: Report) -> None:
    """Words that are written in more than one way, each once."""
    terms = written.expanded.sized.source.header.identity.terms
    found: dict[str, dict[str, list[Stretch]]] = {}
    for key, form, stretch in found_in(parts_of(written.document), _spelled, written.lexicon, terms):
        # What pattern.yaml gives is spelt by the program, as names of sizes are.
        if stretch[0].tokens[0][1].place.span.file is not written.expanded.sized.source.header_file:
            found.setdefault(key, {}).setdefault(form, []).append(stretch)
    for forms in found.values():
        if len(forms) > 1:
            report.add(
                _report({form: only_places(mention(*each) for each in places) for form, places in forms.items()})
            )


def _spelled(part: Part, lexicon: Lexicon, terms: str) -> Iterator[tuple[str, str, Stretch]]:
    """The words of a part: the key of each, its spelling, and where it stands."""
    for line in part.lines:
        if line.kind is Kind.HEADING:
            continue
        for at, word in line.words():
            entry = lexicon.entries.get(word.entry)
            if entry and entry.key not in _BY_TEXT:
                yield entry.key, _spelling(word.as_written, entry), (line, at, at + len(word.as_written))
        for key, match in _in_text(line, terms):
            yield key, match[0].lower(), (line, match.start(), match.end())


def _in_text(line: Line, terms: str) -> Iterator[tuple[str, re.Match[str]]]:
    for key, pattern in (("slst", _SLIP_STITCH), ("chsp", _CHAIN_SPACE)):
        yield from ((key, match) for match in pattern.finditer(line.text))
    if line.kind is Kind.STEP:  # in prose, skip and round are ordinary words
        yield from (("sk", match) for match in _SKIP[terms].finditer(line.text))
        yield from (("rnd", match) for match in _ROUND.finditer(line.text, 0, line.label_end))


def _spelling(written: str, entry: Entry) -> str:
    """A spelling without what the beginning of a sentence, capitals for stress and the plural do to it."""
    text = " ".join(written.split())
    if not entry.exact and (text[1:] == text[1:].lower() or (text.isupper() and entry.abbreviation.islower())):
        text = text.lower()
    return text[:-1] if entry.plural and text.lower() == entry.plural.lower() else text


def _report(forms: dict[str, list[Mention]]) -> Diagnostic:
    """The places of the rarer spellings, and the first of the usual one."""
    usual = max(forms, key=lambda form: len(forms[form]))
    rarer = [(form, each) for form, mentions in forms.items() if form != usual for each in mentions]
    (form, first), *others = rarer
    quoted = [f'"{each}"' for each in forms]
    ways = f"{', '.join(quoted[:-1])} and {quoted[-1]}"
    number = "two" if len(forms) == 2 else str(len(forms))
    related = [Excerpt(forms[usual][0].place.span, f'"{usual}" in {forms[usual][0].where}')]
    related += [Excerpt(each.place.span, f'"{word}" in {each.where}') for word, each in others[:4]]
    return Diagnostic(
        PAGE,
        f"one word is written in {number} ways: {ways}",
        Excerpt(first.place.span, f'"{form}" here'),
        piece=first.piece,
        row=first.row,
        related=(*related, *used_from(first.place)),
        help=(f'write "{usual}" everywhere',),
    )


CHECKS = (spellings,)
