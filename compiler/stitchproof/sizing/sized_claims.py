"""What must hold, worked out: each claim of the designer's with its numbers per size. The rules judge them."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.values import PerSize
from stitchproof.source import Span


class Term(Struct, frozen=True):
    """One number of a claim: its formula, what it is, and its value per size."""

    formula: Formula
    kind: Kind
    values: PerSize

    def at(self, size: int) -> Fraction | None:
        """Its value in a size; None where it has none."""
        value = self.values[size]
        return value if isinstance(value, Fraction) else None

    @property
    def is_length(self) -> bool:
        return self.kind.dimension == LENGTH


class SizedAssertion(Struct, frozen=True):
    """An assertion of the designer's, judged per size: True, False, or why it cannot be judged.

    variable: the k of `for_each: k in 1 to n`, or "". failing: per size the k at which it does not hold; tried: how many k.
    bounds: the first k and the last.
    """

    formula: Formula
    holds: PerSize
    why: str
    variable: str = ""
    failing: tuple[tuple[int, ...], ...] = ()
    tried: tuple[int, ...] = ()
    bounds: tuple[Term, ...] = ()


class SizedParts(Struct, frozen=True):
    """Parts that together make a whole: all of them counts, or all lengths."""

    parts: tuple[Term, ...]
    whole: Term
    why: str


class SizedStep(Struct, frozen=True):
    """A stretch of shaping: `each` added on every so many rows, so many times."""

    every: Term
    times: Term
    each: Term


class SizedShaping(Struct, frozen=True):
    """A shaping. times: the number of changes, where no schedule is given; else `first_on` and the steps."""

    name: str
    start: Term
    end: Term
    each: Term
    times: Term | None
    first_on: Term | None
    steps: tuple[SizedStep, ...]
    within: Term | None
    ends_on: Term | None
    mirrors: str
    mirrors_span: Span
    why: str
    span: Span

    def terms(self) -> tuple[Term, ...]:
        """Every number of it, in the order in which it is read."""
        held = [self.start, self.end, self.each, self.times, self.first_on]
        held += [term for step in self.steps for term in (step.every, step.times, step.each)]
        return tuple(term for term in held if term is not None)


class SizedOpening(Struct, frozen=True):
    """A line of an opening, and the part of the body that passes through it.

    stretch: how many times its relaxed length it reaches; measured, or usual for what it is made of (`assumed`).
    """

    line: Term
    stretch: Term
    assumed: str
    over: Term
    spare: Term | None
    why: str


class SizedEase(Struct, frozen=True):
    """A finished measurement, the body's, the ease that is stated (low, high), and the least that can be worn."""

    finished: Term
    over: Term
    low: Term | None
    high: Term | None
    at_least: Term | None
    why: str


class SizedEdge(Struct, frozen=True):
    """Two edges that meet. low, high: how much shorter or longer the first may be, as a part of the second."""

    edge: Term
    meets: Term
    low: Term | None
    high: Term | None
    why: str


class SizedRatio(Struct, frozen=True):
    """One measurement against another, and the bounds of their ratio."""

    measure: Term
    against: Term
    low: Term | None
    high: Term | None
    why: str


SizedClaim = SizedAssertion | SizedParts | SizedShaping | SizedOpening | SizedEase | SizedEdge | SizedRatio


class SizedExpectation(Struct, frozen=True):
    """A named value typed by hand, what a formula gives for it, and its column in inches (exact cm), if it has them."""

    name: str
    expected: Term | None
    inches: PerSize
    inches_span: Span | None


class SizedClaims(Struct, frozen=True):
    """All claims of a pattern, form by form, each in the order written."""

    assertions: tuple[SizedAssertion, ...] = ()
    parts: tuple[SizedParts, ...] = ()
    shapings: tuple[SizedShaping, ...] = ()
    openings: tuple[SizedOpening, ...] = ()
    eases: tuple[SizedEase, ...] = ()
    edges: tuple[SizedEdge, ...] = ()
    ratios: tuple[SizedRatio, ...] = ()
    expectations: tuple[SizedExpectation, ...] = ()
