"""SP215 sign-not-printed

Severity  error
Checks    every sign that is printed (a letter, a star, an arrow) is in the fonts that the pages are set in.
Matters   paper would show an empty box in its place, and a maker cannot tell what was meant.
Mend      write what the report names, or say it in words. The fonts hold Latin, Greek and Cyrillic letters, figures, fractions,
          arrows and the trade's signs: * [ ] ( ) × ½ ″ – — → ✓ ☐ •.
Source    common practice, no source.

Fires:
    ---
    Row 1: Ch 1, ☆ sc in next st, rep from ☆ across, turn.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn.

    ::: note
    A weekend's work, made with ♥ and ½ a ball.
    :::

Fires:
    designer: 山田 花子
    ---
    Row 1: Ch 1, sc in each st across, turn.

Quiet:
    designer: Zoë Ångström
    ---
    Row 1: Ch 1, sc in each st across, turn.

    ::: note
    Café colors: rose → teal. Each square is 2½″ × 3⅝″. ✓ when done.
    :::
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from stitchproof.checks.parts import Part, found_in, printed_parts
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.signs_printed import prints
from stitchproof.checks.stretches import calls_to, excerpt
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern

PAGE = read_page(__doc__)
LABEL = "an empty box in print"
_SIGN = r"[^\s\x20-\x7e\xa0-\u0180–—‘’“”…×½¼¾⅓⅔⅛⅜⅝⅞−′″→✓☐•]+"
_UNUSUAL = LatePattern(rf"{_SIGN}(?: {_SIGN})*")
INSTEAD = {
    "*": "★☆✱✳✴⁎∗＊",
    "→": "⇒➔➜➝➞➡⟶⮕",
    "←": "⇐⬅⟵",
    "✓": "✔✅",
    "×": "✕✖✗✘❌⨯",
    "•": "●○◦‣⁃∙",
    "☐": "□▢⬜",
    "~": "∼〜～",
}


def signs(expanded: ExpandedPattern, report: Report) -> None:
    """Signs without a shape in the fonts; each is told once, where it comes first."""
    told: set[str] = set()
    for line, start, end in found_in(printed_parts(expanded), _missing_in):
        sign = line.text[start:end]
        if sign not in told:
            told.add(sign)
            report.add(_report(sign, excerpt(line, start, end, LABEL), line.piece, line.row, calls_to(line, start)))
    identity = expanded.sized.source.header.identity
    for words in filter(
        None, (identity.designer, identity.contact, identity.licence, identity.revision, identity.date)
    ):
        for start, end in _missing(words.text):
            sign = words.text[start:end]
            if sign not in told:
                told.add(sign)
                at = max(words.span.text.find(sign), 0)
                report.add(_report(sign, Excerpt(words.span.part(at, at + len(sign)), LABEL)))


def _missing_in(part: Part) -> Iterator[tuple[Line, int, int]]:
    return ((line, start, end) for line in part.printed for start, end in _missing(line.text))


def _missing(text: str) -> Iterator[tuple[int, int]]:
    """Stretches of signs that are not printed, words of them as one."""
    for match in _UNUSUAL.finditer(text):
        begin = end = -1
        for at in range(*match.span()):
            if not prints(text, at):
                begin, end = (at if begin < 0 else begin), at + 1
            elif text[at] != " " and begin >= 0:
                yield begin, end
                begin = -1
        if begin >= 0:
            yield begin, end


def _report(sign: str, where: Excerpt, piece: str = "", row: str = "", related: tuple[Excerpt, ...] = ()) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"`{sign}` is in none of the fonts that the pages are set in",
        where,
        piece=piece,
        row=row,
        related=related,
        help=(_instead(sign),),
    )


def _instead(sign: str) -> str:
    """What to write: the nearest sign that is printed, letters that mean the same, or words."""
    near = "".join(next((new for new, old in INSTEAD.items() if each in old), "?") for each in sign)
    plain = unicodedata.normalize("NFKC", sign).replace("\N{FRACTION SLASH}", "/")
    for new in (near, plain):
        if "?" not in new and all(prints(new, at) for at in range(len(new))):
            return f"write `{new}`"
    if any(each.isalpha() for each in sign):
        return "write it in Latin, Greek or Cyrillic letters"
    return "leave it out, or say it in words"


CHECKS = (signs,)
