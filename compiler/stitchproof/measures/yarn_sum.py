"""The yarn of one size from its stitches: what they weigh, scaled to a sample that was weighed, with a margin, rounded up."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.rounding import Direction, Multiple, round_to

LOWEST_SCALE, HIGHEST_SCALE = Fraction(9, 10), Fraction(115, 100)
"""A sample that weighs less or more than this beside what its stitches come to: a weight or a count is wrong.

Source: common practice, no source.
"""


class StitchesWeighed(Struct, frozen=True):
    """So many of a stitch, and what one of them weighs, in g. words: the stitch, and the gauge where the weight is of one."""

    words: str
    number: Fraction
    grams: Fraction


class BuyingRule(Struct, frozen=True):
    """How yarn is told: margin as a part of 1, grams up to `step`, cm of yarn per g up to `length_step` cm, grams in a ball.

    What the designer does not give is None, and so is the amount that would follow from it.
    """

    margin: Fraction = Fraction(0)
    step: Fraction = Fraction(1)
    cm_per_gram: Fraction | None = None
    length_step: Fraction = Fraction(1000)
    ball: Fraction | None = None


class YarnSum(Struct, frozen=True):
    """The yarn of a size, exact. counted: by the swatches; predicted: scaled to the sample; with_margin: before rounding.

    grams is what is printed; cm_of_yarn and balls follow from it.
    """

    counted: Fraction
    scale: Fraction
    predicted: Fraction
    with_margin: Fraction
    grams: Fraction
    cm_of_yarn: Fraction | None
    balls: Fraction | None


def weight_of(stitches: Iterable[StitchesWeighed]) -> Fraction:
    """What some stitches weigh by their swatches, in g."""
    return sum((each.number * each.grams for each in stitches), Fraction(0))


def yarn_sum(counted: Fraction, scale: Fraction, rule: BuyingRule) -> YarnSum:
    """From the weight that was counted to what the maker buys. Each rounding is upward, and each amount from the one printed."""
    predicted = counted * scale
    with_margin = predicted * (1 + rule.margin)
    grams = round_to(with_margin, Direction.UP, Multiple(rule.step))
    length = balls = None
    if rule.cm_per_gram is not None:
        length = round_to(grams * rule.cm_per_gram, Direction.UP, Multiple(rule.length_step))
    if rule.ball is not None:
        balls = round_to(grams / rule.ball, Direction.UP, Multiple())
    return YarnSum(counted, scale, predicted, with_margin, grams, length, balls)
