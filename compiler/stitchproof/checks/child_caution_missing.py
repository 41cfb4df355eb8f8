"""SP073 child-caution-missing

Severity  warning
Checks    an item for babies or children prints the shipped cautions that belong to what it is (a hat or blanket for a baby,
          a toy) and to what is in it (buttons, pompoms, ties, cords, large loops). For whom it is, `audience` and the names
          of the sizes say, or else the title; what it is, the title, the summary's first sentence and the names of the
          pieces. A `::: caution` of the pattern's own that speaks of the same thing is enough.
Matters   cords strangle, small parts choke, and soft things do not belong in a baby's bed; whoever makes the item must know.
Mend      add the rule to `cautions`, with the sizes it concerns.
Source    the safety rules behind each shipped caution; see `standards/safety.yaml`. The words looked for: common practice.

Fires:
    title: Larch Bonnet
    audience: [baby]
    cautions: [infant_sleep]
    ---
    Row 1: Sc in each st across, turn. Sew a chin tie to each corner.

Fires:
    title: Rowan Cardigan
    sizes: {names: [6 months, Child 4, Child 8]}
    materials: [5 buttons]
    ---
    Row 1: Sc in each st across, turn.

Fires:
    title: Baby Blanket
    ---
    Row 1: Sc in each st across, turn.

Quiet:
    title: Rowan Cardigan
    audience: [child, adult]
    materials: [5 buttons]
    ---
    Row 1: Sc in each st across, turn. Tie the ends together, and work over the tie.

Quiet:
    title: Larch Bonnet
    audience: [baby]
    cautions: [infant_sleep]
    ---
    ::: caution
    Leave the chin tie out for a baby.
    :::

    Row 1: Sc in each st across, turn. Sew a chin tie to each corner.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.child_ages import wearers_of
from stitchproof.checks.mentions import part_of
from stitchproof.checks.pattern_lines import Kind, Line, lines_of
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Caution, Passage, Text, Times, blocks_of, inlines_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.source import Span

PAGE = read_page(__doc__)


def cautions(expanded: ExpandedPattern, report: Report) -> None:
    """Shipped cautions for children that are due and not printed."""
    header = expanded.sized.source.header
    wearers = dict(wearers_of(header))
    if not wearers:
        return
    from stitchproof.checks.child_items import DANGERS  # only patterns for children need them

    printed = {entry.rule.text.strip() for entry in header.cautions}
    own = " ".join(_own_cautions(tuple(blocks_of(expanded.document))))
    for danger in DANGERS:
        age = next((each for each in danger.ages if each in wearers), "")
        item = _item(expanded, danger.item) if age and danger.rule not in printed else None
        if item is None:
            continue
        sign = _sign(expanded, danger.rule, danger.sign) if danger.sign else item
        if sign is not None and not _spoken_of(sign.text, own):
            what = f"{danger.what} on an item" if danger.what else f'"{_plain(sign.text)}"'
            report.add(_report(f"{what} for a {age}", danger.rule, sign, wearers[age]))


def _item(expanded: ExpandedPattern, pattern: LatePattern) -> Span | None:
    """Where the pattern says that it is such an item."""
    identity = expanded.sized.source.header.identity
    if match := pattern.search(identity.title.text):
        return part_of(identity.title.span, match)
    summary = identity.summary
    if summary and (match := pattern.search(re.split(r"[.;!?]", summary.text, maxsplit=1)[0])):
        return part_of(summary.span, match)
    for piece in expanded.document.pieces:
        for inline in inlines_of(piece.heading):
            if isinstance(inline, Text) and (match := pattern.search(inline.text)):
                return part_of(inline.place.span, match)
    return None


def _sign(expanded: ExpandedPattern, rule: str, pattern: LatePattern) -> Span | None:
    """Where the text or the materials first show what makes it risky."""
    from stitchproof.checks.child_items import TIE_HEADING

    for line in lines_of(expanded.document):
        about_ties = rule == "bonnet_and_mitten_ties" and line.kind is Kind.HEADING
        match = pattern.search(line.text) or (TIE_HEADING.search(line.text) if about_ties else None)
        if match and not _left_out(line, match):
            return line.place(match.start(), match.end()).span
    return None


def _left_out(line: Line, match: re.Match[str]) -> bool:
    """Whether the line says that there is none, or warns of it: "leave off the buttons", "without a tie"."""
    before = line.text[max(0, match.start() - 30) : match.start()]
    return (
        re.search(r"\b(?:no|without|never|instead of|do not|don't|leave)\b[^.;]*$", before, re.IGNORECASE) is not None
    )


def _own_cautions(blocks: tuple[Block, ...]) -> Iterator[str]:
    for block in blocks:
        if isinstance(block, Caution):
            yield from (inline.text for inline in inlines_of(block) if isinstance(inline, Text))
        elif isinstance(block, Passage | Times):
            yield from _own_cautions(block.blocks)


def _spoken_of(sign: str, cautions: str) -> bool:
    return _plain(sign).rstrip("s") in _plain(cautions)


def _plain(text: str) -> str:
    return " ".join(text.lower().split())


def _report(what: str, rule: str, sign: Span, wearer: Span) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"{what}, without the caution `{rule}`",
        Excerpt(sign, "calls for a caution"),
        related=(Excerpt(wearer, "made for"),),
        help=(f"add `{rule}` to `cautions`, with the sizes it concerns, or accept this with a reason",),
    )


CHECKS = (cautions,)
