"""A plan as one written row, in the trade's words, for one size.

"[hdc in each of next 3 sts, 2 hdc in next st] 6 times, [hdc in each of next 2 sts, 2 hdc in next st] 22 times";
"on next row, then every 4th row 4 more times".
"""

from __future__ import annotations

from msgspec import Struct

from stitchproof.plans.armhole import Armhole
from stitchproof.plans.buttonholes import Buttonholes
from stitchproof.plans.crown import Crown
from stitchproof.plans.evenly import EvenRound, EvenRow
from stitchproof.plans.neckline import RoundNeck, VNeck
from stitchproof.plans.no_plan import counted
from stitchproof.plans.parts import Plan
from stitchproof.plans.pick_up import PickUp
from stitchproof.plans.raglan import Raglan
from stitchproof.plans.row_end_rate import RowEndRate
from stitchproof.plans.schedule_text import schedule, times_words
from stitchproof.plans.taper import Taper
from stitchproof.plans.two_groups import Run, runs
from stitchproof.plans.two_rates import TwoRates, Worked
from stitchproof.plans.yoke import Yoke


class StitchWords(Struct, frozen=True):
    """plain: the stitch. shaping: one whole increase or decrease. st, sts: what is worked into ("row-end", "base ch").

    section: what rows are numbered by, as in "on V Row 1"; without it a first row 1 is "next row".
    """

    plain: str = "hdc"
    shaping: str = "2 hdc in next st"
    st: str = "st"
    sts: str = "sts"
    section: str = ""

    def in_next(self, number: int, each: int = 1) -> str:
        """`each` plain stitches into the next `number`: "hdc in each of next 3 sts", "2 sc in next row-end"."""
        stitch = self.plain if each == 1 else f"{each} {self.plain}"
        return f"{stitch} in next {self.st}" if number == 1 else f"{stitch} in each of next {number} {self.sts}"

    def skip(self, number: int) -> str:
        """Passing over the next `number`."""
        return f"sk next {self.st}" if number == 1 else f"sk next {number} {self.sts}"


def as_row(plan: Plan, words: StitchWords) -> str:
    """The plan in one row of text; of a crown or a yoke the rounds that are shaped (`rounds_text` writes those)."""
    match plan:
        case EvenRound():
            return _even_round(plan, words)
        case EvenRow():
            return _even_row(plan, words)
        case TwoRates():
            return schedule(plan.on, plan.rows, plan.worked, words.section)
        case Taper() | VNeck():
            return as_row(plan.rates, words)
        case Crown() | Yoke():
            on = tuple(each.round for each in plan.shaped)
            return schedule(on, plan.rounds, Worked.IN_ROUNDS, words.section)
        case Raglan():
            return _raglan(plan, words)
        case Buttonholes():
            return _buttonholes(plan, words)
        case PickUp():
            return _pick_up(plan, words)
        case RowEndRate():
            return f"{counted(plan.sts, 'st', 'sts')} per {counted(plan.per, 'row', 'rows')}"
        case RoundNeck():
            return _round_neck(plan)
        case Armhole():
            return _armhole(plan, words)


def rounds_text(plan: Crown | Yoke, words: StitchWords) -> tuple[str, ...]:
    """The row of each shaping round, in order."""
    return tuple(as_row(each.even, words) for each in plan.shaped)


def _even_round(plan: EvenRound, words: StitchWords) -> str:
    if not plan.times:
        return words.in_next(plan.stitches) if plan.stitches else ""
    sizes = tuple(run.size for run in plan.runs for _ in range(run.times))
    if len(plan.runs) <= 2:
        return ", ".join(_group(run, words, alone=len(plan.runs) == 1) for run in plan.runs)
    period = _period(sizes)
    inner = runs(sizes[:period])
    if period == len(sizes):
        return ", ".join(_group(run, words, alone=run.times == 1) for run in inner)
    text = ", ".join(_group(run, words, alone=run.times == 1, round_brackets=True) for run in inner)
    return f"[{text}] {times_words(len(sizes) // period)}"


def _period(sizes: tuple[int, ...]) -> int:
    """How many groups there are before the same order comes again; all of them if it does not."""
    number = len(sizes)
    return next(n for n in range(1, number + 1) if number % n == 0 and sizes == sizes[:n] * (number // n))


def _group(run: Run, words: StitchWords, alone: bool, round_brackets: bool = False) -> str:
    text = f"{words.in_next(run.size)}, {words.shaping}" if run.size else words.shaping
    if run.times == 1 and (alone or not run.size):
        return text
    return f"({text}) {times_words(run.times)}" if round_brackets else f"[{text}] {times_words(run.times)}"


def _even_row(plan: EvenRow, words: StitchWords) -> str:
    if not plan.times:
        return words.in_next(plan.stitches) if plan.stitches else ""
    gaps = [run.size for run in plan.runs for _ in range(run.times)]
    after_each = runs((*gaps, plan.last_edge))
    return ", ".join((words.in_next(plan.first_edge), *(_shaping_then(run, words) for run in after_each)))


def _shaping_then(run: Run, words: StitchWords) -> str:
    text = f"{words.shaping}, {words.in_next(run.size)}" if run.size else words.shaping
    return text if run.times == 1 else f"[{text}] {times_words(run.times)}"


def _raglan(plan: Raglan, words: StitchWords) -> str:
    body = schedule(plan.body_on, plan.rounds, Worked.IN_ROUNDS, words.section)
    sleeves = schedule(plan.sleeve_on, plan.rounds, Worked.IN_ROUNDS, words.section)
    return f"body and sleeves {body}" if body == sleeves else f"body {body}; sleeves {sleeves}"


def _buttonholes(plan: Buttonholes, words: StitchWords) -> str:
    hole = f"ch {plan.width}, {words.skip(plan.width)}"
    texts = [words.in_next(plan.below)] if plan.below else []
    for run in plan.runs:
        text = f"{hole}, {words.in_next(run.size)}"
        texts.append(text if run.times == 1 else f"[{text}] {times_words(run.times)}")
    return ", ".join((*texts, hole, *([words.in_next(plan.above)] if plan.above else [])))


def _pick_up(plan: PickUp, words: StitchWords) -> str:
    texts = []
    if plan.groups and len(plan.group) == 1:
        whole = plan.group[0]
        texts.append(_row_ends(Run(whole.size, whole.times * plan.groups), words))
    elif plan.groups:
        text = ", ".join(_row_ends(run, words) for run in plan.group)
        texts.append(text if plan.groups == 1 else f"[{text}] {times_words(plan.groups)}")
    return ", ".join((*texts, *(_row_ends(run, words) for run in plan.rest)))


def _row_ends(run: Run, words: StitchWords) -> str:
    return words.in_next(run.times, run.size) if run.size else words.skip(run.times)


def _round_neck(plan: RoundNeck) -> str:
    steps = ", ".join(f"{counted(run.size, 'st', 'sts')} {times_words(run.times)}" for run in runs(plan.steps))
    centre = f"leave centre {counted(plan.centre, 'st', 'sts')} unworked"
    return f"{centre}; at each side lose {steps}" if steps else centre


def _armhole(plan: Armhole, words: StitchWords) -> str:
    """Without a section the rows are told from the one after the unworked stitches on."""
    skipped = 0 if words.section else 1
    on = tuple(row - skipped for row in plan.on)
    return schedule(on, plan.rows - skipped, Worked.IN_ROWS, words.section)
