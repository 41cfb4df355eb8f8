"""What is offered in place of a plan that cannot be made: it works, and nothing nearer does."""

from collections.abc import Callable
from functools import partial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.rate import whole_rate
from stitchproof.plans import no_plan
from stitchproof.plans.armhole import armhole
from stitchproof.plans.buttonholes import buttonholes
from stitchproof.plans.crown import crown
from stitchproof.plans.evenly import DECREASE, Ends, evenly_in_rounds, evenly_in_rows
from stitchproof.plans.no_plan import MOST, Nearest, NoPlan
from stitchproof.plans.pick_up import edge_for, longest_edge, pick_up
from stitchproof.plans.raglan import raglan
from stitchproof.plans.taper import taper
from stitchproof.plans.two_rates import Place, Side, at_one_rate, at_two_rates
from stitchproof.plans.yoke import yoke

MAKERS: dict[str, tuple[Callable[..., object], dict[str, tuple[int, int]]]] = {
    "evenly in rounds": (
        partial(evenly_in_rounds, shaping=DECREASE),
        {"stitches": (0, 30), "times": (0, 30)},
    ),
    "evenly in rows": (
        partial(evenly_in_rows, ends=Ends.EQUAL_HALF_GAPS),
        {"stitches": (0, 30), "times": (0, 30)},
    ),
    "two rates": (
        partial(at_two_rates, place=Place.BETWEEN, only=Side.RS),
        {"times": (0, 12), "rows": (0, 40), "step": (1, 4), "before": (0, 4), "after": (0, 9)},
    ),
    "one rate": (at_one_rate, {"times": (0, 9), "rows": (0, 40), "first": (1, 12), "every": (1, 9)}),
    "taper": (
        partial(taper, only=Side.WS),
        {"start": (1, 60), "end": (1, 60), "change": (1, 4), "rows": (0, 40), "before": (0, 4), "after": (0, 4)},
    ),
    "crown": (crown, {"stitches": (0, 99), "sections": (1, 12), "end": (0, 40)}),
    "yoke": (
        yoke,
        {
            "start": (20, 200),
            "end": (20, 200),
            "shaping_rounds": (0, 6),
            "rounds": (0, 30),
            "first": (1, 12),
            "every": (1, 6),
        },
    ),
    "raglan": (
        partial(raglan, front=40, back=42, sleeve=30, least_sleeve=6),
        {"neck": (20, 140), "rounds": (0, 20), "more_skip": (0, 6), "body_doubles": (0, 4)},
    ),
    "buttonholes": (
        buttonholes,
        {"stitches": (0, 50), "holes": (1, 9), "width": (1, 4), "below": (0, 6), "above": (0, 6)},
    ),
    "pick up": (partial(pick_up, rate=whole_rate(3, 4)), {"edge": (0, 30)}),
    "edge for": (partial(edge_for, rate=whole_rate(9, 4, 2)), {"stitches": (0, 60)}),
    "longest edge": (partial(longest_edge, rate=whole_rate(9, 4, 2)), {"stitches": (-5, 60)}),
    "armhole": (
        armhole,
        {"width": (1, 80), "cross_back": (1, 80), "rows": (1, 40), "unworked": (0, 12), "every_row": (0, 9)},
    ),
}


def fails(maker: Callable[..., object], asked: dict[str, int]) -> bool:
    """Whether there is no plan; what is near is not looked for, which saves nearly all of the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(no_plan, "REACH", 0)
        return isinstance(maker(**asked), NoPlan)


@pytest.mark.parametrize("name", MAKERS)
@settings(max_examples=120)
@given(data=st.data())
def test_what_is_offered_works_and_nothing_nearer_does(name: str, data: st.DataObject) -> None:
    maker, bounds = MAKERS[name]
    asked = {key: data.draw(st.integers(*limits), key) for key, limits in bounds.items()}
    made = maker(**asked)
    if not isinstance(made, NoPlan):
        return
    assert made.reason
    for near in made.nearest:
        assert isinstance(near.value, int)
        assert not fails(maker, {**asked, near.name: near.value}), (asked, near)
        step = 1 if near.value > asked[near.name] else -1
        for nearer in range(asked[near.name] + step, near.value, step):
            assert fails(maker, {**asked, near.name: nearer}), (asked, near, nearer)


@pytest.mark.parametrize("name", MAKERS)
@settings(max_examples=40)
@given(data=st.data())
def test_where_one_input_would_help_it_is_offered(name: str, data: st.DataObject) -> None:
    maker, bounds = MAKERS[name]
    asked = {key: data.draw(st.integers(*limits), key) for key, limits in bounds.items()}
    made = maker(**asked)
    if not isinstance(made, NoPlan):
        return
    offered = {near.name for near in made.nearest}
    for key, (low, high) in bounds.items():
        for value in range(max(low, 1), high + 1):
            if value != asked[key] and key not in offered:
                assert fails(maker, {**asked, key: value}), (asked, key, value)


@pytest.mark.parametrize("name", MAKERS)
@pytest.mark.parametrize("value", [-(10**30), -1, MOST + 1, 10**30])
def test_inputs_beyond_all_bounds_are_a_reason(name: str, value: int) -> None:
    maker, bounds = MAKERS[name]
    for key in bounds:
        made = maker(**{other: low for other, (low, _) in bounds.items()} | {key: value})
        assert isinstance(made, NoPlan)
        assert key.replace("_", " ") in made.reason
        assert all(near.name == key for near in made.nearest)


def test_a_number_below_nothing() -> None:
    """A formula that comes out below 0. Worked by hand."""
    assert evenly_in_rounds(40, -2) == NoPlan("times is −2; it cannot be below 0", (Nearest("times", 0),))
    assert evenly_in_rounds(-1, -2).reason == (  # type: ignore[union-attr]
        "stitches is −1; it cannot be below 0; times is −2; it cannot be below 0"
    )
    assert pick_up(10, whole_rate(0, 2)) == NoPlan("sts is 0; it cannot be below 1")


def test_the_largest_plans_are_made_at_once() -> None:
    """Ten thousand of everything is still a plan, and small enough to make."""
    assert not isinstance(evenly_in_rounds(MOST, MOST // 2), NoPlan)
    assert not isinstance(at_two_rates(MOST, MOST), NoPlan)
    assert not isinstance(crown(MOST, 1), NoPlan)
    assert isinstance(yoke(MOST, 1, shaping_rounds=MOST, rounds=MOST, first=1, every=1), NoPlan)
