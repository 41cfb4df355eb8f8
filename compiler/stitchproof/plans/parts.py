"""The parts of a plan by the names that formulas use, each with its value and its noun.

A value is one whole number; a tuple holds one value for each shaping round, row or hole k, counted from 1; None is what
this size does not work (a rate or a group it has no need of), and prints as a dash.

Two groups (evenly in rounds or rows, each yoke round, buttonholes)
    more, more_times      stitches in each larger group, and how many there are
    fewer, fewer_times    the same of the smaller groups; where all are alike they are these
Evenly in rounds and rows
    times, plain, after   how many shapings; stitches left plain; stitches afterwards
    first_edge, last_edge rows only: plain stitches at the two ends
Two rates (also a taper and a V)
    times, first, last    shaping rows in all; the first and the last of them
    row(k)                the row of the k-th shaping
    every, every_times    the first rate and how many intervals it has: "every 2nd row 3 times"
    more_times            shaping rows at it after the first one: "on row 1, then every 2nd row 3 more times"
    then_every, then_times, then_more_times   the same of the second rate
    even_after            plain rows after the last shaping row
    rows_if_on_next, rows_if_after_plain      rows used if the first shaping is on the next row, or after plain rows
Taper                     change; count(k): stitches after the k-th shaping row
Crown                     dec_rounds; rounds, the plain ones between with them; end; before(k), after(k), round(k)
Yoke                      shapings, shaping_rounds, first, last, even_after; round(k), times(k), more(k), more_times(k),
                          fewer(k), fewer_times(k), after(k)
Raglan                    joined; body_decs, sleeve_decs, full, body_only, sleeve_only, plain: rounds; body_round(k),
                          sleeve_round(k); front_end, back_end, sleeve_end
Buttonholes               holes, width, below, above, free; start(k): first stitch of hole k
Pick-up                   picked_up, groups, left (rows or ribs beyond whole groups), row_ends
Row-end rate              sts, per
V neck, round neck        decs and the parts of two rates; centre, per_side, rows_used, even_after, step(k)
Armhole                   loss, unworked, every_row, rs_times, rs_more_times, last, even_after; row(k)
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from stitchproof.plans.armhole import Armhole
from stitchproof.plans.buttonholes import Buttonholes
from stitchproof.plans.crown import Crown
from stitchproof.plans.evenly import EvenRound, EvenRow
from stitchproof.plans.neckline import RoundNeck, VNeck
from stitchproof.plans.pick_up import PickUp
from stitchproof.plans.raglan import Raglan
from stitchproof.plans.row_end_rate import RowEndRate
from stitchproof.plans.taper import Taper
from stitchproof.plans.two_groups import TwoGroups
from stitchproof.plans.two_rates import TwoRates
from stitchproof.plans.yoke import Yoke

Plan = (
    EvenRound
    | EvenRow
    | TwoRates
    | Taper
    | Crown
    | Yoke
    | Raglan
    | Buttonholes
    | PickUp
    | RowEndRate
    | VNeck
    | RoundNeck
    | Armhole
)
PartValue = int | None | tuple[int | None, ...]


class Part(Struct, frozen=True):
    """A name, its value, and its noun: "sts", "rows", "rnds", "times" or another the maker counts in.

    A tuple holds one value per k, counted from 1; None is not worked.
    """

    name: str
    value: PartValue
    noun: str


def parts(plan: Plan) -> tuple[Part, ...]:
    """The parts of a plan, in the order they are told above."""
    return tuple(Part(name, value, noun) for name, value, noun in _named(plan))


Named = tuple[str, PartValue, str]


def _named(plan: Plan) -> Iterable[Named]:
    match plan:
        case EvenRound():
            return (*_groups(plan.groups), *_even(plan))
        case EvenRow():
            edges = (("first_edge", plan.first_edge, "sts"), ("last_edge", plan.last_edge, "sts"))
            return (*_groups(plan.gaps), *_even(plan), *edges)
        case TwoRates():
            return _two_rates(plan)
        case Taper():
            change = ("change", abs(plan.change), "sts")
            return (change, ("count", plan.counts, "sts"), *_two_rates(plan.rates))
        case Crown():
            return _crown(plan)
        case Yoke():
            return _yoke(plan)
        case Raglan():
            return _raglan(plan)
        case Buttonholes():
            return _buttonholes(plan)
        case PickUp():
            return _pick_up(plan)
        case RowEndRate():
            return (("sts", plan.sts, "sts"), ("per", plan.per, "rows"))
        case VNeck():
            return (("decs", plan.decs, "sts"), *_two_rates(plan.rates))
        case RoundNeck():
            return _round_neck(plan)
        case Armhole():
            return _armhole(plan)


def _groups(groups: TwoGroups) -> tuple[Named, ...]:
    return (
        ("more", groups.more if groups.more_times else None, "sts"),
        ("more_times", groups.more_times or None, "times"),
        ("fewer", groups.fewer if groups.fewer_times else None, "sts"),
        ("fewer_times", groups.fewer_times or None, "times"),
    )


def _even(plan: EvenRound | EvenRow) -> tuple[Named, ...]:
    return (("times", plan.times, "times"), ("plain", plan.plain, "sts"), ("after", plan.after, "sts"))


def _two_rates(plan: TwoRates) -> tuple[Named, ...]:
    noun = plan.worked.value
    return (
        ("times", plan.times, "times"),
        ("first", plan.on[0] if plan.on else None, noun),
        ("last", plan.on[-1] if plan.on else None, noun),
        ("row", plan.on, noun),
        ("every", plan.every or None, noun),
        ("every_times", plan.every_times or None, "times"),
        ("more_times", plan.more_times or None, "times"),
        ("then_every", plan.then_every or None, noun),
        ("then_times", plan.then_times or None, "times"),
        ("then_more_times", plan.then_more_times or None, "times"),
        ("even_after", plan.even_after, noun),
        ("rows_if_on_next", plan.rows_if_on_next, noun),
        ("rows_if_after_plain", plan.rows_if_after_plain, noun),
    )


def _crown(plan: Crown) -> tuple[Named, ...]:
    return (
        ("dec_rounds", plan.dec_rounds, "rnds"),
        ("rounds", plan.rounds, "rnds"),
        ("end", plan.end, "sts"),
        ("before", tuple(each.before for each in plan.shaped), "sts"),
        ("after", tuple(each.after for each in plan.shaped), "sts"),
        ("round", tuple(each.round for each in plan.shaped), "rnds"),
    )


def _yoke(plan: Yoke) -> tuple[Named, ...]:
    groups = [_groups(each.even.groups) for each in plan.shaped]
    by_round = tuple(
        (name, tuple(value if isinstance(value, int) else None for _, value, _ in column), noun)
        for column in zip(*groups, strict=True)
        for name, _, noun in column[:1]
    )
    return (
        ("shapings", plan.shapings, "times"),
        ("shaping_rounds", len(plan.shaped), "rnds"),
        ("first", plan.shaped[0].round if plan.shaped else None, "rnds"),
        ("last", plan.shaped[-1].round if plan.shaped else None, "rnds"),
        ("even_after", plan.even_after, "rnds"),
        ("round", tuple(each.round for each in plan.shaped), "rnds"),
        ("times", tuple(each.even.times for each in plan.shaped), "times"),
        *by_round,
        ("after", tuple(each.even.after for each in plan.shaped), "sts"),
    )


def _raglan(plan: Raglan) -> tuple[Named, ...]:
    return (
        ("joined", plan.joined, "sts"),
        ("body_decs", len(plan.body_on), "rnds"),
        ("sleeve_decs", len(plan.sleeve_on), "rnds"),
        ("full", plan.full, "rnds"),
        ("body_only", plan.body_only, "rnds"),
        ("sleeve_only", plan.sleeve_only, "rnds"),
        ("plain", plan.plain, "rnds"),
        ("body_round", plan.body_on, "rnds"),
        ("sleeve_round", plan.sleeve_on, "rnds"),
        ("front_end", plan.front - plan.body_lost, "sts"),
        ("back_end", plan.back - plan.body_lost, "sts"),
        ("sleeve_end", plan.sleeve - plan.sleeve_lost, "sts"),
    )


def _buttonholes(plan: Buttonholes) -> tuple[Named, ...]:
    return (
        *_groups(plan.gaps),
        ("holes", plan.holes, "buttons"),
        ("width", plan.width, "sts"),
        ("below", plan.below, "sts"),
        ("above", plan.above, "sts"),
        ("free", plan.free, "sts"),
        ("start", plan.starts, "sts"),
    )


def _pick_up(plan: PickUp) -> tuple[Named, ...]:
    return (
        ("picked_up", plan.picked_up, "sts"),
        ("groups", plan.groups or None, "groups"),
        ("left", plan.left or None, plan.rate.noun),
        ("row_ends", plan.row_ends, "rows"),
    )


def _round_neck(plan: RoundNeck) -> tuple[Named, ...]:
    return (
        ("centre", plan.centre, "sts"),
        ("per_side", plan.per_side, "sts"),
        ("rows_used", plan.rows_used, "rows"),
        ("even_after", plan.even_after, "rows"),
        ("step", plan.steps, "sts"),
    )


def _armhole(plan: Armhole) -> tuple[Named, ...]:
    return (
        ("loss", plan.loss, "sts"),
        ("unworked", plan.unworked, "sts"),
        ("every_row", plan.every_row or None, "times"),
        ("rs_times", plan.rs_times or None, "times"),
        ("rs_more_times", plan.rs_times - 1 if plan.rs_times > 1 else None, "times"),
        ("last", plan.last, "rows"),
        ("even_after", plan.even_after, "rows"),
        ("row", plan.on, "rows"),
    )
