"""Grade rules: a base and steps with breakpoints, and steps that rounding makes uneven."""

from fractions import Fraction
from itertools import accumulate, pairwise
from pathlib import Path

from stitchproof import check_pattern
from stitchproof.measures.values import rounded_text
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import checked, numbers

ROOT = Path(__file__).parents[2]
ARM = [Fraction(each) for each in ("25.5", "27", "29", "32", "36", "40.5", "44", "46.5", "48.5")]
STEPS = [Fraction(each) for each in ("1.5", "2", "3", "4", "4.5", "3.5", "2.5", "2")]


def test_an_upper_arm_as_a_base_and_steps() -> None:
    """25.5 and steps of 1.5, 2, 3, 4, 4.5, 3.5, 2.5, 2: it does not follow the bust linearly. Invented figures.

    That arms, necks and shoulders do not grow like the bust: digitsandthreads.ca (sizing survey, 2022), crochets.site
    (ease and grading). The rule is a value that goes on from the size before.
    """
    found = faultless(
        """
        sizes: {names: [1, 2, 3, 4, 5, 6, 7, 8, 9]}
        measures:
          base: 25.5 cm
          size_number: {by_hand: [1, 2, 3, 4, 5, 6, 7, 8, 9], unit: times}
          early(k): {is: min(k - 1, 1) * 1.5 cm + max(0, min(k - 2, 1)) * 2 cm + max(0, min(k - 3, 1)) * 3 cm}
          middle(k): {is: max(0, min(k - 4, 1)) * 4 cm + max(0, min(k - 5, 1)) * 4.5 cm + max(0, min(k - 6, 1)) * 3.5 cm}
          late(k): {is: max(0, min(k - 7, 1)) * 2.5 cm + max(0, min(k - 8, 1)) * 2 cm}
          upper_arm: base + early(size_number) + middle(size_number) + late(size_number)
    """.replace("{is: m", '{is: "m').replace(" cm}", ' cm"}')
    )
    assert numbers(found, "upper_arm") == ARM == list(accumulate(STEPS, initial=Fraction("25.5")))
    assert [later - earlier for earlier, later in pairwise(ARM)] == STEPS


def test_an_upper_arm_step_by_step() -> None:
    """The same as "the size before, and a step"; the steps of three stretches. Invented figures."""
    found = faultless("""
        sizes: {names: [1, 2, 3, 4, 5, 6, 7, 8, 9]}
        measures:
          size_number: {by_hand: [1, 2, 3, 4, 5, 6, 7, 8, 9], unit: times}
          step(k): 2 cm if k <= 3 else 4 cm if k <= 6 else 2.5 cm
          arm(k): {is: arm(k - 1) + step(k), start: 25.5 cm}
          upper_arm: arm(size_number - 1)
    """)
    steps = [later - earlier for earlier, later in pairwise(numbers(found, "upper_arm"))]
    assert steps == [2, 2, 2, 4, 4, 4, Fraction("2.5"), Fraction("2.5")]


def test_target_and_achieved_steps_of_a_waistcoat() -> None:
    """Body steps of 8, then 10 cm come out as 8, then 10.7, 10.7, 10.7 and 8: whole stitches at 15 to 10 cm.

    Against a quantum of the back's two stitches, 1.33 cm, the last step alone lies off its target. Derived, no source.
    """
    outcome = check_pattern("thornhollow_waistcoat", within=ROOT)
    assert outcome.sized is not None
    quantities = outcome.sized.scope.quantities
    achieved = [value for value in quantities["finished_bust"].values if isinstance(value, Fraction)]
    target = [value for value in quantities["body.bust"].values if isinstance(value, Fraction)]
    steps = [later - earlier for earlier, later in pairwise(achieved)]
    wanted = [later - earlier for earlier, later in pairwise(target)]
    assert [rounded_text(step, 1) for step in steps] == ["8"] * 5 + ["10.7"] * 3 + ["8"]
    assert wanted == [8] * 5 + [10] * 4
    quantum = 2 / Fraction("1.5")
    off = [abs(step - want) > quantum for step, want in zip(steps, wanted, strict=True)]
    assert off == [False] * 8 + [True]


def test_a_body_measure_that_turns_back_is_found() -> None:
    """A cross back nearly stops growing in the large sizes, but no body measure falls. From memory; the figures invented."""
    body = "sizes: {names: [1, 2, 3, 4, 5]}\nbody:\n  cross_back: {cm: [38, 40, 41.5, 42, LAST]}\n"
    assert checked(body.replace("LAST", "42")) == []
    assert checked(body.replace("LAST", "41")) == [("grading-turns-back", ("5",))]
