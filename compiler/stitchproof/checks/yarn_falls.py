"""SP061 yarn-falls

Severity  error
Checks    an amount of yarn that is given by hand, rounded or counted from the rows, in grams, metres, yards or balls, does not
          fall from one size to the next.
Matters   a larger size of the same garment takes more yarn; one who buys by a number that falls runs out.
Mend      weigh or estimate again the size whose amount falls; where it is counted from the rows, mend the count of rows or
          stitches that is too small there, or too large in the size before.
Source    common practice, no source.

Fires in L:
    sizes: {names: [S, M, L]}
    measures:
      yarn: {by_hand: [260, 320, 290], unit: g}
      yarn_length: {is: yarn * 220 m per 100 g, round: up, multiple: 10 m}
    materials: ["DK wool: <yarn>, <yarn_length as m>"]

Fires in XL:
    sizes: {names: [S, M, L, XL]}
    counts:
      yarn_balls: {by_hand: [9, 10, 12, 11], unit: balls}

Fires in L:
    sizes: {names: [S, M, L]}
    measures:
      yarn_length: {by_hand: [520, 610, 600], unit: m}

Fires in L:
    sizes: {names: [S, M, L]}
    counts:
      band_rows: {by_hand: [40, 60, 50], unit: rows}
    yarn:
      weights: {sc: 0.02 g}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 2 until there are <band_rows> rows in all.

Quiet:
    sizes: {names: [S, M, L]}
    measures:
      yarn: {by_hand: [260, 320, 320], unit: g}
      yarn_length: {is: yarn * 220 m per 100 g, round: up, multiple: 10 m}
      rib_weight: 0.02 g per st
    counts:
      yarn_balls: {is: yarn / 50 g, round: up, unit: balls}
    materials: ["DK wool: <yarn>, <yarn_length as m>"]
"""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.checks.grade import fall, fallen, inputs_of, is_yarn
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.told_before import NAME
from stitchproof.checks.wrong_counts import follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, inlines_of, steps_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import ROWS, STITCHES
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)


def amounts(expanded: ExpandedPattern, report: Report) -> None:
    """Amounts of yarn by their unit, or by being printed in metres or yards."""
    sized = expanded.sized
    by_length = _printed_by_length(expanded)
    amounts_of_yarn = (each for each in sized.quantities if is_yarn(each) or each.name in by_length)
    judged = {each.name for each in amounts_of_yarn if _is_settled(each) and not _is_weighed(each, sized)}
    for quantity in sized.quantities:
        if quantity.name not in judged:
            continue
        for size in fallen(quantity.values):
            if not _follows(quantity, size, judged, sized):
                report.add(_report(quantity, size, expanded))


def late_amounts(complete: CompletePattern, report: Report) -> None:
    """The same of amounts that are counted from the rows."""
    amounts(complete.expanded, report)


def _is_weighed(quantity: Quantity, sized: SizedPattern) -> bool:
    """Whether it is a number of `yarn` that amounts are worked out from, such as what a stitch weighs."""
    return quantity.section == "yarn" and quantity.name not in sized.scope.late


def _is_settled(quantity: Quantity) -> bool:
    return quantity.by_hand or quantity.rounding is not None


def _printed_by_length(expanded: ExpandedPattern) -> set[str]:
    """The values that are printed in metres or yards."""
    return set(map(expanded.sized.scope.full_name, found_in(parts_of(expanded.document), _by_length)))


def _by_length(part: Part) -> Iterator[str]:
    for block in part.blocks:
        for inline in inlines_of(block):
            if isinstance(inline, Number) and inline.print_as in (PrintAs.METRES, PrintAs.YARDS):
                yield inline.written.strip()


def _follows(quantity: Quantity, size: int, judged: set[str], sized: SizedPattern) -> bool:
    """Whether it falls because another amount does, which is reported for itself."""
    if follows_from_wrong(quantity, size, sized) or follows_from_wrong(quantity, size - 1, sized):
        return True
    sources = inputs_of(quantity.inputs, sized.scope)
    return any(each.name in judged and size in fallen(each.values) for each in sources if each is not quantity)


def _report(quantity: Quantity, size: int, expanded: ExpandedPattern) -> Diagnostic:
    sized, formula = expanded.sized, quantity.formulas[size]
    counted = quantity.name in sized.scope.late
    fewer = tuple(_counts_that_fall(expanded, size)) if counted else ()
    return Diagnostic(
        PAGE,
        f"{quantity.name} falls from one size to the next",
        Excerpt(formula.span if formula and quantity.by_hand else quantity.value_span, "falls"),
        sizes=(sized.sizes[size],),
        related=tuple(Excerpt(each.value_span, f"{each.name} falls in {sized.sizes[size]}") for each in fewer),
        sums=(fall(quantity.values, size, sized.sizes, quantity.kind),),
        help=(
            _help(fewer, sized.sizes[size - 1], sized.sizes[size]) if counted else "weigh or estimate this size again",
        ),
    )


def _help(fewer: tuple[Quantity, ...], before: str, here: str) -> str:
    names = " and ".join(each.name for each in fewer)
    if names:
        return f"it is counted from the rows, and {names} {'fall' if len(fewer) > 1 else 'falls'} here too: look there first"
    return f"it is counted from the rows: look for one that has fewer rows or stitches in {here} than in {before}"


def _counts_that_fall(expanded: ExpandedPattern, size: int) -> Iterator[Quantity]:
    """The counts of stitches and rows behind the text of rows that fall in a size, without those worked out from another.

    How many times shaping is worked goes as it pleases: fewer decreases make more stitches.
    """
    sized = expanded.sized
    printed = {
        sized.scope.full_name(word)
        for piece in expanded.document.pieces
        for step in steps_of(piece.blocks)
        for token in (*step.label, *(token for part in step.parts for token in part.tokens))
        if isinstance(token, Number)
        for word in NAME.findall(token.written)
    }
    behind = inputs_of(tuple(sorted(printed)), sized.scope)
    found = {
        each.name: each for each in behind if size in fallen(each.values) and each.kind.dimension in (STITCHES, ROWS)
    }
    for name, quantity in sorted(found.items()):
        inputs = inputs_of(quantity.inputs, sized.scope)
        if not any(each.name in found for each in inputs if each.name != name):
            yield quantity


CHECKS = (amounts, late_amounts)
