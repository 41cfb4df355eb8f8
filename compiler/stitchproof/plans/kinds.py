"""The kinds of plans by the names and keys that pattern.yaml uses, each with what its keys take. One line per key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, Dimension
from stitchproof.plans.armhole import armhole
from stitchproof.plans.buttonholes import buttonholes
from stitchproof.plans.crown import crown
from stitchproof.plans.evenly import DECREASE, INCREASE, Ends, Shaping, evenly_in_rounds, evenly_in_rows
from stitchproof.plans.neckline import round_neck, v_neck
from stitchproof.plans.no_plan import NoPlan
from stitchproof.plans.parts import Plan
from stitchproof.plans.pick_up import edge_for, longest_edge, pick_up
from stitchproof.plans.raglan import raglan
from stitchproof.plans.row_end_rate import row_end_rate
from stitchproof.plans.taper import taper
from stitchproof.plans.two_groups import Order
from stitchproof.plans.two_rates import Place, Side, Worked, at_one_rate, at_two_rates
from stitchproof.plans.yoke import Yoke, yoke, yoke_by_shares


class Asked(Struct, frozen=True):
    """One key of a plan. to: what the plan's function calls it, where that is another word.

    fits: what the number may count. words: the words it may be instead, with what they stand for. many: a list of numbers.
    whole: whether half a stitch is no answer. names_rate: the name of a pick-up rate.
    """

    key: str
    fits: tuple[Dimension, ...] = ()
    to: str = ""
    required: bool = True
    words: Mapping[str, object] | None = None
    many: bool = False
    whole: bool = True
    names_rate: bool = False

    @property
    def argument(self) -> str:
        return self.to or self.key


class PlanKind(Struct, frozen=True):
    """A kind of plan. make: takes the keys given, by `Asked.argument`; whole numbers as int, others exact."""

    name: str
    make: Callable[..., Plan | NoPlan]
    asked: tuple[Asked, ...]


def _sts(key: str, to: str = "") -> Asked:
    return Asked(key, (STITCHES,), to)


def _rows(key: str, to: str = "") -> Asked:
    return Asked(key, (ROWS,), to)


def _times(key: str, to: str = "") -> Asked:
    return Asked(key, (PLAIN,), to)


def _if_given(asked: Asked) -> Asked:
    return Asked(asked.key, asked.fits, asked.to, False, asked.words, asked.many, asked.whole)


def _word(key: str, to: str, words: Mapping[str, object], required: bool = False) -> Asked:
    return Asked(key, (), to, required, words)


WHERE_LARGER = {"first": Order.LARGER_FIRST, "last": Order.SMALLER_FIRST, "spread": Order.SPREAD}
SHAPINGS: Mapping[str, object] = {
    "increase": INCREASE,
    "decrease": DECREASE,
    "double increase": Shaping(1, 3),
    "double decrease": Shaping(3, 1),
}
WAYS = {each.value: each for each in Ends}
WORKED = {"rows": Worked.IN_ROWS, "rounds": Worked.IN_ROUNDS}
SIDES = {"RS": Side.RS, "WS": Side.WS}
PLACES = {each.value: each for each in Place}
SLOWER = {"last": False, "first": True}
GAUGE_STITCHES, GAUGE_ROWS = STITCHES.per(LENGTH), ROWS.per(LENGTH)

_EVENLY = (_sts("from", "stitches"), _times("times"), _word("shaping", "shaping", SHAPINGS, required=True))
_LAYOUT = (
    _if_given(_rows("step")),
    _word("place", "place", PLACES),
    _if_given(_rows("before")),
    _if_given(_rows("after")),
    _word("only", "only", SIDES),
    _word("slower", "slow_first", SLOWER),
    _word("worked", "worked", WORKED),
)
_RATE = Asked("rate", names_rate=True)


def _yoke_by_shares(
    start: int, rounds: int, on: tuple[int, ...], lose: tuple[Fraction, ...], order: Order = Order.LARGER_FIRST
) -> Yoke | NoPlan:
    if len(on) != len(lose):
        return NoPlan(f"{len(on)} rounds are given and {len(lose)} shares to lose; each round has one")
    if any(not 0 < share < 1 for share in lose):
        return NoPlan("a share to lose lies between 0 % and 100 %")
    if any(later <= earlier for earlier, later in zip((0, *on), on, strict=False)):
        return NoPlan(f"the rounds {', '.join(map(str, on))} do not follow one another from 1 on")
    return yoke_by_shares(start, rounds, tuple(zip(on, lose, strict=True)), order)


_ALL = (
    PlanKind("evenly in rounds", evenly_in_rounds, (*_EVENLY, _word("larger_groups", "order", WHERE_LARGER))),
    PlanKind(
        "evenly in rows",
        evenly_in_rows,
        (*_EVENLY, _word("ends", "ends", WAYS), _word("larger_groups", "order", WHERE_LARGER)),
    ),
    PlanKind("two rates", at_two_rates, (_times("times"), _rows("rows"), *_LAYOUT)),
    PlanKind(
        "one rate",
        at_one_rate,
        (_times("times"), _rows("rows"), _rows("first"), _rows("every"), _word("worked", "worked", WORKED)),
    ),
    PlanKind(
        "taper", taper, (_sts("from", "start"), _sts("to", "end"), _sts("each", "change"), _rows("rows"), *_LAYOUT)
    ),
    PlanKind(
        "crown",
        crown,
        (
            _sts("from", "stitches"),
            _times("sections"),
            _if_given(_sts("to", "end")),
            Asked("plain", (ROWS,), required=False, many=True),
        ),
    ),
    PlanKind(
        "yoke",
        yoke,
        (
            _sts("from", "start"),
            _sts("to", "end"),
            Asked("shaping_rounds", (PLAIN, ROWS)),
            _rows("rounds"),
            _rows("first"),
            _rows("every"),
            _word("shaping", "shaping", SHAPINGS),
            _word("larger_rounds", "larger", WHERE_LARGER),
            _word("larger_groups", "order", WHERE_LARGER),
        ),
    ),
    PlanKind(
        "yoke by shares",
        _yoke_by_shares,
        (
            _sts("from", "start"),
            _rows("rounds"),
            Asked("on", (ROWS,), many=True),
            Asked("lose", (PLAIN,), many=True, whole=False),
            _word("larger_groups", "order", WHERE_LARGER),
        ),
    ),
    PlanKind(
        "raglan",
        raglan,
        (
            *(_sts(key) for key in ("front", "back", "sleeve", "neck")),
            _rows("rounds"),
            _sts("least_sleeve"),
            _if_given(_sts("least_body")),
            _if_given(_rows("before")),
            _if_given(_sts("more_skip")),
            Asked("body_doubles", (PLAIN, ROWS), required=False),
            _word("full_rounds", "full", WHERE_LARGER),
        ),
    ),
    PlanKind(
        "buttonholes",
        buttonholes,
        (
            _sts("along", "stitches"),
            _times("holes"),
            _sts("width"),
            _sts("below"),
            _sts("above"),
            _word("larger_gaps", "larger", WHERE_LARGER),
        ),
    ),
    PlanKind("pick up", pick_up, (Asked("along", (PLAIN, ROWS), "edge"), _RATE)),
    PlanKind("edge for", edge_for, (_sts("sts", "stitches"), _RATE)),
    PlanKind("longest edge", longest_edge, (_sts("sts", "stitches"), _RATE)),
    PlanKind(
        "row-end rate",
        row_end_rate,
        (
            Asked("stitches", (GAUGE_STITCHES,), "stitches_per_cm", whole=False),
            Asked("rows", (GAUGE_ROWS,), "rows_per_cm", whole=False),
            Asked("within", (PLAIN,), required=False, whole=False),
        ),
    ),
    PlanKind(
        "v neck",
        v_neck,
        (
            _sts("neck"),
            Asked("half_band", (STITCHES,), whole=False),
            _rows("rows"),
            _if_given(_rows("before")),
            _if_given(_rows("even_after")),
        ),
    ),
    PlanKind(
        "round neck", round_neck, (_sts("neck"), _sts("centre"), Asked("steps", (STITCHES,), many=True), _rows("rows"))
    ),
    PlanKind(
        "armhole",
        armhole,
        (
            _sts("width"),
            _sts("cross_back"),
            _rows("rows"),
            _sts("unworked"),
            Asked("every_row", (PLAIN, ROWS)),
            Asked("within", (PLAIN,), required=False, whole=False),
        ),
    ),
)
KINDS: Mapping[str, PlanKind] = {each.name: each for each in _ALL}
"""By name. What each names afterwards is told in `parts`."""
