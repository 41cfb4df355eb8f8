"""Tries the values that the checks propose, and offers those that work: an offered value is a promise."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Alternative, Diagnostic, Proposal
from stitchproof.diagnostics.page import Severity

Trial = Callable[[Mapping[str | tuple[str, int | None], str]], tuple[Diagnostic, ...]]
"""Checks the pattern with some values changed, and gives the findings."""
MOST_TRIED = 24
"""Names whose proposals are tried in one run; each takes up to six further checks."""
MOST_WITH_ROWS = 12
"""Checks with the rows in one run; a value that none is left for is offered as its numbers alone bear it out."""
Cause = tuple[str, str, int, int]


class _Outcome(Struct, frozen=True):
    """What became of one proposal on one side: whether a value works, and which; or what the nearest one would bring, "" for
    nothing new."""

    value: Fraction | None
    works: bool = False
    brings: str = ""


class _Refused(Struct, frozen=True):
    """A value that is left out."""

    proposal: Proposal
    value: Fraction
    brings: str


def with_alternatives(findings: tuple[Diagnostic, ...], names: tuple[str, ...], trial: Trial) -> tuple[Diagnostic, ...]:
    """The findings, each with the nearest values on either side that take it away and bring no other fault.

    Where a finding proposes values for several names, each name is tried by itself.
    """
    before = _by_size(findings, names)
    tried = 0
    done = []
    for found in findings:
        if found.proposals and tried < MOST_TRIED:
            tried += len({proposal.name for proposal in found.proposals})
            found = _with_offers(found, names, before, trial)
        done.append(replace(found, proposals=()))
    return tuple(done)


def borne_out_by_rows(findings: tuple[Diagnostic, ...], names: tuple[str, ...], trial: Trial) -> tuple[Diagnostic, ...]:
    """The findings without those values of counts with which a row no longer comes out.

    The rows hold a count against others ("half" twice against the whole, a round against the edge that it is picked up from), and
    its own rule asks only that it is whole, or a multiple. trial: works the rows too.
    """
    before = _by_size(findings, names)
    tried = 0
    done = []
    for found in findings:
        offers = tuple(each for each in found.alternatives if each.by_rows)
        rounds = max((sum(each.size == size for each in offers) for size in names), default=0)
        if rounds and tried + rounds <= MOST_WITH_ROWS:
            tried += rounds
            found = _borne_out(found, _brought(offers, names, before, trial))
        done.append(found)
    return tuple(done)


def _borne_out(found: Diagnostic, brought: dict[Alternative, str]) -> Diagnostic:
    """A finding without the values that bring errors."""
    left = tuple(each for each in found.alternatives if not brought.get(each))
    told = tuple(f"{each.size}  {each.value} would bring {words}" for each, words in brought.items() if words)
    instead = next((each.if_none for each in brought if each.if_none), "")
    return replace(
        found,
        alternatives=left,
        left_out=(*found.left_out, *told),
        help=found.help if left or not instead else (instead,),
    )


def _brought(
    offers: tuple[Alternative, ...], names: tuple[str, ...], before: set[tuple[Cause, str]], trial: Trial
) -> dict[Alternative, str]:
    """The errors that each value brings in its size, "" for none; one trial for the first of every size, one for the second.

    What is only not proved now was not worked before.
    """
    brought = {}
    waiting = list(offers)
    while waiting:
        now = {each.size: each for each in reversed(waiting)}
        waiting = [each for each in waiting if each is not now[each.size]]
        tried = trial({(each.name, names.index(size)): each.written for size, each in now.items()})
        after = tuple(each for each in tried if each.severity is Severity.ERROR)
        new = _by_size(after, names) - before
        for size, offer in now.items():
            codes = {cause[0] for cause, name in new if name == size}
            told = dict.fromkeys(f"{each.page.code} {each.page.name}" for each in after if each.page.code in codes)
            brought[offer] = ", ".join(told)
    return {each: brought[each] for each in offers}


def _with_offers(found: Diagnostic, names: tuple[str, ...], before: set[tuple[Cause, str]], trial: Trial) -> Diagnostic:
    offers: list[tuple[int, Alternative]] = []
    refused: list[_Refused] = []
    # Values of one name are tried in all sizes at once; those of another would get in their way.
    for changed in dict.fromkeys(proposal.name for proposal in found.proposals):
        proposals = tuple(proposal for proposal in found.proposals if proposal.name == changed)
        below = _side(found, proposals, "below", names, before, trial)
        above = _side(found, proposals, "above", names, before, trial)
        for proposal in proposals:
            size = names[proposal.size]
            for outcome in (below[proposal.size], above[proposal.size]):
                if outcome.value is None:
                    continue
                if not outcome.works:
                    refused.append(_Refused(proposal, outcome.value, outcome.brings))
                    continue
                change = (outcome.value - proposal.now) * proposal.cm_per_unit if proposal.cm_per_unit else None
                words, written = proposal.in_words(outcome.value), _written(outcome.value, proposal)
                offer = Alternative(size, words, change, proposal.name, written, proposal.by_rows, proposal.if_none)
                offers.append((proposal.size, offer))
    return replace(
        found,
        alternatives=tuple(offer for _, offer in sorted(offers, key=lambda each: each[0])),
        left_out=_left_out(refused, names),
    )


def _left_out(refused: list[_Refused], names: tuple[str, ...]) -> tuple[str, ...]:
    """What is left out and why. Values of one name that would bring the same are told together, in the order of the sizes."""
    alike: dict[tuple[str, str, str], list[_Refused]] = {}
    for each in sorted(refused, key=lambda each: each.proposal.size):
        alike.setdefault((each.proposal.name, each.proposal.said, each.brings), []).append(each)
    lines = []
    for (_, said, brings), values in alike.items():
        first = values[0]
        if len(values) == 1:
            lines.append(f"{names[first.proposal.size]}  {first.proposal.in_words(first.value)} would bring {brings}")
            continue
        by_size: dict[int, list[str]] = {}
        for each in values:
            by_size.setdefault(each.proposal.size, []).append(replace(each.proposal, said="").in_words(each.value))
        told = "; ".join(f"{names[size]} {_or(words)}" for size, words in by_size.items())
        lines.append(f"{said or 'these'} would bring {brings}: {told}")
    return tuple(lines)


def _or(words: list[str]) -> str:
    """ "64 or 72 sts": the unit once."""
    *others, last = words
    unit = last.partition(" ")[2]
    return " or ".join([*(each.removesuffix(f" {unit}") for each in others), last])


def _side(
    found: Diagnostic,
    proposals: tuple[Proposal, ...],
    side: str,
    names: tuple[str, ...],
    before: set[tuple[Cause, str]],
    trial: Trial,
) -> dict[int, _Outcome]:
    """Per size, the first value on one side that works. Sizes are independent, so one trial serves all of them."""
    outcomes = {proposal.size: _Outcome(None) for proposal in proposals}
    waiting = {proposal.size: proposal for proposal in proposals}
    for rank in range(max(len(_values(proposal, side)) for proposal in proposals)):
        now = {size: proposal for size, proposal in waiting.items() if rank < len(_values(proposal, side))}
        if not now:
            break
        changes: dict[str | tuple[str, int | None], str] = {
            (proposal.name, size): _written(_values(proposal, side)[rank], proposal) for size, proposal in now.items()
        }
        after = trial(changes)
        new = _by_size(after, names) - before
        for size, proposal in now.items():
            value = _values(proposal, side)[rank]
            still = (found.cause, names[size]) in _by_size(after, names)
            broken = sorted({cause[0] for cause, name in new if name == names[size]})
            if not still and not broken:
                outcomes[size] = _Outcome(value, works=True)
                del waiting[size]
            elif not outcomes[size].brings and broken:
                named = dict.fromkeys(
                    f"{each.page.code} {each.page.name}" for each in after if each.page.code in broken
                )
                outcomes[size] = _Outcome(value, brings=", ".join(named))
    return outcomes


def _values(proposal: Proposal, side: str) -> tuple[Fraction, ...]:
    return proposal.below if side == "below" else proposal.above


def _written(value: Fraction, proposal: Proposal) -> str:
    return (
        f"{value} {proposal.noun}".strip()
        if value.denominator == 1
        else f"({value.numerator} {proposal.noun}) / {value.denominator}"
    )


def _by_size(findings: tuple[Diagnostic, ...], names: tuple[str, ...]) -> set[tuple[Cause, str]]:
    return {(found.cause, size) for found in findings for size in (found.sizes or names)}
