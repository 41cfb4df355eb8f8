"""The shipped body tables against figures typed by hand.

The published pages could not be read by us. What is typed here comes from the same notes as the tables,
a second time: it finds slips of copying and of reading, not errors of the notes. The source that the
figures claim stands beside each check.
"""

from fractions import Fraction

import pytest

from stitchproof.standards.body import BodyRow, BodyTable, body_table, body_table_keys
from stitchproof.standards.provenance import Column, Memory
from stitchproof.standards.ranges import Range

WOMAN = "Craft Yarn Council, Standard Body Measurements/Sizing, Woman, booklet dated 02/05/18"
MAN = "Craft Yarn Council, Standard Body Measurements/Sizing, Man, booklet dated 02/05/18"
CHILDREN = "Craft Yarn Council, Standard Body Measurements/Sizing, Baby / Child / Youth, booklet dated 02/05/18"
HEAD = "Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, Head circumference"
FOOT = "Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, Foot / Sock measurements"
GLOVES = "EN 420:2003+A1:2009, hand sizes"
GIRLS = "CDC, Growth reference, head circumference of girls 0 to 3 years"
GIRTHS = "EN 13402-3, Size designation of clothes, Part 3"

# source, table, measure, column, the row as printed: a range is lo-hi.
ROWS = [
    (WOMAN, "women", "bust", "in", "28-30 32-34 36-38 40-42 44-46 48-50 52-54 56-58 60-62"),
    (WOMAN, "women", "bust", "cm", "71-76 81-86 91.5-96.5 101.5-106.5 111.5-117 122-127 132-137 142-147 152-158"),
    (WOMAN, "women", "hips", "in", "33-34 35-36 38-40 42-44 46-48 52-53 54-55 56-57 61-62"),
    (
        WOMAN,
        "women",
        "hips",
        "cm",
        "83.5-86 89-91.5 96.5-101.5 106.5-111.5 116.5-122 132-134.5 137-139.5 142-144.5 155-157",
    ),
    (WOMAN, "women", "upper_arm", "in", "9.75 10.25 11 12 13.5 15.5 17 18.5 19.5"),
    (
        WOMAN,
        "women",
        "armhole_depth",
        "cm",
        "15.5-16.5 16.5-17.5 17.5-19 19-20.5 20.5-21.5 21.5-23 23-24 24-25.5 25.5-26.5",
    ),
    (MAN, "men", "chest", "in", "34-36 38-40 42-44 46-48 50-52"),
    (MAN, "men", "waist", "cm", "71-76 81.5-86.5 91.5-96.5 106.5-112 116.5-122"),
    (CHILDREN, "babies", "chest", "in", "16 17 18 19 20"),
    (CHILDREN, "babies", "chest", "cm", "40.5 43 45.5 48 50.5"),
    (CHILDREN, "babies", "waist", "in", "18 19 20 20.5 21"),
    (CHILDREN, "children", "chest", "in", "21 23 25 26.5 28"),
    (CHILDREN, "children", "armhole_depth", "in", "4.25 4.75 5 5.5 6"),
    (CHILDREN, "youth", "chest", "in", "30 31.5 32.5"),
    (CHILDREN, "youth", "armhole_depth", "in", "6.5 7 7.5"),
    (HEAD, "head", "head_circumference", "in", "12 14 16 18 20 22"),
    (HEAD, "head", "head_circumference", "cm", "30.5 35.5 40.5 45.5 50.5 56"),
    (GIRLS, "head_girls", "head_circumference_p5", "cm", "32.1 34.2 37.3 40.3 42.3 43.5 45 46.1 47.6"),
    (GIRLS, "head_girls", "head_circumference_p50", "cm", "34.3 36.4 39.5 42.4 44.3 45.6 47.1 48.1 49.3"),
    (GIRLS, "head_girls", "head_circumference_p95", "cm", "35.9 38.3 41.7 44.6 46.4 47.6 49.1 50.1 51.4"),
    (GLOVES, "hand", "hand_circumference", "cm", "15.2 17.8 20.3 22.9 25.4 27.9"),
    (GLOVES, "hand", "hand_length", "cm", "16 17.1 18.2 19.2 20.4 21.5"),
    (FOOT, "foot_women", "foot_length", "in", "9 10 11"),
    (FOOT, "foot_men", "foot_length", "cm", "24 26.5 28 29"),
    (FOOT, "foot_children", "foot_length", "in", "4 5 6 7.5 8"),
    (GIRTHS, "women_european", "bust", "cm", "66-74 74-82 82-90 90-98 98-106 107-119 119-131 131-143"),
    (GIRTHS, "men_european", "chest", "cm", "70-78 78-86 86-94 94-102 102-110 110-118 118-129 129-141"),
]


def row_of(table: BodyTable, measure: str) -> BodyRow:
    """A row that must be there."""
    row = table.row(measure)
    assert row is not None
    return row


def ends(figure: str) -> Range:
    """`71-76` or `71` as a range."""
    low, _, high = figure.partition("-")
    return Range(Fraction(low), Fraction(high or low))


@pytest.mark.parametrize(("source", "table", "measure", "column", "printed"), ROWS)
def test_rows_as_published(source: str, table: str, measure: str, column: str, printed: str) -> None:
    figures = row_of(body_table(table), measure).figures(Column(column))
    assert figures == tuple(ends(figure) for figure in printed.split()), source


@pytest.mark.parametrize(
    ("inches", "first", "second"),
    [
        (62, ("women", "bust", "5X", "158"), ("women", "hips", "5X", "157")),
        (46, ("women", "bust", "XL", "117"), ("women", "hips", "XL", "116.5")),
        (34, ("women", "bust", "S", "86"), ("women", "waist", "L", "86.5")),
        (32, ("women", "bust", "S", "81"), ("women", "waist", "L", "81.5")),
        (53, ("men", "hips", "2X", "135"), ("women", "hips", "2X", "134.5")),
    ],
)
def test_one_inch_figure_carries_two_centimetre_figures(
    inches: int, first: tuple[str, str, str, str], second: tuple[str, str, str, str]
) -> None:
    """Source: the two columns of the Craft Yarn Council's Woman and Man tables, booklet dated 02/05/18."""
    for key, measure, size, cm in (first, second):
        table = body_table(key)
        place = table.place_of(size)
        assert place is not None
        row = row_of(table, measure)
        pairs = [
            (getattr(row.inches[place], end), getattr(row.cm[place], end)) for end in ("low", "high")
        ]  # the ends of the two columns, side by side
        assert (Fraction(inches), Fraction(cm)) in pairs


def test_both_columns_lie_within_what_rounding_can_do() -> None:
    """No end of a range is more than 0.52 cm (bust of 5X) from 2.54 cm to the inch (agreement of 1959).

    A slip of copying is usually larger, and would show here.
    """
    for key in body_table_keys():
        for row in body_table(key).rows:
            for cm, inches in zip(row.cm, row.inches, strict=True):
                if cm is None or inches is None:
                    continue
                for metric, imperial in ((cm.low, inches.low), (cm.high, inches.high)):
                    assert metric is not None
                    assert imperial is not None
                    assert abs(metric - imperial * Fraction("2.54")) <= Fraction("0.52"), (key, row.measure)


def test_a_european_hand_size_is_the_circumference_in_inches() -> None:
    """Source: EN 420, which takes the size's number from the circumference in inches; its mm are rounded."""
    table = body_table("hand")
    for size, figure in zip(table.sizes, row_of(table, "hand_circumference").cm, strict=True):
        assert figure is not None
        assert figure.single is not None
        assert abs(figure.single - int(size) * Fraction("2.54")) <= Fraction("0.05")


def test_the_labels_of_heads_run_small() -> None:
    """A 14 in Baby is a newborn's to one-month-old's head. Source: CDC, head circumference of girls 0 to 3 years."""
    baby = row_of(body_table("head"), "head_circumference").cm[1]
    smallest, largest = (row_of(body_table("head_girls"), f"head_circumference_{p}").cm for p in ("p5", "p95"))
    assert baby is not None
    assert baby.single is not None
    ages = [
        age
        for age, low, high in zip(body_table("head_girls").sizes, smallest, largest, strict=True)
        if low is not None
        and high is not None
        and low.low is not None
        and high.high is not None
        and low.low <= baby.single <= high.high
    ]
    assert ages == ["0mo", "1mo"]


@pytest.mark.parametrize(
    ("label", "low", "high"),
    [
        ("Preemie", "10.5", "13"),
        ("Baby", "13", "16"),
        ("Toddler", "16", "18"),
        ("Child", "18", "21"),
        ("Man", "21", "23"),
    ],
)
def test_labels_of_heads_lie_in_a_makers_chart(label: str, low: str, high: str) -> None:
    """Source: designer_10 in sources.yaml, inches. Its Adult begins at 21 in: the council's Woman, 20 in, is below it."""
    table = body_table("head")
    place = table.place_of(label)
    assert place is not None
    figure = row_of(table, "head_circumference").inches[place]
    assert figure is not None
    assert figure.single is not None
    assert Range(Fraction(low), Fraction(high)).contains(figure.single)


@pytest.mark.parametrize(("shoe", "longest_foot"), [("3-6", "8.84"), ("6-9", "9.84"), ("8-12", "10.83")])
def test_womens_feet_reach_the_largest_shoe_of_their_size(shoe: str, longest_foot: str) -> None:
    """Source: retail_3 in sources.yaml, foot length by US shoe size: 5 is 8.51 in, a third of an inch more for each size."""
    table = body_table("foot_women")
    place = table.place_of(shoe)
    assert place is not None
    figure = row_of(table, "foot_length").inches[place]
    assert figure is not None
    assert figure.single is not None
    assert 0 <= figure.single - Fraction(longest_foot) <= Fraction(1, 4)


def test_mens_sizes_whose_figures_are_not_known_are_left_out() -> None:
    assert body_table("men").sizes == ("S", "M", "L", "XL", "2X")
    assert all(None not in row.cm + row.inches for row in body_table("men").rows)


def test_columns_that_were_not_published_are_empty() -> None:
    row = row_of(body_table("hand"), "hand_length")
    assert row.inches == (None,) * 6


def test_a_range_names_no_single_figure() -> None:
    women = body_table("women")
    bust, arm = row_of(women, "bust").cm[0], row_of(women, "upper_arm").cm[0]
    assert bust is not None
    assert arm is not None
    assert bust.single is None
    assert arm.single == 25


@pytest.mark.parametrize(
    ("table", "label", "place"),
    [
        ("women", "XL", 4),
        ("women", "1X", 4),
        ("women", "x-large", 4),
        ("men", "XXL", 4),
        ("hand", "M", 2),
        ("women", "6X", None),
    ],
)
def test_sizes_are_found_by_their_labels(table: str, label: str, place: int | None) -> None:
    assert body_table(table).place_of(label) == place


def test_every_table_can_be_asked_for_and_has_one_cell_per_size() -> None:
    for key in body_table_keys():
        table = body_table(key)
        assert table.key == key
        assert len(set(table.sizes)) == len(table.sizes) == len(table.size_names) == len(table.size_aliases)
        for row in table.rows:
            assert len(row.cm) == len(row.inches) == len(table.sizes)
            assert any(row.cm) or any(row.inches), (key, row.measure)
    with pytest.raises(KeyError):
        body_table("giants")


def test_own_rows_go_over_published_ones() -> None:
    women = body_table("women")
    own = BodyRow("upper_arm", tuple(Range(Fraction(n), Fraction(n)) for n in range(30, 39)), (None,) * 9)
    new = BodyRow("wrist", (None,) * 9, own.cm)
    changed = women.with_rows((own, new))
    assert [row.measure for row in changed.rows] == [*(row.measure for row in women.rows), "wrist"]
    assert changed.row("upper_arm") == own
    assert changed.row("bust") == women.row("bust")
    assert (own.source, own.memory) == ("", Memory.NONE)
    assert women.row("upper_arm") != own
    with pytest.raises(ValueError, match="one cell for each of 9 sizes"):
        women.with_rows((BodyRow("wrist", (None,), (None,)),))
