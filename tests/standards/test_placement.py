"""A body among the sizes of a table: in one, or between two, never placed silently."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.standards.body import BodyRow, BodyTable, body_table
from stitchproof.standards.placement import Placement, place_between
from stitchproof.standards.provenance import Column
from stitchproof.standards.ranges import Range

quarters = st.integers(min_value=1, max_value=300).map(lambda n: Fraction(n, 4))


@pytest.mark.parametrize(
    ("table", "measure", "value", "column", "words"),
    [
        # Craft Yarn Council, Woman, booklet dated 02/05/18: bust ranges leave gaps of 2 in.
        ("women", "bust", "36", "in", "M"),
        ("women", "bust", "31", "in", "between XS and S"),
        ("women", "bust", "35", "in", "between S and M"),
        ("women", "bust", "39", "in", "between M and L"),
        ("women", "bust", "99", "cm", "between M and L"),
        ("women", "bust", "27", "in", "smaller than XS"),
        ("women", "bust", "63", "in", "larger than 5X"),
        # 157.5 cm is in the bust of 5X and above its hips, though both are printed as 62 in.
        ("women", "bust", "157.5", "cm", "5X"),
        ("women", "hips", "157.5", "cm", "larger than 5X"),
        ("women", "center_back_neck_to_wrist", "32.75", "in", "3X and 4X"),
        # Craft Yarn Council, head circumference: single figures.
        ("head", "head_circumference", "21", "in", "between Woman and Man"),
        ("head", "head_circumference", "20", "in", "Woman"),
        # Craft Yarn Council, Baby: 6 and 12 months share 20 in of hips; the later one is the neighbour below.
        ("babies", "hips", "20.5", "in", "between 12mo and 18mo"),
        # EN 13402-3: the ranges touch, and a boundary is in both.
        ("women_european", "bust", "98", "cm", "M and L"),
        # EN 420 gives no inches.
        ("hand", "hand_length", "7", "in", ""),
    ],
)
def test_bodies_of_published_tables(table: str, measure: str, value: str, column: str, words: str) -> None:
    placed = place_between(body_table(table), measure, Fraction(value), Column(column))
    assert placed.in_words() == words
    assert placed.is_between == words.startswith("between")


def test_an_unknown_measure_is_our_own_mistake() -> None:
    with pytest.raises(KeyError):
        place_between(body_table("women"), "wing span", Fraction(1), Column.CM)


@given(st.lists(st.none() | st.tuples(quarters, quarters), min_size=1, max_size=8), quarters)
def test_neighbours_are_the_nearest_figures_on_either_side(
    cells: list[tuple[Fraction, Fraction] | None], value: Fraction
) -> None:
    """Checked by looking at every size, in rows that need not rise."""
    ranges = tuple(Range(min(cell), max(cell)) if cell else None for cell in cells)
    sizes = tuple(str(number) for number in range(len(cells)))
    table = BodyTable("", "", "", sizes, sizes, ((),) * len(sizes), (BodyRow("arm", ranges, ranges),))
    placed = place_between(table, "arm", value, Column.CM)
    known = [(size, (min(cell), max(cell))) for size, cell in zip(sizes, cells, strict=True) if cell]
    inside = tuple(size for size, (low, high) in known if low <= value <= high)
    if inside:
        assert placed == Placement(inside, None, None)
        return
    assert placed.sizes == ()
    gaps_below = {size: value - high for size, (_, high) in known if high < value}
    gaps_above = {size: low - value for size, (low, _) in known if low > value}
    for neighbour, gaps in ((placed.below, gaps_below), (placed.above, gaps_above)):
        assert (neighbour is None) == (not gaps)
        if neighbour is not None:
            assert gaps[neighbour] == min(gaps.values())
