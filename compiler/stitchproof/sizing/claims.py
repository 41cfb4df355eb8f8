"""Works out what must hold: the numbers of every claim in every size, and whether they can be held against each other."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeVar

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Amount, Formula
from stitchproof.measures.values import exact_text
from stitchproof.reading.claim_entries import (
    Assertion,
    Claim,
    EaseEntry,
    EdgeEntry,
    OpeningEntry,
    PartsEntry,
    RatioEntry,
    ShapingEntry,
)
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.sizing.assertions import sized_assertion
from stitchproof.sizing.expectations import sized_expectations
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.schedules import sized_shaping
from stitchproof.sizing.sized_claims import (
    SizedAssertion,
    SizedClaim,
    SizedClaims,
    SizedEase,
    SizedEdge,
    SizedOpening,
    SizedParts,
    SizedRatio,
    SizedShaping,
    Term,
)
from stitchproof.sizing.sized_pattern import PatternScope
from stitchproof.sizing.terms import alike, are_lengths, are_plain, term_of
from stitchproof.source import Span

USUAL_STRETCH = {"firm sc": Fraction(105, 100), "mesh": Fraction(115, 100), "rib": Fraction(135, 100)}
"""How far an edge stretches where nobody has measured it. Common practice, no source."""
LEAST_THAT_STRETCHES = "firm sc"
"""What an edge is taken for where nothing is said of it: then it stretches at least so far."""
Form = TypeVar("Form", bound=SizedClaim)


def sized_claims(source: PatternSource, scope: PatternScope, report: Report) -> SizedClaims:
    """Every claim whose numbers can be worked out; what is wrong with the others is reported."""
    entries = source.header.must_hold
    sizer = _ClaimSizer(scope, report)
    found = [claim for entry in entries if (claim := sizer.sized(entry))]
    shapings = tuple(_of(SizedShaping, found))
    _mirrors_known(entries, report)
    return SizedClaims(
        _of(SizedAssertion, found),
        _of(SizedParts, found),
        shapings,
        _of(SizedOpening, found),
        _of(SizedEase, found),
        _of(SizedEdge, found),
        _of(SizedRatio, found),
        tuple(sized_expectations(source, scope, report)),
    )


def _of(form: type[Form], found: list[SizedClaim]) -> tuple[Form, ...]:
    return tuple(claim for claim in found if isinstance(claim, form))


def _mirrors_known(entries: tuple[Claim, ...], report: Report) -> None:
    """Report a `mirrors` that names no other shaping."""
    shapings = [entry for entry in entries if isinstance(entry, ShapingEntry)]
    for entry in shapings:
        others = [each.name for each in shapings if each is not entry]
        if entry.mirrors and entry.mirrors not in others:
            report.add(word_not_known(entry.mirrors_span, "another shaping of this pattern", others))


class _ClaimSizer:
    """Works out one claim after the other; one with a fault (reported) is None."""

    def __init__(self, scope: PatternScope, report: Report) -> None:
        self.scope = scope
        self.report = report

    def sized(self, entry: Claim) -> SizedClaim | None:
        match entry:
            case Assertion():
                return sized_assertion(entry, self.scope, self.report)
            case PartsEntry():
                return self.parts(entry)
            case ShapingEntry():
                return sized_shaping(entry, self.scope, self.report)
            case OpeningEntry():
                return self.opening(entry)
            case EaseEntry():
                return self.ease(entry)
            case EdgeEntry():
                return self.edge(entry)
            case RatioEntry():
                return self.ratio(entry)

    def terms(self, *formulas: Formula | None) -> tuple[Term | None, ...] | None:
        """Numbers in every size, None for each that is not given; None for all where one has a fault (reported)."""
        found = tuple(term_of(formula, self.scope, self.report) for formula in formulas)
        return found if all(term or not formula for term, formula in zip(found, formulas, strict=True)) else None

    def parts(self, entry: PartsEntry) -> SizedParts | None:
        found = self.terms(entry.make, *entry.parts)
        if not found or not found[0] or not alike(found[0], found[1:], self.report):
            return None
        return SizedParts(tuple(part for part in found[1:] if part), found[0], entry.why)

    def opening(self, entry: OpeningEntry) -> SizedOpening | None:
        found = self.terms(entry.line, entry.stretch, entry.over, entry.spare)
        if not found:
            return None
        line, stretch, over, spare = found
        if not line or not over or not are_lengths((line, over), self.report):
            return None
        if not alike(line, (spare,), self.report) or not are_plain((stretch,), self.report):
            return None
        of = entry.of or LEAST_THAT_STRETCHES
        assumed = "" if stretch else of
        return SizedOpening(line, stretch or self.usual(of, entry.span), assumed, over, spare, entry.why)

    def usual(self, of: str, span: Span) -> Term:
        value = USUAL_STRETCH[of]
        formula = Formula(exact_text(value), Amount(value, Kind(), span), span)
        return Term(formula, Kind(), (value,) * len(self.report.names))

    def ease(self, entry: EaseEntry) -> SizedEase | None:
        found = self.terms(entry.finished, entry.over, entry.low, entry.high, entry.at_least)
        if not found:
            return None
        finished, over, low, high, at_least = found
        if not finished or not over or not are_lengths((finished, over), self.report):
            return None
        if not alike(finished, (low, high, at_least), self.report):
            return None
        return SizedEase(finished, over, low, high, at_least, entry.why)

    def edge(self, entry: EdgeEntry) -> SizedEdge | None:
        found = self.terms(entry.edge, entry.meets, entry.low, entry.high)
        if not found:
            return None
        edge, meets, low, high = found
        if not edge or not meets or not alike(edge, (meets,), self.report) or not are_plain((low, high), self.report):
            return None
        return SizedEdge(edge, meets, low, high, entry.why)

    def ratio(self, entry: RatioEntry) -> SizedRatio | None:
        found = self.terms(entry.measure, entry.against, entry.low, entry.high)
        if not found:
            return None
        measure, against, low, high = found
        if not measure or not against or not alike(measure, (against,), self.report):
            return None
        if not are_plain((low, high), self.report):
            return None
        return SizedRatio(measure, against, low, high, entry.why)
