"""A plan and its parts as text: the numbers it was given, the worked sum of each size, its row, and a row with slots."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.formulas.kind import amount_text
from stitchproof.formulas.sums import rate_words
from stitchproof.formulas.tree import Amount
from stitchproof.measures.values import Absent, exact_text
from stitchproof.plans.crown import Crown
from stitchproof.plans.evenly import DECREASE, EvenRound, EvenRow, Shaping
from stitchproof.plans.no_plan import NoPlan
from stitchproof.plans.parts import Plan, parts
from stitchproof.plans.pick_up import PickUp
from stitchproof.plans.plan_sum import plan_sum, round_sum
from stitchproof.plans.row_text import StitchWords, as_row, rounds_text
from stitchproof.plans.slot_text import slot_lines
from stitchproof.plans.yoke import Yoke
from stitchproof.sizing.derivation_sums import table_of_k
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.sizing.sized_plans import SizedInput, SizedPlan

USUAL_STITCH = "hdc"


def plan_text(sized: SizedPattern, plan: SizedPlan, sizes: tuple[int, ...]) -> str:
    """The plan with its rows in the sizes asked for, and at the end one row with slots for all sizes."""
    words = _words(plan, sized)
    lines = [f"{plan.name}  a plan: {plan.entry.kind}", *_facts(plan, sized, sizes), ""]
    for size in sizes:
        lines += _of_size(sized.sizes[size], plan.plans[size], words)
    made_plans = [each for each in plan.plans if not isinstance(each, NoPlan | Absent)]
    if made_plans:
        lines += ["", "as text for all sizes:", "", *slot_lines(plan.name, made_plans, words)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def part_text(sized: SizedPattern, plan: SizedPlan, part: Quantity, sizes: tuple[int, ...], k: Fraction | None) -> str:
    """A part with the sum of the plan in the sizes asked for.

    Of one that takes a k: the sums at the k asked for, else at the first k as an example, and a table of all.
    """
    name = f"{part.name}({part.parameter})" if part.by_k else part.name
    lines = [f"{name}  {part.kind.in_words()}", *_facts(plan, sized, sizes), ""]
    shown = Fraction(1) if k is None else k
    if part.by_k:
        words = "for example at" if k is None else "at"
        lines += [f"{words} {part.parameter} = {exact_text(shown)}:", ""]
    width = max(len(sized.sizes[size]) for size in sizes)
    lines += [f"{sized.sizes[size]:<{width}}  {_part_sum(part, plan, size, int(shown))}" for size in sizes]
    if part.by_k and k is None:
        ks = {size: tuple(Fraction(each) for each in range(1, plan.lengths[size] + 1)) for size in sizes}
        lines += table_of_k(part, sized, sizes, ks)
    used_by = [other.name for other in sized.quantities if part.name in other.inputs]
    if used_by:
        lines += ["", f"used by   {', '.join(used_by)}"]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _facts(plan: SizedPlan, sized: SizedPattern, sizes: tuple[int, ...]) -> Iterator[str]:
    line, column = plan.entry.span.file.line_column(plan.entry.span.start)
    facts = [("written", f"{plan.entry.span.file.path}:{line}:{column}"), ("plan", plan.entry.kind)]
    for given in plan.entry.inputs:
        rate = sized.scope.rate(given.word) if given.key == "rate" else None
        numbers = [_number(each, sizes) for each in plan.inputs if each.key == given.key]
        words = f"{given.word}  {rate_words(rate)}" if rate else given.word
        facts.append((given.key, ", ".join(numbers) if numbers else words))
    if plan.entry.why:
        facts.append(("why", " ".join(plan.entry.why.text.split())))
    width = max(len(title) for title, _ in facts)
    for title, text in facts:
        yield f"{title:<{width}}  {text}"


def _number(number: SizedInput, sizes: tuple[int, ...]) -> str:
    """What a key was given, and what that comes to in each size asked for where it was not typed as a number."""
    texts = [amount_text(number.values[size], number.kind) for size in sizes]
    shown = texts[0] if len(set(texts)) == 1 else ", ".join(texts)
    formula = next((each for each in number.formulas if each), None)
    if formula is None or isinstance(formula.node, Amount):
        return shown
    return f"{' '.join(formula.text.split())}  {shown}"


def _of_size(name: str, made: Plan | NoPlan | Absent, words: StitchWords) -> Iterator[str]:
    if isinstance(made, Absent):
        yield f"{name}  {made.value}"
    elif isinstance(made, NoPlan):
        yield f"{name}  no plan: {made.reason}"
    else:
        yield f"{name}  {plan_sum(made)}"
        indent = " " * (len(name) + 2)
        if isinstance(made, Crown | Yoke):
            numbers = {part.name: part.value for part in parts(made)}
            for k, row in enumerate(rounds_text(made, words)):
                on, after = (value[k] for value in (numbers["round"], numbers["after"]) if isinstance(value, tuple))
                yield f"{indent}rnd {on}: {row} — {after} {words.plain}"
        else:
            yield indent + as_row(made, words)


def _part_sum(part: Quantity, plan: SizedPlan, size: int, k: int) -> str:
    made = plan.plans[size]
    if isinstance(made, Absent):
        return made.value
    if isinstance(made, NoPlan):
        return f"no plan: {made.reason}"
    if not part.by_k:
        return f"{plan_sum(made)} → {amount_text(part.values[size], part.kind)}"
    values = part.by_k[size]
    if isinstance(values, Absent) or not values:
        return f"{plan_sum(made)} → not worked"
    if not 1 <= k <= len(values):
        return f"{plan_sum(made)}; {part.parameter} goes from 1 to {len(values)}"
    return f"{round_sum(made, k)} → {amount_text(values[k - 1], part.kind)}"


def _words(plan: SizedPlan, sized: SizedPattern) -> StitchWords:
    """The plain stitch that the plan states, or that of the first gauge, and the shaping made of it."""
    stated = plan.entry.stitch or next((each.stitch for each in sized.source.header.gauges), None)
    plain = stated.text.strip() if stated else ""
    plain = plain if plain.isalpha() else USUAL_STITCH
    made = next((each for each in plan.plans if not isinstance(each, NoPlan | Absent)), None)
    if isinstance(made, PickUp):
        return StitchWords(plain, st="row-end", sts="row-ends")
    shaping = _shaping(made)
    if shaping.change > 0:
        return StitchWords(plain, f"{shaping.makes} {plain} in next st")
    return StitchWords(plain, f"{plain}{shaping.takes}tog")


def _shaping(made: Plan | None) -> Shaping:
    match made:
        case EvenRound() | EvenRow() | Yoke():
            return made.shaping
        case _:
            return DECREASE
