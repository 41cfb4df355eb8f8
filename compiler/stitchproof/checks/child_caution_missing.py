"""SP073 child-caution-missing

Severity  warning
Checks    an item for babies or children prints the shipped cautions that belong to what it is (a hat or blanket for a baby,
          a toy) and to what is in it (buttons, pompoms, ties, cords, large loops). For whom it is, `audience` and the names
          of the sizes say, or else the title; a caution kept to some sizes has to reach every size named for that wearer. What it
          is, the title, the summary's first sentence and the names of the
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

Fires:
    title: Larch Bonnet
    audience: [baby]
    cautions: [infant_sleep, holes_and_loops]
    ---
    ::: caution
    Take care that nothing is loose.
    :::

    Row 1: Sc in each st across, turn. Sew a chin tie to each corner.

Fires in Baby:
    title: Larch Hat
    sizes: {names: [Baby, Toddler]}
    cautions:
      - rules: [infant_sleep]
        sizes: [Toddler]
    ---
    Row 1: Sc in each st across, turn.

Fires:
    title: Rowan Cardigan
    audience: [child]
    ---
    ## Back {piece}

    Row 1: Sc in each st across, turn.

    ## Finishing

    Make a cord of 60 cm and thread it through the neck edge.

Fires:
    title: Rowan Cardigan
    audience: [child]
    ---
    ## Back {piece}

    Row 1: Sc in each st across, turn.

    ## Finishing

    Make a twisted cord 60.5 cm long. Thread it through the neckline.

Fires:
    title: Rowan Cardigan
    audience: [child]
    sizes: {names: ["2", "4", "6"]}
    materials: [5 buttons]
    ---
    Row 1: Sc in each st across, turn.

Fires in 2, 3:
    title: Rowan Cardigan
    audience: [child]
    sizes: {names: ["2", "3", "4"]}
    materials: [5 buttons]
    cautions:
      - rules: [small_parts]
        sizes: ["4"]
    ---
    Row 1: Sc in each st across, turn.

Quiet:
    title: Rowan Cardigan
    audience: [child]
    sizes: {names: ["4", "6"]}
    materials: [5 buttons]
    ---
    ## Back {piece}

    Row 1: Sc in each st across, turn.

    ## Finishing

    Work an i-cord edging around the neck. Make a cord of 60 cm. Sew it to the bag.

Quiet:
    title: Rowan Cardigan
    audience: [child]
    ---
    ::: caution
    Leave the cord out for a child under 7 years.
    :::

    Row 1: Sc in each st across, turn. Make a cord of 60 cm and thread it through the neckband.

Quiet:
    title: Larch Hat
    sizes: {names: [Baby, Toddler], called_by: number}
    cautions:
      - rules: [infant_sleep]
        sizes: [1]
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

from stitchproof.checks.child_ages import is_size_for, wearers_of
from stitchproof.checks.mentions import part_of
from stitchproof.checks.parts import lines_of
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Caution, Passage, Text, Times, blocks_of, inlines_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.source import SourceFile, Span

PAGE = read_page(__doc__)


def cautions(expanded: ExpandedPattern, report: Report) -> None:
    """Shipped cautions for children that are due and not printed."""
    header = expanded.sized.source.header
    wearers = dict(wearers_of(header))
    if not wearers:
        return
    from stitchproof.checks.child_items import DANGERS  # only patterns for children need them

    own = " ".join(_own_cautions(tuple(blocks_of(expanded.document)), expanded.sized.source.header_file))
    for danger in DANGERS:
        age = next((each for each in danger.ages if each in wearers), "")
        missing = _without(danger.rule, age, expanded) if age else ()
        item = _item(expanded, danger.item) if missing is None or missing else None
        if item is None:
            continue
        sign = _sign(expanded, danger.rule, danger.sign) if danger.sign else item
        if sign is not None and not _spoken_of(sign.text, own):
            what = f"{danger.what} on an item" if danger.what else f'"{_plain(sign.text)}"'
            report.add(_report(f"{what} for a {age}", danger.rule, sign, wearers[age], missing or ()))


def _without(rule: str, age: str, expanded: ExpandedPattern) -> tuple[str, ...] | None:
    """The sizes named for a wearer that a shipped caution does not reach; None where it is not printed at all."""
    places = {each.span for each in expanded.sized.source.header.cautions if each.rule.text.strip() == rule}
    if not places:
        return None
    reached = {
        size
        for block in blocks_of(expanded.document)
        if isinstance(block, Caution)
        and any(isinstance(inline, Text) and inline.place.span in places for inline in inlines_of(block))
        for size in block.served
    }
    header = expanded.sized.source.header
    names = enumerate(expanded.sized.sizes)
    return tuple(name for size, name in names if size not in reached and is_size_for(age, name, header))


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


def _own_cautions(blocks: tuple[Block, ...], header_file: SourceFile) -> Iterator[str]:
    """The words of the cautions that the texts hold; a shipped one speaks for itself alone, and stands in pattern.yaml."""
    for block in blocks:
        if isinstance(block, Caution):
            texts = [inline for inline in inlines_of(block) if isinstance(inline, Text)]
            yield from (text.text for text in texts if text.place.span.file is not header_file)
        elif isinstance(block, Passage | Times):
            yield from _own_cautions(block.blocks, header_file)


def _spoken_of(sign: str, cautions: str) -> bool:
    return re.search(rf"\b{re.escape(_plain(sign).rstrip('s'))}(?:s|es)?\b", _plain(cautions)) is not None


def _plain(text: str) -> str:
    return " ".join(text.lower().split())


def _report(what: str, rule: str, sign: Span, wearer: Span, sizes: tuple[str, ...]) -> Diagnostic:
    """sizes: those that a caution kept to some sizes leaves out."""
    return Diagnostic(
        PAGE,
        f"{what}, without the caution `{rule}`",
        Excerpt(sign, "calls for a caution"),
        sizes=sizes,
        related=(Excerpt(wearer, "made for"),),
        help=(f"add `{rule}` to `cautions`, with the sizes it concerns, or accept this with a reason",),
    )


CHECKS = (cautions,)
