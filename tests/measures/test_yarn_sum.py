"""The yarn of one size: scale, margin and every rounding, as properties; and the worked sum of a handbook of the trade."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.values import rounded_text
from stitchproof.measures.yarn_sum import (
    HIGHEST_SCALE,
    LOWEST_SCALE,
    BuyingRule,
    StitchesWeighed,
    weight_of,
    yarn_sum,
)

GRAMS = st.fractions(min_value=Fraction(1, 100), max_value=2000, max_denominator=10_000)
SCALES = st.fractions(min_value=Fraction(1, 2), max_value=2, max_denominator=1000)
RULES = st.builds(
    BuyingRule,
    st.fractions(min_value=0, max_value=Fraction(1, 2), max_denominator=100),
    st.sampled_from([Fraction(1), Fraction(5), Fraction(10), Fraction(5, 2)]),
    st.fractions(min_value=50, max_value=1000, max_denominator=10),
    st.sampled_from([Fraction(100), Fraction(1000)]),
    st.sampled_from([Fraction(25), Fraction(50), Fraction(100)]),
)
"""Centimetres: 50 to 1000 cm of yarn to the gram, lengths up to 1 m or 10 m."""


@given(GRAMS, SCALES, RULES)
def test_each_amount_is_the_next_step_up_and_no_more(counted: Fraction, scale: Fraction, rule: BuyingRule) -> None:
    found = yarn_sum(counted, scale, rule)
    assert found.predicted == counted * scale
    assert found.with_margin - found.predicted == found.predicted * rule.margin
    assert found.with_margin <= found.grams < found.with_margin + rule.step
    assert (found.grams / rule.step).denominator == 1
    assert rule.cm_per_gram is not None and found.cm_of_yarn is not None
    assert found.grams * rule.cm_per_gram <= found.cm_of_yarn < found.grams * rule.cm_per_gram + rule.length_step
    assert (found.cm_of_yarn / rule.length_step).denominator == 1
    assert rule.ball is not None and found.balls is not None
    assert (found.balls - 1) * rule.ball < found.grams <= found.balls * rule.ball


@given(GRAMS, GRAMS, SCALES, RULES)
def test_more_stitches_take_no_less_yarn(one: Fraction, more: Fraction, scale: Fraction, rule: BuyingRule) -> None:
    small, large = yarn_sum(one, scale, rule), yarn_sum(one + more, scale, rule)
    assert small.grams <= large.grams
    assert small.cm_of_yarn is not None and large.cm_of_yarn is not None and small.cm_of_yarn <= large.cm_of_yarn
    assert small.balls is not None and large.balls is not None and small.balls <= large.balls


@given(GRAMS, GRAMS, RULES)
def test_the_sample_comes_to_what_it_weighs(counted: Fraction, weighed: Fraction, rule: BuyingRule) -> None:
    assert yarn_sum(counted, weighed / counted, rule).predicted == weighed


@given(st.lists(st.tuples(st.integers(0, 50_000), GRAMS), max_size=6))
def test_the_weight_is_the_sum_of_its_stitches(stitches: list[tuple[int, Fraction]]) -> None:
    found = weight_of(StitchesWeighed("sc", Fraction(number), grams) for number, grams in stitches)
    one_by_one = Fraction(0)
    for number, grams in stitches:
        one_by_one += number * grams
    assert found == one_by_one


def test_what_no_rule_is_given_for_is_not_worked_out() -> None:
    found = yarn_sum(Fraction(100), Fraction(1), BuyingRule())
    assert found.grams == 100
    assert found.cm_of_yarn is None and found.balls is None


def test_a_mesh_with_edges_of_single_crochet() -> None:
    """19 369 places of mesh at 0.0150 g and 3 217 sc at 0.0200 g are 354.9 g; the sample weighs 358 g, so the scale is 1.009.

    A size predicted at 589.0 g becomes 594 g. The sum is derived, no source; the bounds of the scale are common practice.
    """
    mesh = StitchesWeighed("mesh", Fraction(19369), Fraction("0.0150"))
    edges = StitchesWeighed("sc", Fraction(3217), Fraction("0.0200"))
    counted = weight_of((mesh, edges))
    assert rounded_text(counted, 1) == "354.9"
    scale = Fraction(358) / counted
    assert rounded_text(scale, 3) == "1.009"
    assert LOWEST_SCALE <= scale <= HIGHEST_SCALE
    found = yarn_sum(
        Fraction(589), scale, BuyingRule(Fraction(1, 10), Fraction(10), Fraction(320), Fraction(1000), Fraction(50))
    )
    assert rounded_text(found.predicted, 0) == "594"
    assert found.grams == 660 and found.balls == 14
    assert found.cm_of_yarn == 212_000
