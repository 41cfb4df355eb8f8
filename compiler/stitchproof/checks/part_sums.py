"""Parts that make a whole: whether they do, and the report where they do not. Counts to the stitch, lengths to the print grid."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.claim_sums import number_text, too_much, value_text
from stitchproof.checks.levers import proposals
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import Page
from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.sums import worked
from stitchproof.measures.print_grid import CM_GRID
from stitchproof.sizing.sized_claims import SizedParts, Term
from stitchproof.sizing.sized_pattern import SizedPattern


def misses(claim: SizedParts, size: int, sized: SizedPattern) -> bool:
    """Whether the parts do not make the whole in a size, and no number of them is reported for itself."""
    if any(term.at(size) is None for term in (claim.whole, *claim.parts)):
        return False
    return not _makes(claim, sized.scope, size) and not term_follows_from_wrong(
        (claim.whole, *claim.parts), size, sized
    )


def part_report(page: Page, claim: SizedParts, size: int, sized: SizedPattern) -> Diagnostic:
    """The sum, by how much it misses, and the values that mend it: of a part, or of the whole."""
    total = sum((part.at(size) or Fraction(0) for part in claim.parts), Fraction(0))
    whole = claim.whole.at(size) or Fraction(0)
    kind = claim.whole.kind
    words = " + ".join(_bracketed(part, size, sized) for part in claim.parts)
    first, last = claim.parts[0].formula.span, claim.parts[-1].formula.span
    return Diagnostic(
        page,
        f"the parts do not make `{claim.whole.formula.text}`" + (f": {claim.why.rstrip('.')}" if claim.why else ""),
        Excerpt(first.to(last), "these parts"),
        sizes=(sized.sizes[size],),
        related=(Excerpt(claim.whole.formula.span, "must make this"),),
        sums=(
            SumLine(
                sized.sizes[size],
                f"{words} = {number_text(total, kind)}, not {value_text(claim.whole, size)}",
                total,
                whole,
                too_much(total - whole, kind),
            ),
        ),
        proposals=proposals(
            [term.formula for term in (*claim.parts, claim.whole)],
            size,
            sized,
            lambda scope: _makes(claim, scope, size),
        ),
        help=("change one of the parts, or the whole",),
    )


def _makes(claim: SizedParts, scope: Scope, size: int) -> bool:
    values = [value_of(term.formula.node, scope, size) for term in (claim.whole, *claim.parts)]
    numbers = [value for value in values if isinstance(value, Fraction)]
    if len(numbers) < len(values):
        return False
    off = abs(sum(numbers[1:], Fraction(0)) - numbers[0])
    return off <= CM_GRID.of if claim.whole.is_length else off == 0


def _bracketed(part: Term, size: int, sized: SizedPattern) -> str:
    words = worked(part.formula, sized.scope, size)
    return f"({words})" if words.startswith("−") else words
