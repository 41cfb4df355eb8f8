"""SP089 left-and-right-differ

Severity  error
Checks    two shapings that mirror each other, such as the two fronts, have the same increases and decreases on the same
          rows in every size (`mirrors` under `must_hold`).
Matters   one front hangs lower than the other, or the shoulders do not meet.
Mend      give both sides the same numbers; best, let both use the same names.
Source    common practice, no source.

Fires in M:
    counts:
      right_times: {by_hand: [9, 10], unit: times}
      left_times: {by_hand: [9, 9], unit: times}
    must_hold:
      - shaping: right neck
        from: right_times * 1 st
        to: 0 sts
        each: -1 st
        then: [{every: 2 rows, times: right_times}]
      - shaping: left neck
        from: left_times * 1 st
        to: 0 sts
        each: -1 st
        then: [{every: 2 rows, times: left_times}]
        mirrors: right neck

Fires in S, M:
    must_hold:
      - {shaping: left, from: 20 sts, to: 16 sts, each: -1 st, first_on: 1 row, then: {every: 2 rows, times: 3}, mirrors: right}
      - {shaping: right, from: 20 sts, to: 16 sts, each: -1 st, first_on: 2 rows, then: {every: 2 rows, times: 3}}

Quiet:
    must_hold:
      - {shaping: left, from: 20 sts, to: 16 sts, each: -1 st, first_on: 2 rows, then: {every: 2 rows, times: 3}, mirrors: right}
      - {shaping: right, from: 20 sts, to: 16 sts, each: -1 st, then: {every: 2 rows, times: 4}, mirrors: left}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.levers import proposals
from stitchproof.checks.shaping_sums import (
    is_off_its_total,
    is_sound,
    misses_its_last_row,
    plan_of,
    runs_past_its_rows,
    shaping_formulas,
)
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import amount_text
from stitchproof.formulas.scope import Scope
from stitchproof.measures.values import exact_text
from stitchproof.sizing.sized_claims import SizedShaping
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def sides(sized: SizedPattern, report: Report) -> None:
    """Pairs whose sides differ. A side whose own sum is wrong is reported for that."""
    for one, other in _pairs(sized.claims.shapings):
        for size in range(len(sized.sizes)):
            if any(_has_own_fault(claim, size, sized) for claim in (one, other)):
                continue
            if not _alike(one, other, sized.scope, size):
                report.add(_report(one, other, size, sized))


def _pairs(claims: tuple[SizedShaping, ...]) -> Iterator[tuple[SizedShaping, SizedShaping]]:
    named = {claim.name: claim for claim in claims}
    seen: set[frozenset[str]] = set()
    for claim in claims:
        other, pair = named.get(claim.mirrors), frozenset((claim.name, claim.mirrors))
        if other is not None and other is not claim and pair not in seen:
            seen.add(pair)
            yield claim, other


def _has_own_fault(claim: SizedShaping, size: int, sized: SizedPattern) -> bool:
    if any(judge(claim, size, sized) for judge in (is_off_its_total, runs_past_its_rows, misses_its_last_row)):
        return True
    return term_follows_from_wrong(claim.terms(), size, sized)


def _alike(one: SizedShaping, other: SizedShaping, scope: Scope, size: int) -> bool:
    """Whether both sides have the same changes on the same rows, by the values of a scope."""
    mine, theirs = plan_of(one, scope, size), plan_of(other, scope, size)
    if mine is None or theirs is None:
        return True
    return mine == theirs


def _come_out_alike(one: SizedShaping, other: SizedShaping, scope: Scope, size: int) -> bool:
    """Whether they are alike, and the sums of both are right."""
    return _alike(one, other, scope, size) and is_sound(one, scope, size) and is_sound(other, scope, size)


def _report(one: SizedShaping, other: SizedShaping, size: int, sized: SizedPattern) -> Diagnostic:
    words = f"{one.name}: {_plan_text(one, size, sized)}; {other.name}: {_plan_text(other, size, sized)}"
    return Diagnostic(
        PAGE,
        f"the {one.name} and the {other.name} are not mirror images",
        Excerpt(one.span, "this side"),
        sizes=(sized.sizes[size],),
        related=(Excerpt(other.span, "the other side"),),
        sums=(SumLine(sized.sizes[size], words),),
        proposals=proposals(
            shaping_formulas(one) + shaping_formulas(other),
            size,
            sized,
            lambda scope: _come_out_alike(one, other, scope, size),
        ),
        help=("give both sides the same numbers, or let both use the same names",),
    )


def _plan_text(claim: SizedShaping, size: int, sized: SizedPattern) -> str:
    words = []
    for number, (every, times, each) in enumerate(plan_of(claim, sized.scope, size) or ()):
        change = f"{'−' if each < 0 else '+'}{amount_text(abs(each), claim.start.kind)}"
        if not every:
            words.append(f"{change} {exact_text(times)} times")
        elif number == 0 and times == 1:
            words.append(f"{change} on row {exact_text(every)}")
        else:
            words.append(f"{change} every {_ordinal(every)}row {exact_text(times)} time{'' if times == 1 else 's'}")
    return ", ".join(words) or "no change"


def _ordinal(number: Fraction) -> str:
    if number == 1:
        return ""
    endings = {1: "st", 2: "nd", 3: "rd"}
    rest = int(number) % 100
    return f"{exact_text(number)}{'th' if 10 < rest < 20 else endings.get(rest % 10, 'th')} "


CHECKS = (sides,)
