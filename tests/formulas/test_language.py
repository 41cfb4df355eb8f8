"""The formula language as a table: what each form is, and what it comes to in three sizes."""

from fractions import Fraction

import pytest

from stitchproof.formulas.kind import amount_text
from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension
from stitchproof.measures.values import Absent, Value
from tests.formulas.small_scope import cannot, kind, read, refused, values

NOT_WORKED, UNKNOWN = Absent.NOT_WORKED, Absent.UNKNOWN


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2 + 3 * 4", 14),
        ("(2 + 3) * 4", 20),
        ("2 * 3 + 4", 10),
        ("10 - 4 - 3", 3),
        ("100 / 10 / 5", 2),
        ("100 / 10 * 5", 50),
        ("-2 * 3", -6),
        ("2 - -3", 5),
        ("- (2 + 3)", -5),
        ("7 ÷ 2 × 4 − 1", 13),
        ("1 / 3 + 1 / 6", "1/2"),
        (".5 + 0.25", "3/4"),
        ("15%", "3/20"),
        ("200 * 12.5%", 25),
        ("1 if 2 < 3 else 4", 1),
        ("1 if 3 < 2 else 4 if 3 < 2 else 5", 5),
        ("1 if 2 > 3 or 3 > 2 and 1 > 0 else 0", 1),
        ("1 if (3 > 2 or 3 > 2) and 1 > 2 else 0", 0),
        ("1 if not 2 > 3 and 1 = 1 else 0", 1),
        ("1 + (2 if 1 > 0 else 3) * 4", 9),
        ("nearest(2.5)", 3),
        ("nearest(-2.5)", -2),
        ("nearest(20, 8)", 24),
        ("up(17, 8)", 24),
        ("down(23, 8)", 16),
        ("up(-0.5)", 0),
        ("min(3, 1, 2)", 1),
        ("max(3, 1, 2)", 3),
        ("abs(2 - 5)", 3),
        ("largest(n, 1, 100, n * n <= 50)", 7),
        ("largest(n, 0.5, 9.5, n > 0)", 9),
        ("hat_sts[Medium] / 1 st", 72),
        ("hat_sts[ medium ] / 1 st", 72),
        ("hat_sts[3] / 1 st", 80),
        ("after_dec(2)[Large] / 1 st", 64),
        ("hat_sts[Large] / hat_sts[Small]", "5/4"),
        ("lowest(width) / 1 cm", 40),
        ("highest(width + 2 cm) / 1 cm", 52),
        ("(highest(hat_sts) - lowest(hat_sts)) / 1 st", 16),
        ("lowest(hat_sts[Medium]) / 1 st", 72),
        ("largest(n, 1, 100, n * 1 st < lowest(hat_sts))", 63),
    ],
)
def test_plain_numbers(text: str, value: int | str) -> None:
    assert values(text) == [Fraction(value)] * 3


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("2 < 2", False),
        ("2 <= 2", True),
        ("2 ≤ 2", True),
        ("2 > 2", False),
        ("2 >= 2", True),
        ("2 ≥ 2", True),
        ("2 = 2", True),
        ("2 == 2", True),
        ("2 != 2", False),
        ("2 ≠ 3", True),
        ("1 / 3 * 3 = 1", True),
        ("2.54 cm = 1 in", True),
        ("not 2 = 3", True),
        ("2 = 2 and 2 = 3", False),
        ("2 = 3 or 2 = 2", True),
    ],
)
def test_comparisons(text: str, holds: bool) -> None:
    assert values(text) == [holds] * 3


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("10 cm", LENGTH, 10),
        ("4 in", LENGTH, "10.16"),
        ("1 yd", LENGTH, "91.44"),
        ("50 g", WEIGHT, 50),
        ("3 sts", STITCHES, 3),
        ("1 st", STITCHES, 1),
        ("2 rnds + 3 rows", ROWS, 5),
        ("25 ribs", PLAIN, 25),
        ("16 sts per 10 cm", STITCHES.per(LENGTH), "1.6"),
        ("16 sts per 4 in", STITCHES.per(LENGTH), Fraction(1600, 1016)),
        ("3 sts per cm", STITCHES.per(LENGTH), 3),
        ("5 sts per 2 ribs", STITCHES, "2.5"),
        ("220 m per 100 g", LENGTH.per(WEIGHT), 220),
        ("10 cm * 16 sts per 10 cm", STITCHES, 16),
        ("12 rows / 12 rows per 10 cm", LENGTH, 10),
        ("64 sts / 8 sts", PLAIN, 8),
        ("10 cm * 10 cm", LENGTH.times(LENGTH), 100),
        ("2 * 3 sts + 1", STITCHES, 7),
        ("1 + 3 sts", STITCHES, 4),
    ],
)
def test_units(text: str, dimension: Dimension, value: int | str | Fraction) -> None:
    assert kind(text).dimension == dimension
    assert values(text) == [Fraction(value)] * 3


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("hat_sts", [64, 72, 80]),
        ("brim.sts + 1", [9, 10, 11]),
        ("width * crown.stitches", [64, "72.8", 80]),
        ("nearest(width * crown.stitches, 8)", [64, 72, 80]),
        ("body_rnds / crown.rounds", [5, "35/6", "20/3"]),
        ("after_dec(3)", [40, 48, 56]),
        ("after_dec(2 + 1) - after_dec(8)", [40, 40, 40]),
        ("picked_up(brim_edge, ribs_in_all)", [62, 72, 80]),
        ("picked_up(plain_edge, 42)", ["94.5"] * 3),
        ("picked_up(row_edge, 46 rows)", [69] * 3),
        ("edge_for(brim_edge, hat_sts)", [25, 29, 32]),
        ("largest(n, 1 ribs, 200 ribs, picked_up(brim_edge, n) <= hat_sts)", [25, 29, 32]),
        ("hat_sts if width > 45 cm else not worked", [NOT_WORKED, 72, 80]),
        ("not worked if hat_sts > 70 else 3 sts", [3, NOT_WORKED, NOT_WORKED]),
    ],
)
def test_names_rates_and_parameters(text: str, expected: list[Value | int | str]) -> None:
    """Dotted names are one name; a value may take a number in brackets."""
    assert values(text) == [each if isinstance(each, Absent) else Fraction(each) for each in expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("gap_sts + 1", [5, NOT_WORKED, UNKNOWN]),
        ("0 * gap_sts", [0, NOT_WORKED, UNKNOWN]),
        ("-gap_sts", [-4, NOT_WORKED, UNKNOWN]),
        ("abs(gap_sts)", [4, NOT_WORKED, UNKNOWN]),
        ("max(gap_sts, hat_sts)", [64, NOT_WORKED, UNKNOWN]),
        ("not_worked_sts + gap_sts", [NOT_WORKED, NOT_WORKED, UNKNOWN]),
        ("gap_sts / 0", [NOT_WORKED, UNKNOWN]),
        ("1 sts if gap_sts > 3 else 2 sts", [1, NOT_WORKED, UNKNOWN]),
        ("gap_sts if hat_sts < 70 else 2 sts", [4, 2, 2]),
        ("edge_for(brim_edge, gap_sts)", [1, NOT_WORKED, UNKNOWN]),
        ("largest(n, 1, 9, n * gap_sts <= 20)", [5, NOT_WORKED, UNKNOWN]),
        ("largest(n, 1 sts, gap_sts, n < 3)", [2, NOT_WORKED, UNKNOWN]),
    ],
)
def test_not_worked_and_unknown_spread_size_by_size(text: str, expected: list[Value | int]) -> None:
    """What cannot be worked out in one size (here: divided by zero in the first) leaves the others alone."""
    assert values(text) == [each if isinstance(each, Absent) else Fraction(each) for each in expected]


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("gap_sts > 3 and hat_sts > 0", [True, NOT_WORKED, UNKNOWN]),
        ("hat_sts < 0 and gap_sts > 3", [False, False, False]),
        ("hat_sts > 0 or gap_sts > 3", [True, True, True]),
        ("not gap_sts > 3", [False, NOT_WORKED, UNKNOWN]),
    ],
)
def test_a_test_stops_where_it_is_decided(text: str, holds: list[Value]) -> None:
    assert values(text) == holds


@pytest.mark.parametrize("other", ["hat_sts", "width", "yarn", "body_rnds", "crown.stitches", "ribs_in_all"])
def test_a_written_zero_fits_every_dimension(other: str) -> None:
    assert kind(f"{other} > 0").truth
    for form in ("max(0, {})", "max({}, 0)", "{} - 0", "0 + {}", "{} if {} > 0 else 0"):
        assert kind(form.replace("{}", other)).dimension == kind(other).dimension


@pytest.mark.parametrize("text", ["0 cm", "width - width", "0 * width"])
def test_what_only_comes_out_as_zero_keeps_its_dimension(text: str) -> None:
    assert refused(f"hat_sts > {text}").page.name == "mixed-dimensions"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("hat_sts + 2", ""),
        ("body_rnds - 1", ""),
        ("ribs_in_all + 1", ""),
        ("width + 2", "missing-unit"),
        ("2 > width", "missing-unit"),
        ("yarn + 2", "missing-unit"),
        ("crown.stitches + 2", "mixed-dimensions"),
        ("0 cm + 3 sts", "mixed-dimensions"),
        ("max(0, 3 sts, 4 rows)", "mixed-dimensions"),
        ("max(2, 3 sts, 4 rows)", "mixed-dimensions"),
        ("ribs_in_all + 3 sts", "mixed-dimensions"),
        ("hat_sts * 2 + body_rnds", "mixed-dimensions"),
    ],
)
def test_a_bare_number_takes_the_unit_of_a_count_only(text: str, fault: str) -> None:
    if fault:
        assert refused(text).page.name == fault
    else:
        kind(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("hat_sts", "64 sts"),
        ("after_dec(7) - 7", "1 st"),
        ("4 in", "4 in"),
        ("1 in + 1 cm", "1.39 in"),
        ("1 ribs", "1 rib"),
        ("3 rnds", "3 rnds"),
        ("crown.stitches", "16 sts per 10 cm"),
        ("yarn * 220 m per 100 g", "99 m"),
        ("width / 3", "13.33 cm"),
        ("1 / width", "0.025 per cm"),
        ("width * width", "1600 cm × cm"),
        ("2 > 1", "yes"),
        ("not worked", "not worked"),
    ],
)
def test_a_value_with_its_unit_as_a_maker_reads_it(text: str, words: str) -> None:
    assert amount_text(values(text)[0], kind(text)) == words


def test_names_are_read_whole() -> None:
    """A dotted name is one name, letters of every script are letters, and a unit is a name where no number stands before it."""
    for text in ("crown.stitches", "häkel_maschen", "編み目", "rows", "n2"):
        assert read(text).text == text
        assert read(text).node.span.text == text


@pytest.mark.parametrize(
    ("text", "size"),
    [("hat_sts / (hat_sts - 64)", 0), ("hat_sts / (72 sts - hat_sts)", 1), ("nearest(hat_sts, hat_sts - 64)", 0)],
)
def test_division_by_zero_is_told_in_its_size(text: str, size: int) -> None:
    assert cannot(text, size).page.name == "division-by-zero"


def test_over_all_sizes_those_that_do_not_work_it_are_left_out() -> None:
    assert values("highest(gap_sts)") == [UNKNOWN] * 3
    assert values("highest(not_worked_sts)") == [NOT_WORKED] * 3
    assert values("highest(gap_sts if hat_sts < 80 sts else not worked)") == [Fraction(4)] * 3


def test_a_value_in_a_size_is_of_the_kind_of_the_value() -> None:
    assert kind("width[Small]").dimension == LENGTH
    assert kind("lowest(hat_sts)").dimension == STITCHES


@pytest.mark.parametrize(
    ("text", "code", "shown", "help_text"),
    [
        ("hat_sts[Midium]", "SP029", "Midium", "write `Medium`"),
        ("hat_sts[]", "SP029", "", "the sizes are: Small, Medium, Large"),
        ("hat_sts[4]", "SP029", "4", "the sizes are: Small, Medium, Large"),
        ("hats[Small]", "SP007", "hats", "write `hat_sts`"),
        ("after_dec[Small]", "SP034", "after_dec", "write `after_dec(k)`"),
        ("5[Small]", "SP020", "[", "in a formula use round brackets; a list of one value per size stands alone"),
        ("highest(width, 3 cm)", "SP034", "highest(width, 3 cm)", "highest(value): the largest over all sizes"),
    ],
)
def test_a_size_or_name_that_is_not_there(text: str, code: str, shown: str, help_text: str) -> None:
    found = refused(text)
    assert (found.page.code, found.primary.span.text, found.help) == (code, shown, (help_text,))
