"""A count taken over as times, groups or pairs by its unit; ratios that scale other values; values of no kind."""

from fractions import Fraction

import pytest

from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import PLAIN, STITCHES
from tests.sizing.written_pattern import faultless, sized

COUNTS = """
    sizes: {names: [S, M, L]}
    body:
      head: {cm: [50, 55, 60]}
    ratios:
      negative_ease: 88%
      stretch: {by_hand: [1.05, 1.1, 1.35], why: measured on the swatch}
      margin: negative_ease * stretch
    measures:
      around: head * negative_ease
    counts:
      cuff_sts: [40 sts, 44 sts, 48 sts]
      cuff_rows: [12 rows, 14 rows, 16 rows]
      incs(k): cuff_sts / 4 + k
"""


def whole(*numbers: int | str) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for number in numbers)


@pytest.mark.parametrize(
    ("written", "values", "noun"),
    [
        ("{is: cuff_sts / 2, unit: pairs}", whole(20, 22, 24), "pairs"),
        ("{is: cuff_sts, unit: times}", whole(40, 44, 48), "times"),
        ("{is: cuff_rows / 2, unit: ribs}", whole(6, 7, 8), "ribs"),
        ("{is: incs(2), unit: groups}", whole(12, 13, 14), "groups"),
        ("{is: cuff_sts / 7, unit: groups, round: down, at_least: 2, at_most: 9}", whole(5, 6, 6), "groups"),
        ("{by_hand: [cuff_sts / 2, cuff_sts / 4, cuff_sts], unit: times}", whole(20, 11, 48), "times"),
    ],
)
def test_a_plain_noun_takes_stitches_and_rows_over(written: str, values: tuple[Fraction, ...], noun: str) -> None:
    """Two stitches to a pair of a rib, one increase to a group: common practice, no source."""
    found = faultless(COUNTS + f"      x: {written}\n")
    assert found.values("x") == values
    assert found.quantity("x").kind == Kind(PLAIN, noun)


def test_so_does_the_noun_of_a_value_with_a_number_in_brackets() -> None:
    found = faultless(COUNTS + "      groups(k): {is: incs(k), unit: groups}\n      x: cuff_sts / groups(2)\n")
    assert found.quantity("groups").kind == Kind(PLAIN, "groups")
    assert found.quantity("x").kind.dimension == STITCHES


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("{is: 4 sts, unit: times}", "4 sts"),
        ("{by_hand: [4 sts, 5, 6], unit: times}", "5"),
        ("{by_hand: [cuff_sts, cuff_sts, 3], unit: times}", "3"),
        ("{is: around, unit: times}", "around"),
        ("{is: cuff_rows, unit: sts}", "cuff_rows"),
    ],
)
def test_what_no_noun_can_take_over(written: str, shown: str) -> None:
    """A number written with another unit contradicts itself; a length is turned into a count at a gauge."""
    (fault,) = sized(COUNTS + f"      x: {written}\n").faults
    assert fault[:2] == ("mixed-dimensions", shown)


def test_a_value_with_a_start_is_what_its_start_is() -> None:
    (fault,) = sized(COUNTS + "      x(k): {is: x(k - 1) + 4, start: cuff_sts, unit: groups}\n").faults
    assert fault[0] == "mixed-dimensions"


def test_ratios_scale_lengths_and_counts() -> None:
    """A brim an eighth or so smaller than the head: common practice, no source."""
    found = faultless(COUNTS + "      x: {is: cuff_sts * stretch, round: down}\n")
    assert found.values("around") == whole(44, "48.4", "52.8")
    assert found.values("margin") == whole("0.924", "0.968", "1.188")
    assert found.values("x") == whole(42, 48, 64)


@pytest.mark.parametrize(
    ("written", "fault"),
    [
        ("cuff_sts + stretch", ("mixed-dimensions", "cuff_sts + stretch")),
        ("{is: cuff_sts / 4 sts + stretch, round: up, unit: times}", None),
        ("1 if stretch > 1.1 else 2 sts", None),
        ("cuff_sts if stretch > cuff_sts else 2 sts", ("mixed-dimensions", "stretch > cuff_sts")),
    ],
)
def test_a_ratio_stands_beside_plain_numbers_only(written: str, fault: tuple[str, str] | None) -> None:
    assert [each[:2] for each in sized(COUNTS + f"      x: {written}\n").faults] == ([fault] if fault else [])


@pytest.mark.parametrize("written", ["5 cm", "cuff_sts", "12 times", "{is: 3, unit: cm}", "{cm: [1, 2, 3]}"])
def test_a_ratio_has_no_unit(written: str) -> None:
    faults = sized(COUNTS.replace("    measures:", f"      x: {written}\n    measures:")).faults
    assert [each[0] for each in faults] == ["mixed-dimensions"]


def test_a_fraction_without_a_unit_is_told_where_it_belongs() -> None:
    (found,) = sized("measures: {ease_factor: 0.88}").findings
    assert found.help == ("write `0.88 cm`, `0.88 in` or `0.88 g`; or put `ease_factor: 0.88` under `ratios`",)


@pytest.mark.parametrize("written", ["{by_hand: [not worked, not worked, not worked]}", "not worked"])
def test_what_no_size_works_needs_its_unit(written: str) -> None:
    """Its kind comes from nowhere else; what uses it stays silent."""
    found = sized(COUNTS + f"      x: {written}\n      y: x + cuff_sts\n")
    assert [each[0] for each in found.faults] == ["missing-unit"]
    assert found.findings[0].headline == "x is not worked in any size, and has no unit"


def test_with_its_unit_it_is_of_that_kind() -> None:
    found = faultless(
        COUNTS + "      x: {by_hand: [not worked, not worked, not worked], unit: sts}\n      y: x + cuff_sts\n"
    )
    assert found.quantity("y").kind.dimension == STITCHES
