"""Two edges that meet: whether they fit, to the stitch or within what may be eased in, and the report where they do not."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.claim_sums import percent_text, side_text, too_much, value_now
from stitchproof.checks.levers import proposals
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import Page
from stitchproof.formulas.scope import Scope
from stitchproof.sizing.sized_claims import SizedEdge
from stitchproof.sizing.sized_pattern import SizedPattern

USUAL_LOW, USUAL_HIGH = Fraction(-1, 100), Fraction(5, 100)
"""How much shorter or longer a cap may be than its armhole, where nothing else is said. Common practice, no source."""


def is_misfit(claim: SizedEdge, size: int, sized: SizedPattern) -> bool:
    """Whether two edges do not fit in a size, and no number of them is reported for itself."""
    if _fits(claim, sized.scope, size):
        return False
    return not term_follows_from_wrong((claim.edge, claim.meets, claim.low, claim.high), size, sized)


def misfit(page: Page, claim: SizedEdge, size: int, sized: SizedPattern) -> Diagnostic:
    """Both edges as sums, and by how much they differ."""
    edge, meets = claim.edge.at(size) or Fraction(0), claim.meets.at(size) or Fraction(0)
    sides = [side_text(term.formula.node, sized.scope, size) for term in (claim.edge, claim.meets)]
    note = too_much(edge - meets, claim.edge.kind)
    if not _is_exact(claim) and meets:
        low, high = _bounds(claim, sized.scope, size)
        allowed = f"{percent_text(low)} to {percent_text(high)} is allowed"
        note = f"{percent_text((edge - meets) / meets)}, {allowed}"
    return Diagnostic(
        page,
        f"`{claim.edge.formula.text}` does not fit `{claim.meets.formula.text}`"
        + (f": {claim.why.rstrip('.')}" if claim.why else ""),
        Excerpt(claim.edge.formula.span, "this edge"),
        sizes=(sized.sizes[size],),
        related=(Excerpt(claim.meets.formula.span, "meets this one"),),
        sums=(SumLine(sized.sizes[size], f"{sides[0]} against {sides[1]}", edge, meets, note),),
        proposals=proposals(
            [claim.edge.formula, claim.meets.formula], size, sized, lambda scope: _fits(claim, scope, size)
        ),
        help=("change the stitches or rows of one of the two edges",),
    )


def _is_exact(claim: SizedEdge) -> bool:
    return not claim.edge.is_length and claim.low is None and claim.high is None


def _fits(claim: SizedEdge, scope: Scope, size: int) -> bool:
    edge, meets = value_now(claim.edge, scope, size), value_now(claim.meets, scope, size)
    if edge is None or meets is None:
        return True
    if _is_exact(claim) or not meets:
        return edge == meets
    low, high = _bounds(claim, scope, size)
    return low <= (edge - meets) / meets <= high


def _bounds(claim: SizedEdge, scope: Scope, size: int) -> tuple[Fraction, Fraction]:
    """A bound that is not given is the usual one of lengths; of counts it is none at all, on its side."""
    low, high = value_now(claim.low, scope, size), value_now(claim.high, scope, size)
    usual = (USUAL_LOW, USUAL_HIGH) if claim.edge.is_length else (Fraction(0), Fraction(0))
    return usual[0] if low is None else low, usual[1] if high is None else high
