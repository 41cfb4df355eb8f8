"""The sums of what must hold, in words: a number with the sum it comes from, and by how much two of them differ."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.sums import result_text, worked
from stitchproof.formulas.tree import Amount, Formula, Name, Node
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import on_cm_grid
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import Value, rounded_text
from stitchproof.sizing.sized_claims import Term


def side_text(node: Node, scope: Scope, size: int) -> str:
    """A number with the sum it comes from: "58 cm", "58 cm + 1 cm = 59 cm"."""
    result = result_text(node, scope, size)
    words = worked(Formula(node.span.text, node, node.span), scope, size)
    return result if isinstance(node, Name | Amount) or words == result else f"{words} = {result}"


def number_text(value: Value, kind: Kind) -> str:
    """A number with its unit; a length to two places, which is finer than anyone measures."""
    if kind.dimension != LENGTH or not isinstance(value, Fraction):
        return amount_text(value, kind)
    noun = kind.noun if kind.noun in UNITS else "cm"
    return f"{rounded_text(value / UNITS[noun].size)} {noun}"


def value_text(term: Term, size: int) -> str:
    """A number of a claim with its unit."""
    return number_text(term.values[size], term.kind)


def value_now(term: Term | None, scope: Scope, size: int) -> Fraction | None:
    """A number of a claim by the values of a scope: as they are, or with one of them tried out. None where it has none."""
    value = value_of(term.formula.node, scope, size) if term else None
    return value if isinstance(value, Fraction) else None


def too_much(difference: Fraction, kind: Kind) -> str:
    """By how much something is off: "2 sts too many", "1.5 cm too short"."""
    words = ("too long", "too short") if kind.dimension == LENGTH else ("too many", "too few")
    return f"{number_text(abs(difference), kind)} {words[0] if difference > 0 else words[1]}"


def percent_text(part: Fraction) -> str:
    """A part of one as a percentage: "+5 %", "−0.8 %"."""
    tenths = round(abs(part) * 1000)
    sign = "−" if part < 0 and tenths else "+" if tenths else "±"
    return f"{sign}{amount_text(Fraction(tenths, 10), Kind())} %"


def at_least(value: Fraction, bound: Fraction | None) -> bool:
    """Whether a length reaches a bound, exactly or as it is printed."""
    return bound is None or value >= bound or on_cm_grid(value) >= bound


def at_most(value: Fraction, bound: Fraction | None) -> bool:
    """Whether a length stays within a bound, exactly or as it is printed."""
    return bound is None or value <= bound or on_cm_grid(value) <= bound
