"""Sized notation: first size free, the others in round brackets; dashes, collapse, units, words.

The rules are common practice, no source. Lengths are read back and compared with the exact inch of 2.54 cm (agreement
on yard and pound, 1959).
"""

import re
import unicodedata
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.editions.print_document import PlainText, Vector, visible_text
from stitchproof.editions.vectors import set_number
from stitchproof.expansion.document import Number, SizeList
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import STITCHES, WEIGHT
from stitchproof.measures.values import Absent
from tests.editions.samples import length, number, sts

FIVE = SizeList(("1", "2", "3", "4", "5"), True, (4,), (0, 1, 2, 3, 4))
NINE = SizeList(tuple("123456789"), True, (4, 4), tuple(range(9)))
SEVEN = SizeList(tuple("1234567"), True, (3, 3), tuple(range(7)))
ONE = SizeList(("1", "2", "3", "4", "5"), True, (), (2,))
CM_IN = ("cm", "in")


def printed(given_number: Number, sizes: SizeList = FIVE, units: tuple[str, ...] = CM_IN) -> str:
    return visible_text(set_number(given_number, sizes, units))


@pytest.mark.parametrize(
    ("values", "sizes", "text"),
    [
        ((64, 72, 80, 88, 96), FIVE, "64 (72, 80, 88, 96)"),
        ((72, 76, 80, 84, 88, 92, 96), SEVEN, "72 (76, 80, 84) (88, 92, 96)"),
        ((90, 92, 94, 96, 98, 100, 102, 104, 106), NINE, "90 (92, 94, 96, 98) (100, 102, 104, 106)"),
        ((8, 8, 8, 8, 8), FIVE, "8"),
        ((8, 8, 8, 8, 9), FIVE, "8 (8, 8, 8, 9)"),
        ((62, 72, None, 87, None), FIVE, "62 (72, –, 87, –)"),
        ((None, None, None, None, 8), FIVE, "8"),
        ((None, 8, None, None, 8), FIVE, "8"),
        ((64, 72, 80, 88, 96), ONE, "80"),
        ((None, None, None, None, None), FIVE, "–"),
        (("12.5", 13, "40/3", -2, 0), FIVE, "12.5 (13, 40/3, −2, 0)"),
    ],
)
def test_numbers_print_in_brackets(values: tuple[int | str | None, ...], sizes: SizeList, text: str) -> None:
    assert printed(sts(*values), sizes) == text


def test_a_size_that_does_not_work_it_is_a_dash_also_among_equals() -> None:
    everywhere = number(Absent.NOT_WORKED, 8, 8, 8, 8, served=(0, 1, 2, 3, 4))
    assert printed(everywhere) == "– (8, 8, 8, 8)"


def test_what_is_not_known_prints_as_a_question_mark() -> None:
    assert printed(number(Absent.UNKNOWN, 8, 8, 8, 8)) == "? (8, 8, 8, 8)"


@pytest.mark.parametrize(
    ("given_number", "units", "text"),
    [
        (length(85, 95, 105, 115, 125), CM_IN, "85 (95, 105, 115, 125) cm / 33½ (37½, 41¼, 45¼, 49¼) in"),
        (length(85, 95, 105, 115, 125), ("in", "cm"), "33½ (37½, 41¼, 45¼, 49¼) in / 85 (95, 105, 115, 125) cm"),
        (length(85, 95, 105, 115, 125), ("cm",), "85 (95, 105, 115, 125) cm"),
        (length(20, 20, 20, 20, 20), CM_IN, "20 cm / 7¾ in"),
        # Neighbours that print alike but are not the same are both printed.
        (length("20.1", "20.2", 20, 20, 20), ("cm",), "20 (20, 20, 20, 20) cm"),
        (length("41.3", 40, 40, 40, 40, print_as=PrintAs.CM), CM_IN, "41.5 (40, 40, 40, 40) cm"),
        (length("41.3", 40, 40, 40, 40, print_as=PrintAs.INCHES), CM_IN, "16¼ (15¾, 15¾, 15¾, 15¾) in"),
        (length(11000, 12000, 550, 100, 15, print_as=PrintAs.METRES), CM_IN, "110 (120, 5.5, 1, 0.2) m"),
        (length(*["91440"] * 5, print_as=PrintAs.YARDS), CM_IN, "1000 yd"),
        (length("-0.5", -40, 0, "-0.1", 1, print_as=PrintAs.CM), CM_IN, "−0.5 (−40, 0, 0, 1) cm"),
        (number("45.5", "49.4", 65, 75, 90, dimension=WEIGHT), CM_IN, "46 (49, 65, 75, 90) g"),
        (number(*[100] * 5, dimension=WEIGHT, print_as=PrintAs.OUNCES), CM_IN, "3.5 oz"),
        (length("1.5", "0.325", "0.35", "0.9", "1.25", print_as=PrintAs.MM), CM_IN, "15 (3.25, 3.5, 9, 12.5) mm"),
        (length(None, None, None, None, None), CM_IN, "–"),
    ],
)
def test_units_follow_the_whole_vector(given_number: Number, units: tuple[str, ...], text: str) -> None:
    assert printed(given_number, FIVE, units) == text


@pytest.mark.parametrize(
    ("values", "print_as", "text"),
    [
        ((1, 1, 1, 1, 1), PrintAs.TIMES, "once"),
        ((2, 2, 2, 2, 2), PrintAs.TIMES, "twice"),
        ((3, 3, 3, 3, 3), PrintAs.TIMES, "3 times"),
        ((1, 2, 3, 4, None), PrintAs.TIMES, "1 (2, 3, 4, –) times"),
        ((1, 2, 20, 21, None), PrintAs.WORDS, "one (two, twenty, 21, –)"),
        ((6, 6, 6, 6, 6), PrintAs.WORDS, "six"),
        ((1, 2, 3, 4, None), PrintAs.ORDINAL, "1st (2nd, 3rd, 4th, –)"),
        ((11, 12, 13, 21, 112), PrintAs.ORDINAL, "11th (12th, 13th, 21st, 112th)"),
        (("1.15", "0.875", "0.8766", 1, None), PrintAs.PERCENT, "115% (87.5%, 87.7%, 100%, –)"),
        (("0.8", "0.8", "0.8", "0.8", "0.8"), PrintAs.PERCENT, "80%"),
        (("1.15", "1/3", "2/3", 1, None), PrintAs.DECIMAL, "1.15 (0.33, 0.67, 1, –)"),
    ],
)
def test_words_times_and_shares(values: tuple[int | str | None, ...], print_as: PrintAs, text: str) -> None:
    assert printed(number(*values, print_as=print_as)) == text


def test_a_vector_knows_which_size_reads_which_number() -> None:
    (vector,) = set_number(sts(64, 72, None, 88, 96), FIVE, CM_IN)
    assert isinstance(vector, Vector)
    assert [(entry.size, entry.text) for group in vector.groups for entry in group] == [
        (0, "64"), (1, "72"), (2, "–"), (3, "88"), (4, "96"),
    ]  # fmt: skip


def test_a_vector_is_whole_until_a_line_is_too_short() -> None:
    (vector,) = set_number(sts(*range(100, 109)), NINE, CM_IN)
    assert isinstance(vector, Vector)
    assert " " not in vector.text


def test_no_line_breaks_after_a_leading_dash() -> None:
    """Unicode line breaking (UAX 14) allows a break after an en dash even before a no-break space: rule LB12a."""
    (vector,) = set_number(sts(None, 2, 3, 4, 5), FIVE, CM_IN)
    assert isinstance(vector, Vector)
    assert vector.text.startswith("–\N{WORD JOINER}\u00a0(2")


def test_the_slash_between_units_is_text_of_its_own() -> None:
    parts = set_number(length(1, 2, 3, 4, 5), FIVE, CM_IN)
    assert [type(part) for part in parts] == [Vector, PlainText, Vector]


@st.composite
def sized_numbers(draw: st.DrawFn) -> tuple[SizeList, Number]:
    """A list of up to ten sizes in any grouping, and a count that some of them work."""
    size_count = draw(st.integers(1, 10))
    cuts = sorted(draw(st.sets(st.integers(1, size_count - 1)))) if size_count > 1 else []
    edges = [*cuts, size_count] if cuts and cuts[0] == 1 else [1, *cuts, size_count]
    groups = tuple(high - low for low, high in pairwise(edges) if high > low)
    values = draw(st.lists(st.integers(-5, 400), min_size=size_count, max_size=size_count))
    served = tuple(sorted(draw(st.sets(st.integers(0, size_count - 1), min_size=1))))
    sizes = SizeList(tuple(map(str, range(size_count))), False, groups, tuple(range(size_count)))
    return sizes, number(*values, served=served, dimension=STITCHES)


def entries_of(text: str) -> list[str]:
    """The numbers of a printed vector, brackets and commas taken away."""
    return re.findall(r"[^\s(),]+", text)


@given(sized_numbers())
def test_reading_a_vector_back_gives_the_same_numbers(sized: tuple[SizeList, Number]) -> None:
    sizes, given_number = sized
    entries = entries_of(printed(given_number, sizes))
    worked = {size: given_number.values[size] for size in given_number.served}
    if len(set(worked.values())) == 1:
        assert [Fraction(entry.replace("−", "-")) for entry in entries] == [next(iter(worked.values()))]
        return
    assert len(entries) == len(sizes.names)
    assert {size for size, entry in enumerate(entries) if entry == "–"} == set(sizes.chosen) - set(worked)
    assert {size: Fraction(entries[size].replace("−", "-")) for size in worked} == worked


@given(sized_numbers())
def test_brackets_hold_as_many_numbers_as_the_grouping_says(sized: tuple[SizeList, Number]) -> None:
    sizes, given_number = sized
    brackets = [bracket.count(",") + 1 for bracket in re.findall(r"\(([^)]*)\)", printed(given_number, sizes))]
    assert brackets in ([], list(sizes.groups))


@given(st.lists(st.fractions(0, 300), min_size=5, max_size=5, unique=True))
def test_lengths_are_off_by_half_a_grid_step_at_most(lengths: list[Fraction]) -> None:
    in_cm, in_inches = printed(length(*lengths)).split(" / ")
    for value, cm, inches in zip(lengths, entries_of(in_cm), entries_of(in_inches), strict=False):
        assert abs(Fraction(cm) - value) <= Fraction(1, 4)
        assert abs(inches_of(inches) - value / Fraction("2.54")) <= Fraction(1, 8)


def inches_of(text: str) -> Fraction:
    """Inches with a Unicode fraction as a number, by the Unicode character database."""
    whole = re.match(r"\d*", text)
    assert whole is not None
    quarters = sum(Fraction(unicodedata.numeric(sign)) for sign in text[whole.end() :])
    return Fraction(whole[0] or 0) + quarters
