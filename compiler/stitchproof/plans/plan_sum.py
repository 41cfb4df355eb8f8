"""How the numbers of a plan came about, as a worked sum in one size: "62 sts − 20 × 1 st = 42 plain sts; 42 = 20 × 2 + 2"."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.measures.values import exact_text, rounded_text
from stitchproof.plans.armhole import Armhole
from stitchproof.plans.buttonholes import Buttonholes
from stitchproof.plans.crown import Crown
from stitchproof.plans.evenly import EvenRound, EvenRow, Shaping
from stitchproof.plans.neckline import RoundNeck, VNeck
from stitchproof.plans.no_plan import counted, signed
from stitchproof.plans.parts import Plan
from stitchproof.plans.pick_up import PickUp
from stitchproof.plans.raglan import Raglan
from stitchproof.plans.row_end_rate import RowEndRate
from stitchproof.plans.taper import Taper
from stitchproof.plans.two_groups import TwoGroups
from stitchproof.plans.two_rates import TwoRates
from stitchproof.plans.yoke import Yoke


def plan_sum(plan: Plan) -> str:
    """The sum of a whole plan; of a crown or a yoke what all its rounds share (`round_sum` has each)."""
    match plan:
        case EvenRound():
            return _even(plan.stitches, plan.times, plan.shaping, plan.groups)
        case EvenRow():
            return _even_row(plan)
        case TwoRates():
            return _two_rates(plan)
        case Taper():
            more = f"from {plan.start} to {_sts(plan.end)} in steps of {abs(plan.change)}: {plan.rates.times} shapings"
            return f"{more}; {_two_rates(plan.rates)}"
        case Crown():
            lost = f"({plan.stitches} − {plan.end}) ÷ {plan.sections} sections = {plan.dec_rounds} dec rnds"
            plain = plan.rounds - plan.dec_rounds
            return f"{lost}; with {counted(plain, 'plain rnd', 'plain rnds')} {plan.rounds} rnds"
        case Yoke():
            return _yoke(plan)
        case Raglan():
            return _raglan(plan)
        case Buttonholes():
            return _buttonholes(plan)
        case PickUp():
            return _pick_up(plan)
        case RowEndRate():
            off = (
                f"{rounded_text(abs(plan.off) * 100)} % {'over' if plan.off > 0 else 'under'}" if plan.off else "exact"
            )
            return f"{rounded_text(plan.exact, 4)} sts per row; {plan.sts} ÷ {plan.per} is {off}"
        case VNeck():
            return f"{counted(plan.decs, 'dec', 'decs')}; {_two_rates(plan.rates)}"
        case RoundNeck():
            return (
                f"({plan.neck} − {plan.centre}) ÷ 2 = {_sts(plan.per_side)} = {' + '.join(map(str, plan.steps)) or '0'}"
            )
        case Armhole():
            return _armhole(plan)


def round_sum(plan: Plan, k: int) -> str:
    """The sum of shaping round or row k, from 1; what the whole plan shares where it has none of its own."""
    if isinstance(plan, Crown | Yoke):
        each = plan.shaped[k - 1]
        even = each.even
        return (
            f"rnd {each.round}: {_even(even.stitches, even.times, even.shaping, even.groups)}; then {_sts(even.after)}"
        )
    if isinstance(plan, Taper):
        total = _sts(plan.counts[k - 1])
        return f"{plan.start} {'+' if plan.change > 0 else '−'} {k} × {abs(plan.change)} = {total}"
    return plan_sum(plan)


def _sts(number: int) -> str:
    return counted(number, "st", "sts")


def _even(stitches: int, times: int, shaping: Shaping, groups: TwoGroups) -> str:
    if not times:
        return f"{_sts(stitches)}, nothing to shape"
    plain = stitches - times * shaping.takes
    taken = f"{_sts(stitches)} − {times} × {shaping.takes} = {plain} plain sts"
    return f"{taken}; {_shared(plain, groups, 'group')}"


def _shared(total: int, groups: TwoGroups, noun: str) -> str:
    """ "42 = 20 × 2 + 2: 2 groups of 3, 18 groups of 2"."""
    if not groups.times:
        return f"no {noun}"
    rest = f" + {groups.more_times}" if groups.more_times else ""
    larger = [f"{counted(groups.more_times, noun, f'{noun}s')} of {groups.more}"] if groups.more_times else []
    smaller = [f"{counted(groups.fewer_times, noun, f'{noun}s')} of {groups.fewer}"]
    return f"{total} = {groups.times} × {groups.fewer}{rest}: {', '.join((*larger, *smaller))}"


def _even_row(plan: EvenRow) -> str:
    if not plan.times:
        return f"{_sts(plan.stitches)}, nothing to shape"
    between = plan.plain - plan.first_edge - plan.last_edge
    taken = f"{_sts(plan.stitches)} − {plan.times} × {plan.shaping.takes} = {plan.plain} plain sts"
    edges = f"{plan.plain} − edges of {plan.first_edge} and {plan.last_edge} = {between}"
    return f"{taken}; {edges}" + (f"; {_shared(between, plan.gaps, 'gap')}" if plan.gaps.times else "")


def _two_rates(plan: TwoRates) -> str:
    noun = plan.worked.value
    if not plan.times:
        return f"nothing to shape in {plan.rows} {noun}"
    rates = [f"{n} × {every}" for n, every in ((plan.every_times, plan.every), (plan.then_times, plan.then_every)) if n]
    total = plan.every_times * plan.every + plan.then_times * plan.then_every
    spread = f"{' + '.join(rates)} = {total} {noun}, " if rates else ""
    first, last = (f"{noun[:-1]} {number}" for number in (plan.on[0], plan.on[-1]))
    where = f"on {first}" if first == last else f"from {first} to {last}"
    return f"{counted(plan.times, 'shaping', 'shapings')} in {plan.rows} {noun}: {spread}{where}"


def _yoke(plan: Yoke) -> str:
    gained = plan.end - plan.start
    words = plan.shaping.in_words(plan.shapings)
    change = f"{plan.end} − {plan.start} = {signed(gained)} sts, {words}"
    if not plan.shaped:
        return f"{change}, none to work"
    shares = [each.even.times for each in plan.shaped]
    fewest = min(shares)
    more = len(shares) * fewest
    rest = f" + {plan.shapings - more}" if plan.shapings != more else ""
    if max(shares) > fewest + 1:
        return f"{change}: {' + '.join(map(str, shares))}"
    return f"{change}; {plan.shapings} = {len(shares)} rnds × {fewest}{rest}: {', '.join(map(str, shares))}"


def _raglan(plan: Raglan) -> str:
    lost = plan.joined - plan.neck
    sections = f"{plan.joined} − {plan.neck} = {lost} sts"
    doubles = f" + {plan.body_doubles} doubled" if plan.body_doubles else ""
    share = f"4 × ({len(plan.body_on)} body{doubles} + {len(plan.sleeve_on)} sleeves)"
    return f"{sections} = {share}; {plan.full} full, {plan.body_only} body only, {plan.sleeve_only} sleeves only"


def _buttonholes(plan: Buttonholes) -> str:
    parts = f"{plan.stitches} − {plan.below} − {plan.above} − {plan.holes} × {plan.width} = {plan.free} free sts"
    return f"{parts}; {_shared(plan.free, plan.gaps, 'gap')}" if plan.gaps.times else parts


def _pick_up(plan: PickUp) -> str:
    rate = plan.rate
    noun = rate.noun if plan.edge != 1 else rate.noun.removesuffix("s")
    groups = f"{plan.edge} {noun} = {plan.groups} × {exact_text(rate.per)}" + (f" + {plan.left}" if plan.left else "")
    beyond = f" + {plan.left} × {exact_text(rate.left_over or Fraction(0))}" if plan.left else ""
    return f"{groups}; {plan.groups} × {exact_text(rate.sts)}{beyond} = {_sts(plan.picked_up)}"


def _armhole(plan: Armhole) -> str:
    half = f"({plan.width} − {plan.cross_back}) ÷ 2 = {_sts(plan.loss)}"
    return f"{half} = {plan.unworked} unworked + {plan.every_row} on every row + {plan.rs_times} on RS rows"
