"""A formula for all sizes but some: `is: …` with `by_hand: {M: 72 sts}` beside it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.sizing.written_pattern import derivation_text, faultless, sized

SOURCE = """
    sizes: {{names: [S, M, L], called_by: number}}
    measures:
      around: {{by_hand: [49, 54, 59], unit: cm}}
      ease: {ease}
    counts:
      hat_sts: {{is: around * fabric.stitches, round: nearest, multiple: 8{more}}}
      sections: hat_sts / 8
"""


def source(more: str = "", ease: str = "2 cm") -> str:
    return SOURCE.format(more=more, ease=ease)


def whole(*numbers: int) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for number in numbers)


def test_a_size_set_by_hand_leaves_the_formula_to_the_others() -> None:
    """M is set to 72 sts; S and L keep what the formula gives, and what hangs on the count follows."""
    found = faultless(source(", by_hand: {M: 72 sts}"))
    assert faultless(source()).values("hat_sts") == whole(80, 88, 96)
    assert found.values("hat_sts") == whole(80, 72, 96)
    assert found.values("sections") == whole(10, 9, 12)


def test_it_is_not_rounded_again() -> None:
    """75 is no multiple of 8; it stays 75 for the checks to judge, as a value that is only tried."""
    found = faultless(source(", by_hand: {M: 75 sts}"))
    assert found.values("hat_sts") == whole(80, 75, 96)
    assert found.values("hat_sts") == faultless(source(), {"hat_sts[M]": "75 sts"}).values("hat_sts")


def test_a_measure_of_one_number_may_have_a_size_of_its_own() -> None:
    assert faultless(source(ease="{is: 2 cm, by_hand: {L: 3 cm}}")).values("ease") == whole(2, 2, 3)


@pytest.mark.parametrize("typed", ["3", "3 pairs"])
def test_what_is_recounted_by_a_noun_may_have_a_size_of_its_own(typed: str) -> None:
    """Pairs are stitches, recounted; a number of pairs beside the formula is one of them, and so is one that is only tried."""
    pairs = "counts:\n  pairs: {is: 8 sts / 2 + 0 sts%s, unit: pairs}\n"
    assert faultless(pairs % f", by_hand: {{M: {typed}}}").values("pairs") == whole(4, 3)
    assert faultless(pairs % "", {"pairs[M]": typed}).values("pairs") == whole(4, 3)
    rows = "counts:\n  times: 4 times\n  rows: {is: 2 * times%s, unit: rows}\n"
    assert faultless(rows % ", by_hand: {M: 6 rows}").values("rows") == whole(8, 6)


def test_sizes_are_named_as_elsewhere() -> None:
    assert faultless(source(", by_hand: {2: 72 sts, l: 104 sts}")).values("hat_sts") == whole(80, 72, 104)


def test_a_change_goes_over_what_is_set_by_hand() -> None:
    set_by_hand = source(", by_hand: {M: 75 sts}")
    assert faultless(set_by_hand, {"hat_sts[M]": "80"}).values("hat_sts") == whole(80, 80, 96)
    assert faultless(set_by_hand, {"hat_sts": "64"}).values("hat_sts") == whole(64, 64, 64)


@pytest.mark.parametrize(
    ("more", "fault", "at"),
    [
        (", by_hand: {XL: 72 sts}", "size-not-known", "XL"),
        (", by_hand: {M: 72 sts, 2: 80 sts}", "function-used-wrongly", "2"),
        (", by_hand: {M: 4 cm}", "mixed-dimensions", "4 cm"),
        (", by_hand: [72 sts, 80 sts, 88 sts]", "wrong-kind-of-value", None),
    ],
)
def test_what_does_not_fit_is_told(more: str, fault: str, at: str | None) -> None:
    faults = sized(source(more)).faults
    assert next(name for name, text, _ in faults if at is None or text == at) == fault


def test_sizes_alone_without_a_formula_are_a_fault() -> None:
    faults = sized("counts:\n  hat_sts: {by_hand: {S: 72 sts}}\n").faults
    assert faults[0][0] == "wrong-kind-of-value"


def test_explain_shows_the_formula_and_what_is_set_by_hand() -> None:
    text = derivation_text(faultless(source(", by_hand: {M: 72 sts}")), "hat_sts")
    assert "formula   around * fabric.stitches" in text
    assert "by hand   M 72 sts" in text
