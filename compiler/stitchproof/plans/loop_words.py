"""What a loop over a plan counts: how many k there are, and what one of them is called."""

from __future__ import annotations

from stitchproof.plans.armhole import Armhole
from stitchproof.plans.buttonholes import Buttonholes
from stitchproof.plans.crown import Crown
from stitchproof.plans.neckline import RoundNeck, VNeck
from stitchproof.plans.parts import Plan, parts
from stitchproof.plans.raglan import Raglan
from stitchproof.plans.taper import Taper
from stitchproof.plans.two_rates import TwoRates
from stitchproof.plans.yoke import Yoke


def number_of_k(plan: Plan) -> int:
    """The largest k of a plan: its shaping rounds or rows, or its holes; 0 where it has no part that takes a k."""
    return max((len(part.value) for part in parts(plan) if isinstance(part.value, tuple)), default=0)


def loop_words(plan: Plan) -> tuple[str, ...]:
    """What one k may be called in a loop over the plan ("dec rnd"); none where the plan has no k."""
    match plan:
        case Crown() | Raglan():
            return ("dec rnd",)
        case Yoke():
            return ("inc rnd",) if plan.shaping.change > 0 else ("dec rnd",)
        case TwoRates():
            noun = plan.worked.value.removesuffix("s")
            return (f"dec {noun}", f"inc {noun}")
        case Taper():
            noun = plan.rates.worked.value.removesuffix("s")
            return (f"inc {noun}",) if plan.change > 0 else (f"dec {noun}",)
        case VNeck() | RoundNeck() | Armhole():
            return ("dec row",)
        case Buttonholes():
            return ("hole",)
        case _:
            return ()
