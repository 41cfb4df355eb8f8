"""A stated shaping as a sum: how many changes it has, what they come to, and the row of the last one. Counting rows from 1."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from stitchproof.checks.claim_sums import value_now
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.formulas.kind import amount_text
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.tree import Formula, names_in
from stitchproof.measures.values import exact_text
from stitchproof.sizing.sized_claims import SizedShaping
from stitchproof.sizing.sized_pattern import SizedPattern

Change = tuple[Fraction, Fraction, Fraction]
"""Rows from the change before (0 where rows are not stated), how many times, and what each adds."""
NOTHING = Fraction(0)


def plan_of(claim: SizedShaping, scope: Scope, size: int) -> tuple[Change, ...] | None:
    """The changes in the order worked, by the values of a scope; None where one is not known or cannot be worked.

    Two ways to write the same rows give the same plan: what is done no times is left out, equal steps are one.
    """
    each = value_now(claim.each, scope, size)
    times, first = value_now(claim.times, scope, size), value_now(claim.first_on, scope, size)
    written: list[tuple[Fraction | None, Fraction | None, Fraction | None]] = (
        [(NOTHING, times, each)] if claim.times else []
    )
    written += [(first, Fraction(1), each)] if claim.first_on else []
    for step in claim.steps:
        written.append(
            (value_now(step.every, scope, size), value_now(step.times, scope, size), value_now(step.each, scope, size))
        )
    plan: list[Change] = []
    for rows, number, change in written:
        if rows is None or number is None or change is None or _cannot_be_worked(rows, number):
            return None
        if number and plan and plan[-1][0] == rows and plan[-1][2] == change:
            plan[-1] = (rows, plan[-1][1] + number, change)
        elif number:
            plan.append((rows, number, change))
    return tuple(plan)


def _cannot_be_worked(rows: Fraction, times: Fraction) -> bool:
    """Half a row, or less than no change: reported where the number stands."""
    return rows.denominator > 1 or times.denominator > 1 or rows.numerator < 0 or times.numerator < 0


def reaches_its_end(claim: SizedShaping, scope: Scope, size: int) -> bool:
    """end − start = the sum of all changes, by the values of a scope; True where one of them is not known."""
    plan, start, end = (
        plan_of(claim, scope, size),
        value_now(claim.start, scope, size),
        value_now(claim.end, scope, size),
    )
    return plan is None or start is None or end is None or end - start == _sum(plan)


def stays_within(claim: SizedShaping, scope: Scope, size: int) -> bool:
    """The last change falls on one of the rows there are, by the values of a scope; True where rows are not stated."""
    plan, within = plan_of(claim, scope, size), value_now(claim.within, scope, size)
    return plan is None or within is None or _last_row(plan) <= within


def ends_as_stated(claim: SizedShaping, scope: Scope, size: int) -> bool:
    """The last change falls on the row that is stated for it, by the values of a scope; True where none is."""
    plan, last = plan_of(claim, scope, size), value_now(claim.ends_on, scope, size)
    return plan is None or last is None or _last_row(plan) == last


def is_sound(claim: SizedShaping, scope: Scope, size: int) -> bool:
    """The total and the rows are right, by the values of a scope."""
    return all(judge(claim, scope, size) for judge in (reaches_its_end, stays_within, ends_as_stated))


def is_off_its_total(claim: SizedShaping, size: int, sized: SizedPattern) -> bool:
    """Whether the changes do not lead from the start to the end in a size, and no number of them is reported for itself."""
    return not reaches_its_end(claim, sized.scope, size) and not _is_caused_elsewhere(claim, size, sized)


def runs_past_its_rows(claim: SizedShaping, size: int, sized: SizedPattern) -> bool:
    """Whether the last change falls on a row that is not there, and no number of it is reported for itself."""
    return not stays_within(claim, sized.scope, size) and not _is_caused_elsewhere(claim, size, sized)


def misses_its_last_row(claim: SizedShaping, size: int, sized: SizedPattern) -> bool:
    """Whether the last change falls on another row than stated, and no number of it is reported for itself."""
    return not ends_as_stated(claim, sized.scope, size) and not _is_caused_elsewhere(claim, size, sized)


def _is_caused_elsewhere(claim: SizedShaping, size: int, sized: SizedPattern) -> bool:
    return term_follows_from_wrong((*claim.terms(), claim.within, claim.ends_on), size, sized)


def _sum(plan: tuple[Change, ...]) -> Fraction:
    return sum((number * each for _, number, each in plan), NOTHING)


def _last_row(plan: tuple[Change, ...]) -> Fraction:
    return sum((rows * number for rows, number, _ in plan), NOTHING)


def total_text(claim: SizedShaping, size: int, sized: SizedPattern) -> str:
    """The sum of the changes: "78 sts − (1 + 3 + 6) × 2 sts = 58 sts, not 56 sts"."""
    plan = plan_of(claim, sized.scope, size) or ()
    start, end, kind = claim.start.at(size) or NOTHING, claim.end.at(size) or NOTHING, claim.start.kind
    words = amount_text(start, kind)
    for each in dict.fromkeys(each for _, _, each in plan):
        times = [exact_text(number) for _, number, own in plan if own == each]
        number = times[0] if len(times) == 1 else f"({' + '.join(times)})"
        words += f" {'−' if each < 0 else '+'} {number} × {amount_text(abs(each), kind)}"
    if not plan:
        return f"{words}, without a change, is not {amount_text(end, kind)}"
    return f"{words} = {amount_text(start + _sum(plan), kind)}, not {amount_text(end, kind)}"


def changes_text(claim: SizedShaping, size: int, sized: SizedPattern) -> str:
    """How many changes there are and how many are needed: "10 changes, 11 needed"; "" where no whole number would do."""
    plan = plan_of(claim, sized.scope, size) or ()
    start, end = claim.start.at(size) or NOTHING, claim.end.at(size) or NOTHING
    eaches = {each for _, _, each in plan} or {claim.each.at(size) or NOTHING}
    needed = (end - start) / eaches.pop() if len(eaches) == 1 and NOTHING not in eaches else None
    if needed is None or needed.denominator != 1 or needed < 0:
        return ""
    number = sum((number for _, number, _ in plan), NOTHING)
    return f"{exact_text(number)} change{'' if number == 1 else 's'}, {exact_text(needed)} needed"


def rows_text(claim: SizedShaping, size: int, sized: SizedPattern) -> str:
    """The sum of the rows: "1 + 10 × 2 + 7 × 4 = row 39"; "row 1" where there is one change."""
    plan = plan_of(claim, sized.scope, size) or ()
    parts = [
        exact_text(rows) if number == 1 else f"{exact_text(number)} × {exact_text(rows)}" for rows, number, _ in plan
    ]
    row = f"row {exact_text(_last_row(plan))}"
    return f"{' + '.join(parts)} = {row}" if len(parts) > 1 or "×" in "".join(parts) else row


def fitting_rates(claim: SizedShaping, size: int) -> str:
    """How often each of two rates would have to be worked to fit the rows, the slower one as often as it can; "" where none fit.

    a + b = changes after the first; first + a × quick + b × slow ≤ rows. Common practice, no source.
    """
    within, each = claim.within.at(size) if claim.within else None, claim.each.at(size)
    rates = sorted(rate for step in claim.steps if (rate := step.every.at(size)) and step.each.at(size) == each)
    if within is None or not each or len(rates) != 2 or len(claim.steps) != 2 or not 0 < rates[0] < rates[1]:
        return ""
    first = (claim.first_on.at(size) or NOTHING) if claim.first_on else NOTHING
    changes = ((claim.end.at(size) or NOTHING) - (claim.start.at(size) or NOTHING)) / each - (
        1 if claim.first_on else 0
    )
    slower = min(changes, Fraction((within - first - rates[0] * changes) // (rates[1] - rates[0])))
    if changes.denominator > 1 or changes < 0 or slower < 0:
        return ""
    times = [(changes - slower, rates[0]), (slower, rates[1])]
    words = [f"{exact_text(number)} × {exact_text(rate)}" for number, rate in times if number]
    row = first + sum((number * rate for number, rate in times), NOTHING)
    return f"{' + '.join([exact_text(first), *words] if first else words)} = row {exact_text(row)} would fit"


def shaping_formulas(claim: SizedShaping) -> list[Formula]:
    """The formulas whose numbers can mend it: how often first, then the rows, then where it begins and ends."""
    steps = [step.times.formula for step in reversed(claim.steps)]
    counted = [term.formula for term in (claim.times, claim.first_on) if term]
    return [*counted, *steps, *(step.every.formula for step in claim.steps), claim.start.formula, claim.end.formula]


def by_schedule(claims: Iterable[SizedShaping]) -> list[tuple[SizedShaping, ...]]:
    """The shapings, those whose schedules speak of the same names together: they have the same fault."""
    groups: dict[object, list[SizedShaping]] = {}
    for claim in claims:
        groups.setdefault(_schedule_names(claim) or claim.span.order, []).append(claim)
    return [tuple(group) for group in groups.values()]


def _schedule_names(claim: SizedShaping) -> frozenset[str]:
    schedule = [claim.times, claim.first_on, *(term for step in claim.steps for term in (step.every, step.times))]
    return frozenset(node.name for term in schedule if term for node in names_in(term.formula.node))
