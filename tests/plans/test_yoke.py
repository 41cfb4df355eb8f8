"""Round yokes and crowns, against tables worked by hand and against walking round by round."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.plans.crown import Crown, crown
from stitchproof.plans.evenly import Shaping
from stitchproof.plans.flatness import TWO_PI, flat_radius, flat_rate, growth_per_cm
from stitchproof.plans.no_plan import Nearest, NoPlan
from stitchproof.plans.row_text import StitchWords, as_row, rounds_text
from stitchproof.plans.two_groups import Order
from stitchproof.plans.yoke import Yoke, yoke, yoke_by_shares
from tests.plans.deal import dealt
from tests.plans.row_reader import gaps, makes, read_row, read_schedule, takes
from tests.plans.size_table import by_size

INC = StitchWords("hdc", "2 hdc in next st")
DEC = StitchWords("hdc", "hdc2tog")

SIZES = """
neck       90  92  94  96  98 100 102 104 106
rounds     25  26  28  29  30  32  34  36  38
inc_rounds  5   5   6   6   6   7   7   8   8
first       4   5   4   4   5   4   5   4   5
even_after  5   5   4   5   5   4   5   4   5
increases 140 156 170 190 204 224 246 266 288
join      230 248 264 286 302 324 348 370 394
"""
ROUNDS = (
    "6×3 22×2 118 | 30×2 1×1 123 | 10×3 18×2 122 | 3×3 28×2 127 | 30×2 4×1 132 | 4×3 28×2 132 | 32×2 3×1 137"
    " | 5×3 28×2 137 | 34×2 2×1 142",
    "6×4 22×3 146 | 30×3 1×2 154 | 10×4 18×3 150 | 3×4 28×3 158 | 30×3 4×2 166 | 4×4 28×3 164 | 32×3 3×2 172"
    " | 5×4 28×3 170 | 34×3 2×2 178",
    "6×5 22×4 174 | 30×4 1×3 185 | 10×5 18×4 178 | 30×4 2×3 190 | 30×4 4×3 200 | 4×5 28×4 196 | 32×4 3×3 207"
    " | 5×5 28×4 203 | 34×4 2×3 214",
    "6×6 22×5 202 | 30×5 1×4 216 | 10×6 18×5 206 | 30×5 2×4 222 | 30×5 4×4 234 | 4×6 28×5 228 | 32×5 3×4 242"
    " | 5×6 28×5 236 | 34×5 2×4 250",
    "6×7 22×6 230 | 24×6 8×5 248 | 3×7 26×6 235 | 30×6 2×5 254 | 30×6 4×5 268 | 4×7 28×6 260 | 32×6 3×5 277"
    " | 5×7 28×6 269 | 34×6 2×5 286",
    " |  | 3×8 26×7 264 | 30×7 2×6 286 | 30×7 4×6 302 | 4×8 28×7 292 | 32×7 3×6 312 | 5×8 28×7 302 | 34×7 2×6 322",
    " |  |  |  |  | 4×9 28×8 324 | 24×8 12×7 348 | 30×8 4×7 336 | 34×8 2×7 358",
    " |  |  |  |  |  |  | 30×9 4×8 370 | 34×9 2×8 394",
)
GROWTH = ("3.95", "4.24", "4.29", "4.62", "4.80", "4.94", "5.11", "5.22", "5.35")


def size(number: int) -> dict[str, int]:
    return by_size(SIZES)[number]


def yoke_of(number: int) -> Yoke:
    given_ = size(number)
    plan = yoke(
        given_["neck"],
        given_["join"],
        shaping_rounds=given_["inc_rounds"],
        rounds=given_["rounds"],
        first=given_["first"],
        every=4,
        larger=Order.SMALLER_FIRST,
    )
    assert isinstance(plan, Yoke)
    return plan


@pytest.mark.parametrize("number", range(9))
def test_a_yoke_from_the_neck_down_in_nine_sizes(number: int) -> None:
    """T = k·Q + r, the last r rounds one more; in each round two groups, larger first. Worked by hand."""
    plan, expected = yoke_of(number), size(number)
    assert (plan.shapings, plan.even_after) == (expected["increases"], expected["even_after"])
    cells = [row.split("|")[number].split() for row in ROUNDS]
    for each, cell in zip(plan.shaped, [cell for cell in cells if cell], strict=True):
        groups = each.even.groups
        made = [f"{groups.more_times}×{groups.more}", f"{groups.fewer_times}×{groups.fewer}", str(each.even.after)]
        assert made == cell
        if groups.more_times > 1 and groups.fewer_times > 1 and groups.fewer > 1:
            assert as_row(each.even, INC) == (
                f"[hdc in each of next {groups.more} sts, 2 hdc in next st] {groups.more_times} times, "
                f"[hdc in each of next {groups.fewer} sts, 2 hdc in next st] {groups.fewer_times} times"
            )
    assert not plan.gathers


@pytest.mark.parametrize("number", range(9))
def test_the_yoke_lies_flat(number: int) -> None:
    """Growth around per cm of depth at 17 sts and 12 rnds to 10 cm, below 2π. Worked by hand."""
    given_ = size(number)
    growth = growth_per_cm(given_["neck"], given_["join"], given_["rounds"], Fraction(17, 10), Fraction(12, 10))
    assert f"{float(growth):.2f}" == GROWTH[number]
    assert growth < TWO_PI


def test_208_pairs_down_to_53_in_seven_rounds() -> None:
    """155 = 23 + 6 × 22, in pairs. Worked by hand."""
    plan = yoke(208, 53, shaping_rounds=7, rounds=30, first=10, every=3)
    assert isinstance(plan, Yoke)
    assert [each.even.times for each in plan.shaped] == [23, 22, 22, 22, 22, 22, 22]
    assert as_row(plan, DEC) == "on rnd 10, then every 3 rnds 6 more times"


def test_the_percentage_rules() -> None:
    """320 × ¾ = 240, × ⅔ = 160, × 0.6 = 96; 40 % is the most that does not gather. Worked by hand."""
    steps = ((10, Fraction(1, 4)), (15, Fraction(1, 3)), (20, Fraction(2, 5)))
    plan = yoke_by_shares(320, 22, steps)
    assert isinstance(plan, Yoke)
    assert [each.even.after for each in plan.shaped] == [240, 160, 96]
    assert (plan.end, plan.gathers) == (96, ())
    assert plan.shaped[-1].lost == Fraction(2, 5)
    assert yoke_by_shares(320, 19, steps) == NoPlan("the last shaping falls on rnd 20 of 19", (Nearest("rounds", 20),))


def test_a_round_that_gathers_is_named() -> None:
    """100 to 55 in one round loses 45 %, 55 to 100 makes as many: both gather. Worked by hand."""
    for start, end in ((100, 55), (55, 100)):
        plan = yoke(start, end, shaping_rounds=1, rounds=10, first=5, every=4)
        assert isinstance(plan, Yoke)
        assert plan.gathers == (1,)


def test_a_round_that_takes_more_than_there_is() -> None:
    """200 to 60 in two rounds: 70 decreases take 140 of 130. Worked by hand."""
    plan = yoke(200, 60, shaping_rounds=2, rounds=30, first=8, every=4)
    assert isinstance(plan, NoPlan)
    assert plan.reason == "70 decreases on rnd 12 take 140 sts and there are 130"
    assert Nearest("shaping_rounds", 3) in plan.nearest


def test_a_yoke_that_outruns_its_depth() -> None:
    """Five rounds, first 8, every 6: the last on 32 of 30. Worked by hand."""
    plan = yoke(200, 100, shaping_rounds=5, rounds=30, first=8, every=6)
    assert plan == NoPlan(
        "the last shaping falls on rnd 32 of 30",
        (Nearest("shaping_rounds", 4), Nearest("rounds", 32), Nearest("first", 6), Nearest("every", 5)),
    )


SHAPINGS = {
    (1, 2): INC,
    (2, 1): DEC,
    (3, 1): StitchWords("hdc", "hdc3tog"),
    (1, 3): StitchWords("hdc", "3 hdc in next st"),
}


@settings(max_examples=500)
@given(
    st.integers(20, 120),
    st.integers(20, 120),
    st.integers(0, 9),
    st.integers(5, 40),
    st.integers(1, 12),
    st.integers(1, 5),
    st.sampled_from([Order.LARGER_FIRST, Order.SMALLER_FIRST]),
    st.sampled_from(sorted(SHAPINGS)),
)
def test_yokes_round_by_round(
    start: int, end: int, k: int, rounds: int, first: int, every: int, larger: Order, used: tuple[int, int]
) -> None:
    shaping = Shaping(*used)
    plan = yoke(start, end, shaping_rounds=k, rounds=rounds, first=first, every=every, larger=larger, shaping=shaping)
    count, shares = start, walked(end - start, shaping.change, k, larger)
    works = shares is not None
    for share in shares or []:
        works = works and share > 0 and share * shaping.takes <= count
        count += share * shaping.change
    works = works and all(first + every * number <= rounds for number in range(k))
    assert isinstance(plan, NoPlan) == (not works)
    if isinstance(plan, Yoke):
        assert [each.even.times for each in plan.shaped] == shares
        assert read_schedule(as_row(plan, INC)) == [first + every * number for number in range(k)]
        check_rounds(plan, used, end)


def walked(difference: int, change: int, k: int, larger: Order) -> list[int] | None:
    """The shapings of each round, dealt one at a time; None where they do not lead from the start to the end."""
    in_all = 0
    while abs(in_all * change) < abs(difference):
        in_all += 1
    if in_all * change != difference or (in_all and not k):
        return None
    hands = dealt(in_all, k)
    return hands if larger is Order.LARGER_FIRST else hands[::-1]


def check_rounds(plan: Yoke, used: tuple[int, int], end: int) -> None:
    count = plan.start
    for each, text in zip(plan.shaped, rounds_text(plan, SHAPINGS[used]), strict=True):
        events = read_row(text)
        assert takes(events) == count
        count = makes(events)
        assert (count, events.count(used)) == (each.even.after, each.even.times)
        between = gaps(events, used)[:-1]
        assert max(between) - min(between) <= 1
        lost = abs(each.even.after - each.even.stitches) / max(each.even.after, each.even.stitches)
        assert (each.k in plan.gathers) == (lost > 0.4)
    assert count == end


def test_a_crown_of_88_in_eight_sections() -> None:
    """Ten decrease rounds, 9 plain before the first, down to 8; 8.75 cm for a flat top. Worked by hand."""
    plan = crown(88, 8)
    assert isinstance(plan, Crown)
    assert [(each.before, each.after) for each in plan.shaped] == [(10 - k, 88 - 8 * k) for k in range(1, 11)]
    texts = rounds_text(plan, DEC)
    assert texts[0] == "[hdc in each of next 9 sts, hdc2tog] 8 times"
    assert texts[-2:] == ("[hdc in next st, hdc2tog] 8 times", "[hdc2tog] 8 times")
    assert f"{float(flat_radius(88, Fraction(16, 10))):.2f}" == "8.75"


HATS = [(64, 7, 9), (72, 8, 10), (80, 9, 11), (88, 10, 12), (96, 11, 13)]


@pytest.mark.parametrize(("stitches", "dec_rounds", "rounds"), HATS)
def test_crowns_of_a_hat_in_five_sizes(stitches: int, dec_rounds: int, rounds: int) -> None:
    """Eight sections, a plain round after each of the first two decrease rounds, down to 8 sts. Worked by hand."""
    plan = crown(stitches, 8, plain=(1, 1))
    assert isinstance(plan, Crown)
    assert (plan.dec_rounds, plan.rounds, plan.end) == (dec_rounds, rounds, 8)
    assert [each.round for each in plan.shaped] == [1, 3, *range(5, rounds + 1)]
    assert as_row(plan, DEC) == f"on next rnd, then every 2 rnds 2 more times, then on next {rounds - 5} rnds"
    count = stitches
    for each, text in zip(plan.shaped, rounds_text(plan, DEC), strict=True):
        events = read_row(text)
        assert takes(events) == count
        assert events.count((2, 1)) == 8
        count = makes(events)
        assert count == each.after
    assert count == 8


def test_a_crown_that_is_not_whole_sections() -> None:
    """90 is 8 × 11 + 2: 88 or 96 would do. Worked by hand."""
    plan = crown(90, 8)
    assert isinstance(plan, NoPlan)
    assert plan.reason == "90 sts are not whole sections: 90 = 8 × 11 + 2"
    assert {Nearest("stitches", 88), Nearest("stitches", 96)} <= set(plan.nearest)
    assert isinstance(crown(88, 8, end=30), NoPlan)
    assert isinstance(crown(88, 8, end=96), NoPlan)
    ended = crown(88, 8, end=32)
    assert isinstance(ended, Crown)
    assert (ended.dec_rounds, ended.shaped[-1].after) == (7, 32)


@pytest.mark.parametrize(("sts", "rounds", "rate"), [(16, 12, "8.4"), (17, 20, "5.3"), (15, 8, "11.8")])
def test_flat_rates(sts: int, rounds: int, rate: str) -> None:
    """2π·g/r for hdc, sc and dc at usual gauges (the published rules work 8, 6 and 12). Worked by hand."""
    assert f"{float(flat_rate(Fraction(sts, 10), Fraction(rounds, 10))):.1f}" == rate
