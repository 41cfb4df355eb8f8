"""Openings that a part of the body passes through: every line of one, how far it stretches, and what it must reach."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.claim_sums import number_text, side_text, value_now, value_text
from stitchproof.checks.levers import proposals
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import Page
from stitchproof.expressions import expression
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.tree import names_in
from stitchproof.measures.values import rounded_text
from stitchproof.sizing.sized_claims import SizedOpening
from stitchproof.sizing.sized_pattern import SizedPattern

SPARE_AT_THE_HEAD = Fraction(1)
"""Centimetres more than the head, where nothing else is said. Common practice, no source."""
_PARTS_OF_NAME = expression(r"[._]")


def is_for_the_head(claim: SizedOpening) -> bool:
    """Whether it is a head that passes: one of the names says so."""
    names = (node.name for node in names_in(claim.over.formula.node))
    return any("head" in _PARTS_OF_NAME.split(name.lower()) for name in names)


def tight_openings(claims: Iterator[SizedOpening], page: Page, sized: SizedPattern) -> Iterator[Diagnostic]:
    """One report for each opening, line by line the tightest first: they have to pass over the same part of the body."""
    groups: dict[str, list[SizedOpening]] = {}
    for claim in claims:
        groups.setdefault(claim.over.formula.text, []).append(claim)
    for group in groups.values():
        for size in range(len(sized.sizes)):
            tight = [
                claim for claim in group if _is_tight(claim, sized.scope, size) and not _is_caused(claim, size, sized)
            ]
            if tight:
                tight.sort(key=lambda claim: _room(claim, sized.scope, size) or Fraction(0))
                yield _report(tight, len(group), page, size, sized)


def _room(claim: SizedOpening, scope: Scope, size: int) -> Fraction | None:
    """How much longer the line gets than it must, by the values of a scope: below 0 where it is too tight."""
    line, stretch, over = (value_now(term, scope, size) for term in (claim.line, claim.stretch, claim.over))
    spare = _spare(claim, scope, size)
    if line is None or stretch is None or over is None or spare is None:
        return None
    return line * stretch - over - spare


def _spare(claim: SizedOpening, scope: Scope, size: int) -> Fraction | None:
    if claim.spare:
        return value_now(claim.spare, scope, size)
    return SPARE_AT_THE_HEAD if is_for_the_head(claim) else Fraction(0)


def _is_tight(claim: SizedOpening, scope: Scope, size: int) -> bool:
    room = _room(claim, scope, size)
    return room is not None and room < 0


def _is_caused(claim: SizedOpening, size: int, sized: SizedPattern) -> bool:
    return term_follows_from_wrong((claim.line, claim.stretch, claim.over, claim.spare), size, sized)


def _report(tight: list[SizedOpening], lines: int, page: Page, size: int, sized: SizedPattern) -> Diagnostic:
    first, others = tight[0], tight[1:]
    over = first.over.formula.text
    assumed = {claim.line.formula.text: claim for claim in tight if claim.assumed}
    return Diagnostic(
        page,
        f"`{first.line.formula.text}` does not stretch over `{over}`",
        Excerpt(first.line.formula.span, "the tightest line" if lines > 1 else "too tight"),
        sizes=(sized.sizes[size],),
        related=tuple(Excerpt(claim.line.formula.span, "too tight as well") for claim in others),
        sums=tuple(_sum(claim, lines > 1, claim is first, size, sized) for claim in tight),
        proposals=proposals(
            [first.line.formula], size, sized, lambda scope: not any(_is_tight(claim, scope, size) for claim in tight)
        ),
        help=(
            *(_measure_it(name, claim, size) for name, claim in assumed.items()),
            "make the line longer, or work it so that it stretches further",
        ),
    )


def _measure_it(name: str, claim: SizedOpening, size: int) -> str:
    stretch = claim.stretch.at(size) or Fraction(1)
    return (
        f"`{name}` is taken to stretch {rounded_text(stretch)} times, as {claim.assumed} usually does; "
        "measure it on the swatch and write `stretch:`"
    )


def _sum(claim: SizedOpening, is_one_of_several: bool, is_tightest: bool, size: int, sized: SizedPattern) -> SumLine:
    reason = f" ({claim.why.rstrip('.')})" if claim.why and is_one_of_several else ""
    room = _room(claim, sized.scope, size) or Fraction(0)
    line, stretch, over = (term.at(size) or Fraction(0) for term in (claim.line, claim.stretch, claim.over))
    spare = _spare(claim, sized.scope, size) or Fraction(0)
    needed = side_text(claim.over.formula.node, sized.scope, size)
    if spare:
        needed = f"{value_text(claim.over, size)} + {number_text(spare, claim.over.kind)}"
        needed += f" = {number_text(over + spare, claim.over.kind)}"
    usual = f" (usual for {claim.assumed})" if claim.assumed else ""
    reached = f"{value_text(claim.line, size)} × {rounded_text(stretch)}{usual} = "
    reached += number_text(line * stretch, claim.line.kind)
    short = f"{number_text(-room, claim.line.kind)} short"
    return SumLine(
        sized.sizes[size],
        f"{claim.line.formula.text}{reason}: {reached}; {needed} needed",
        line * stretch,
        over + spare,
        f"{short}, the tightest line" if is_one_of_several and is_tightest else short,
    )
