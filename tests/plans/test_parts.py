"""The names of a plan's parts: told in the docstring, whole numbers, and the numbers of the plan."""

import re
from fractions import Fraction

import pytest

from stitchproof.measures.rate import whole_rate
from stitchproof.plans import parts as parts_module
from stitchproof.plans.armhole import armhole
from stitchproof.plans.buttonholes import buttonholes
from stitchproof.plans.crown import crown
from stitchproof.plans.evenly import DECREASE, evenly_in_rounds, evenly_in_rows
from stitchproof.plans.neckline import round_neck, v_neck
from stitchproof.plans.no_plan import NoPlan
from stitchproof.plans.parts import PartValue, Plan, parts
from stitchproof.plans.pick_up import pick_up
from stitchproof.plans.raglan import raglan
from stitchproof.plans.row_end_rate import row_end_rate
from stitchproof.plans.schedule_text import ordinal
from stitchproof.plans.taper import taper
from stitchproof.plans.two_groups import Order
from stitchproof.plans.two_rates import at_two_rates
from stitchproof.plans.yoke import yoke

MADE: dict[str, Plan | NoPlan] = {
    "in rounds": evenly_in_rounds(91, 9),
    "in rows": evenly_in_rows(74, 6),
    "two rates": at_two_rates(11, 40, step=2),
    "taper": taper(56, 44, 2, 31, before=1, after=3),
    "crown": crown(64, 8, plain=(1, 1)),
    "yoke": yoke(94, 264, shaping_rounds=6, rounds=28, first=4, every=4, larger=Order.SMALLER_FIRST),
    "raglan": raglan(108, 108, 62, 108, 37, least_sleeve=10),
    "buttonholes": buttonholes(37, 5, 2, below=3, above=2),
    "pick up": pick_up(42, whole_rate(9, 4, 2, row_ends=2, noun="ribs")),
    "row-end rate": row_end_rate(Fraction(16), Fraction(11)),
    "v neck": v_neck(22, Fraction(9, 4), 28),
    "round neck": round_neck(30, 14, (3, 2, 1, 1, 1), 8),
    "armhole": armhole(94, 60, 24, 8, 5),
}


def named(plan: Plan | NoPlan) -> dict[str, PartValue]:
    assert not isinstance(plan, NoPlan)
    return {part.name: part.value for part in parts(plan)}


@pytest.mark.parametrize("name", MADE)
def test_every_part_is_told_and_named_once(name: str) -> None:
    plan = MADE[name]
    assert not isinstance(plan, NoPlan)
    told = set(re.findall(r"\w+", parts_module.__doc__ or ""))
    found = parts(plan)
    assert len({part.name for part in found}) == len(found)
    for part in found:
        assert part.name in told
        assert part.noun in {"sts", "rows", "rnds", "times", "groups", "ribs", "buttons"}


def test_parts_of_two_groups() -> None:
    """91 and 9 increases: 1 of 10, 8 of 9; 90 and 9: 9 of 9 and no larger group. Worked by hand."""
    assert named(MADE["in rounds"]) == {
        "more": 10,
        "more_times": 1,
        "fewer": 9,
        "fewer_times": 8,
        "times": 9,
        "plain": 82,
        "after": 100,
    }
    alike = named(evenly_in_rounds(90, 9, DECREASE))
    assert (alike["more"], alike["more_times"], alike["fewer"], alike["fewer_times"]) == (None, None, 8, 9)
    none = named(evenly_in_rounds(90, 0))
    assert (none["fewer"], none["fewer_times"], none["after"]) == (None, None, 90)


def test_parts_of_two_rates() -> None:
    """A sleeve of 31 rounds with 6 decreases, and one rate where two are not needed. Worked by hand."""
    found = named(MADE["taper"])
    assert (found["first"], found["every"], found["more_times"]) == (5, 4, 2)
    assert (found["then_every"], found["then_more_times"], found["last"], found["even_after"]) == (5, 3, 28, 3)
    assert found["row"] == (5, 9, 13, 18, 23, 28)
    assert found["count"] == (54, 52, 50, 48, 46, 44)
    one = named(taper(62, 48, 2, 32, before=1, after=3))
    assert (one["every"], one["more_times"], one["then_every"], one["then_more_times"]) == (4, 6, None, None)


def test_parts_of_a_yoke() -> None:
    """The third of nine sizes: 170 increases in 6 rounds of 28, the last two 29. Worked by hand."""
    found = named(MADE["yoke"])
    assert found["times"] == (28, 28, 28, 28, 29, 29)
    assert found["more"] == (3, 4, 5, 6, 7, 8)
    assert found["more_times"] == (10, 10, 10, 10, 3, 3)
    assert found["fewer_times"] == (18, 18, 18, 18, 26, 26)
    assert found["after"] == (122, 150, 178, 206, 235, 264)
    assert (found["first"], found["last"], found["even_after"], found["shapings"]) == (4, 24, 4, 170)


def test_parts_of_the_rest() -> None:
    """From the sums of their own tests. Worked by hand."""
    assert named(MADE["crown"])["before"] == (6, 5, 4, 3, 2, 1, 0)
    assert named(MADE["crown"])["after"] == (56, 48, 40, 32, 24, 16, 8)
    assert named(MADE["raglan"])["sleeve_end"] == 10
    assert named(MADE["raglan"])["front_end"] == 44
    assert named(MADE["buttonholes"])["more_times"] == 2
    assert named(MADE["pick up"]) == {"picked_up": 94, "groups": 10, "left": 2, "row_ends": 84}
    assert named(MADE["row-end rate"]) == {"sts": 3, "per": 2}
    assert named(MADE["v neck"])["decs"] == 9
    assert named(MADE["round neck"])["per_side"] == 8
    assert named(MADE["armhole"])["rs_more_times"] == 3


def test_ordinals() -> None:
    """English usage, from memory."""
    numbers = (1, 2, 3, 4, 11, 12, 13, 21, 22, 23, 101, 111, 112)
    assert " ".join(map(ordinal, numbers)) == "1st 2nd 3rd 4th 11th 12th 13th 21st 22nd 23rd 101st 111th 112th"
