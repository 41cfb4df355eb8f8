"""The yarn weight categories. Source: Craft Yarn Council, Standard Yarn Weight System, crochet columns."""

from fractions import Fraction

import pytest

from stitchproof.standards.provenance import memory_note
from stitchproof.standards.ranges import Range
from stitchproof.standards.yarn import weights_called, weights_for, yarn_weights

# category, name, single crochet in 4 in, hook in mm; "" is open. Category 0 is counted in double crochet.
PUBLISHED = [
    (0, "Lace", "32", "42", "1.4", "1.6"),
    (1, "Super Fine", "21", "32", "2.25", "3.5"),
    (2, "Fine", "16", "20", "3.5", "4.5"),
    (3, "Light", "12", "17", "4.5", "5.5"),
    (4, "Medium", "11", "14", "5.5", "6.5"),
    (5, "Bulky", "8", "11", "6.5", "9"),
    (6, "Super Bulky", "7", "9", "9", "15"),
    (7, "Jumbo", "", "6", "15", ""),
]


def test_categories_as_published() -> None:
    found = [
        (weight.category, weight.name, weight.printings[0].gauge, weight.printings[0].hook_mm)
        for weight in yarn_weights()
    ]
    assert found == [
        (category, name, Range(end(low), end(high)), Range(end(thin), end(thick)))
        for category, name, low, high, thin, thick in PUBLISHED
    ]


def end(figure: str) -> Fraction | None:
    """A figure, None where the table is open."""
    return Fraction(figure) if figure else None


def test_the_three_categories_that_exist_in_two_printings() -> None:
    second = {weight.category: weight.printings[1] for weight in yarn_weights() if len(weight.printings) > 1}
    assert {category: printing.hook_mm for category, printing in second.items()} == {
        0: Range(Fraction(3, 2), Fraction(9, 4)),
        6: Range(Fraction(9), Fraction(16)),
        7: Range(Fraction(16), None),
    }


def test_only_lace_is_counted_in_double_crochet() -> None:
    assert [weight.category for weight in yarn_weights() if weight.gauge_stitch == "dc"] == [0]
    assert {weight.gauge_stitch for weight in yarn_weights()} == {"sc", "dc"}


def test_nothing_of_this_table_is_from_memory() -> None:
    assert {memory_note(weight) for weight in yarn_weights()} == {""}
    assert all(len(weight.confirmed_by) > 1 for weight in yarn_weights())


@pytest.mark.parametrize(
    ("gauge", "hook", "stitch", "categories"),
    [
        # Neighbours overlap: 12 to 14 sc fits both 3 and 4, 16 to 17 both 2 and 3, 11 both 4 and 5.
        ("13", None, "sc", [3, 4]),
        ("16.5", None, "sc", [2, 3]),
        ("11", None, "sc", [4, 5]),
        # Hook ranges share their ends: a 5.5 mm hook is the top of 3 and the bottom of 4.
        (None, "5.5", "sc", [3, 4]),
        ("13", "5", "sc", [3]),
        ("40", None, "sc", []),
        ("40", None, "dc", [0]),
        # 6 in one printing only.
        ("6", "12", "sc", [6]),
        ("18", "9", "sc", []),
        (None, None, "sc", [0, 1, 2, 3, 4, 5, 6, 7]),
    ],
)
def test_categories_for_a_gauge_and_a_hook(
    gauge: str | None, hook: str | None, stitch: str, categories: list[int]
) -> None:
    found = weights_for(Fraction(gauge) if gauge else None, Fraction(hook) if hook else None, stitch)
    assert [weight.category for weight in found] == categories


@pytest.mark.parametrize(
    ("name", "categories"),
    [
        ("DK", [3]),
        ("worsted", [4]),
        ("Aran", [4]),
        ("fingering", [0, 1]),
        ("4  ply", [1, 2]),
        ("5", [5]),
        ("thick", []),
    ],
)
def test_categories_by_name(name: str, categories: list[int]) -> None:
    """Trade names: common practice; found on the pages retail_5 and retail_9 of sources.yaml."""
    assert [weight.category for weight in weights_called(name)] == categories


def test_wraps_fall_as_yarn_grows_thick() -> None:
    lows = [weight.wraps_per_inch.low for weight in yarn_weights()]
    assert lows == [30, 14, 12, 11, 9, 6, 5, 1]
