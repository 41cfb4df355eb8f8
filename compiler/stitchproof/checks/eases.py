"""The ease of a finished measurement over the body's: the one that is stated, and the least that can be worn."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.claim_sums import at_least, at_most, number_text, value_now, value_text
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.formulas.scope import Scope
from stitchproof.sizing.sized_claims import SizedEase
from stitchproof.sizing.sized_pattern import SizedPattern


def is_as_stated(claim: SizedEase, scope: Scope, size: int) -> bool:
    """Whether the ease lies between the two that are stated, exactly or as it prints."""
    ease = _ease(claim, scope, size)
    return ease is None or (
        at_least(ease, value_now(claim.low, scope, size)) and at_most(ease, value_now(claim.high, scope, size))
    )


def is_enough(claim: SizedEase, scope: Scope, size: int) -> bool:
    """Whether the ease reaches the least that can be worn, exactly or as it prints."""
    ease = _ease(claim, scope, size)
    return ease is None or at_least(ease, value_now(claim.at_least, scope, size))


def is_caused_elsewhere(claim: SizedEase, size: int, sized: SizedPattern) -> bool:
    """Whether a number of it is reported for itself."""
    return term_follows_from_wrong((claim.finished, claim.over, claim.low, claim.high, claim.at_least), size, sized)


def ease_text(claim: SizedEase, size: int, sized: SizedPattern) -> str:
    """The ease as a sum: "92.9 cm − 80 cm = 12.9 cm"."""
    ease = _ease(claim, sized.scope, size)
    result = "" if ease is None else f" = {number_text(ease, claim.finished.kind)}"
    return f"{value_text(claim.finished, size)} − {value_text(claim.over, size)}{result}"


def _ease(claim: SizedEase, scope: Scope, size: int) -> Fraction | None:
    finished, over = value_now(claim.finished, scope, size), value_now(claim.over, scope, size)
    return None if finished is None or over is None else finished - over
