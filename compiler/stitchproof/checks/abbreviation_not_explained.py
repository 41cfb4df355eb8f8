"""SP063 abbreviation-not-explained

Severity  error
Checks    every abbreviation of a stitch that a step uses is one that stitchproof knows, or is explained under
          `special_stitches`. Only short words that are shaped like an abbreviation are judged, never ordinary words.
Matters   the list of abbreviations cannot explain it, and the maker has to stop and ask.
Mend      correct the spelling, or define the stitch under `special_stitches`.
Source    common practice, no source.

Fires:
    ---
    Row 1: Fpdcc around next st, sc in each st to end, turn.

Fires:
    ---
    Row 1: Sc3tog, sc in each st to end, turn.

Fires:
    ---
    Row 1: V-st in next ch-1 sp, sc in each st to end, turn.

Fires:
    ---
    Row 1: Sc in each st to end, hcd in last st, turn.

Fires:
    special_stitches:
      puff: {name: puff stitch, how: Work 3 hdcc into one place and close them together.}
    ---
    Row 1: Puff in next st, sc in each st to end, turn.

Quiet:
    special_stitches:
      fsc: foundation single crochet
      V-st: two dc in one place
    ---
    Row 1: Fsc in next st, V-st in next ch-1 sp, sc in each st to end, turn.
    Turn the disc over; 2 lbs of yarn or 20 yds will do.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache

from stitchproof.checks.mentions import Mention, mention, mention_in_words, one_report, only_places, unread_words
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.checks.stitch_shapes import BY_OTHER_SPELLING, WORD, has_stitch_shape, is_of_other_terms
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.stitches.lexicon import Lexicon

PAGE = read_page(__doc__)


def abbreviations(written: WrittenPattern, report: Report) -> None:
    """Abbreviations that the printed list cannot hold, each once."""
    terms, lexicon = written.expanded.sized.source.header.identity.terms, written.lexicon
    known = lexicon.spellings
    used = set(found_in(parts_of(written.document), _entries))

    @cache
    def unexplained(word: str) -> bool:
        usual = lexicon.entry_of(BY_OTHER_SPELLING[terms].get(word.lower(), ""))
        if usual:  # beside the usual spelling it is a variant of a word that is listed
            return usual.key not in used
        return has_stitch_shape(word, known) and not is_of_other_terms(word, terms)

    found: dict[str, list[Mention]] = {}
    for each in _mentions(written, lexicon, unexplained):
        found.setdefault(each.word.lower(), []).append(each)
    for word, mentions in found.items():
        places = only_places(mentions)
        headline = f'{places[0].where} uses an abbreviation that nothing explains: "{places[0].word}"'
        report.add(one_report(PAGE, headline, places, "not in the lexicon", _help(word, terms, lexicon)))


def _mentions(written: WrittenPattern, lexicon: Lexicon, unexplained: Callable[[str], bool]) -> Iterator[Mention]:
    """In the steps, and in how the special stitches are worked."""
    for special in written.expanded.sized.source.header.special_stitches:
        for match in WORD.finditer(special.how.text if special.how else ""):
            if special.how and not lexicon.pattern.search(match[0]) and unexplained(match[0]):
                yield mention_in_words(special.how, match, f"the special stitch {special.abbreviation}")
    for part in parts_of(written.document):
        if any(map(unexplained, part.found(_unread))):
            for line, match in _unread_in_steps(part):
                if unexplained(match[0]):
                    yield mention(line, match.start(), match.end())


def _entries(part: Part) -> Iterable[str]:
    """The keys of the words that are found in a part."""
    return {word.entry for line in part.lines for _, word in line.words()}


def _unread(part: Part) -> Iterable[str]:
    """The words in the steps of a part that are none of the trade's, each once."""
    return {match[0] for _, match in _unread_in_steps(part)}


def _unread_in_steps(part: Part) -> Iterator[tuple[Line, re.Match[str]]]:
    return ((line, match) for line, match in part.found(unread_words) if line.kind is Kind.STEP)


def _help(word: str, terms: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The nearest known word with its meaning, and what the published list says of the word itself."""
    from stitchproof.standards.abbreviations import abbreviations as published  # only a report needs them

    spellings = [entry.abbreviation for entry in lexicon.entries.values() if len(entry.abbreviation) > 1]
    near = BY_OTHER_SPELLING[terms].get(word) or nearest(word, (each.lower() for each in spellings))
    entry = lexicon.entry_of(near)
    meaning = next((each.meaning for each in published() if each.written.lower() == word and terms == "US"), "")
    together = re.fullmatch(r"([a-z]+)(\d)tog", word)
    pair = lexicon.entry_of(f"{together[1]}2tog") if together else None
    if together and pair:
        meaning = pair.meaning.replace("2", together[2])
    define = f"define it under special_stitches{f', as `{word}: {meaning}`' if meaning else ''}"
    if entry is None or meaning or "-st" in word:
        return (define,)
    return (f'write "{entry.abbreviation}" ({entry.meaning}) if that is meant, or {define}',)


CHECKS = (abbreviations,)
