"""Random formulas, each with the value that a second, independent evaluation gives it: by hand, on fractions.

A formula is put together from its parts' texts, with brackets only where the table of strengths asks for them, so that a
reader with another idea of what binds more tightly finds another value.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import floor

from hypothesis import strategies as st

from stitchproof.measures.values import Absent, Value

CHOICE, OR, AND, NOT, COMPARISON, SUM, PRODUCT, SIGN, ATOM = range(9)
"""How tightly each binds, loosest first."""


class DividesByZero:
    """What a formula comes to that divides by zero on its way."""

    def __repr__(self) -> str:
        return "divides by zero"


ZERO = DividesByZero()
Outcome = Value | DividesByZero


@dataclass(frozen=True, slots=True)
class Written:
    """A formula as text, how tightly its outermost part binds, and what it comes to."""

    text: str
    strength: int
    outcome: Outcome

    def at(self, strength: int) -> str:
        """The text for a place that asks for this strength."""
        return self.text if self.strength >= strength else f"({self.text})"


def _together(outcomes: list[Outcome], work: Callable[[list[Fraction]], Outcome]) -> Outcome:
    """Zero division before anything else; then unknown; then not worked; else the work done on numbers."""
    if any(outcome is ZERO for outcome in outcomes):
        return ZERO
    for absent in (Absent.UNKNOWN, Absent.NOT_WORKED):
        if any(outcome is absent for outcome in outcomes):
            return absent
    return work([outcome for outcome in outcomes if isinstance(outcome, Fraction)])


def _sum(sign: str, left: Written, right: Written) -> Written:
    outcome = _together([left.outcome, right.outcome], lambda n: n[0] + n[1] if sign == "+" else n[0] - n[1])
    return Written(f"{left.at(SUM)} {sign} {right.at(PRODUCT)}", SUM, outcome)


def _product(sign: str, left: Written, right: Written) -> Written:
    def work(n: list[Fraction]) -> Outcome:
        if sign in "*×":
            return n[0] * n[1]
        return n[0] / n[1] if n[1] else ZERO

    return Written(f"{left.at(PRODUCT)}{sign}{right.at(SIGN)}", PRODUCT, _together([left.outcome, right.outcome], work))


def _negative(sign: str, operand: Written) -> Written:
    return Written(f"{sign}{operand.at(SIGN)}", SIGN, _together([operand.outcome], lambda n: -n[0]))


def _function(name: str, arguments: list[Written]) -> Written:
    work: dict[str, Callable[[list[Fraction]], Outcome]] = {
        "min": lambda n: sorted(n)[0],
        "max": lambda n: sorted(n)[-1],
        "abs": lambda n: n[0] if n[0] >= 0 else -n[0],
        "nearest": lambda n: Fraction(floor(n[0] + Fraction(1, 2))),
        "down": lambda n: Fraction(floor(n[0])),
        "up": lambda n: Fraction(-floor(-n[0])),
    }
    text = ", ".join(argument.text for argument in arguments)
    return Written(f"{name}({text})", ATOM, _together([each.outcome for each in arguments], work[name]))


def _choice(value: Written, test: Written, otherwise: Written) -> Written:
    taken = test.outcome
    if isinstance(taken, bool):
        taken = value.outcome if taken else otherwise.outcome
    return Written(f"{value.at(OR)} if {test.at(OR)} else {otherwise.at(CHOICE)}", CHOICE, taken)


COMPARED: dict[str, Callable[[Fraction], bool]] = {
    "<": lambda difference: difference < 0,
    "<=": lambda difference: difference <= 0,
    "≤": lambda difference: difference <= 0,
    ">": lambda difference: difference > 0,
    ">=": lambda difference: difference >= 0,
    "≥": lambda difference: difference >= 0,
    "=": lambda difference: not difference,
    "==": lambda difference: not difference,
    "!=": lambda difference: bool(difference),
    "≠": lambda difference: bool(difference),
}


def _comparison(sign: str, left: Written, right: Written) -> Written:
    outcome = _together([left.outcome, right.outcome], lambda n: COMPARED[sign](n[0] - n[1]))
    return Written(f"{left.at(SUM)} {sign} {right.at(SUM)}", COMPARISON, outcome)


def _logic(word: str, left: Written, right: Written) -> Written:
    decided = left.outcome is (word == "or") or not isinstance(left.outcome, bool)
    strength = OR if word == "or" else AND
    text = f"{left.at(strength)} {word} {right.at(strength + 1)}"
    return Written(text, strength, left.outcome if decided else right.outcome)


def _inverse(operand: Written) -> Written:
    outcome = not operand.outcome if isinstance(operand.outcome, bool) else operand.outcome
    return Written(f"not {operand.at(COMPARISON)}", NOT, outcome)


decimals = st.integers(0, 20_000).map(lambda n: f"{n // 100}.{n % 100:02d}") | st.integers(0, 200).map(str)
FACTORS = {
    "": {"": Fraction(1), "%": Fraction(1, 100)},
    "sts": {" sts": Fraction(1), " st": Fraction(1)},
    "cm": {" cm": Fraction(1), " in": Fraction(254, 100), " m": Fraction(100), " mm": Fraction(1, 10)},
}
NAMED: dict[str, dict[str, Value]] = {
    "": {},
    "sts": {"hat_sts": Fraction(64), "brim.sts": Fraction(8)},
    "cm": {"width": Fraction(40)},
}
ABSENT: dict[str, Value] = {"not_worked_sts": Absent.NOT_WORKED, "unknown_sts": Absent.UNKNOWN}


@cache
def _amounts(unit: str, absent: bool) -> st.SearchStrategy[Written]:
    def amount(number: str, suffix: str) -> Written:
        return Written(f"{number}{suffix}", ATOM, Fraction(number) * FACTORS[unit][suffix])

    written = st.builds(amount, decimals, st.sampled_from(sorted(FACTORS[unit])))
    named = {**NAMED[unit], **(ABSENT if absent else {})}
    return (
        written | st.sampled_from([Written(name, ATOM, value) for name, value in named.items()]) if named else written
    )


@cache  # a strategy is checked when it is first drawn from; most of the time went into checking the same ones
@st.composite
def truths(draw: st.DrawFn, unit: str, depth: int = 2, absent: bool = False) -> Written:
    """A test on formulas of one dimension."""
    form = draw(st.sampled_from(["compare", "logic", "not"])) if depth else "compare"
    if form == "compare":
        inner = formulas(unit, depth, absent)
        return _comparison(draw(st.sampled_from(sorted(COMPARED))), draw(inner), draw(inner))
    inner_test = truths(unit, depth - 1, absent)
    if form == "not":
        return _inverse(draw(inner_test))
    return _logic(draw(st.sampled_from(["and", "or"])), draw(inner_test), draw(inner_test))


@cache
@st.composite
def formulas(draw: st.DrawFn, unit: str, depth: int = 3, absent: bool = False) -> Written:
    """A formula of one dimension: "" plain, "sts", "cm". absent: stitches that are not worked, or unknown, among them."""
    form = draw(st.sampled_from(["amount", "sum", "product", "sign", "least", "one", "choice"])) if depth else "amount"
    if form == "amount":
        return draw(_amounts(unit, absent))
    inner = formulas(unit, depth - 1, absent)
    if form == "sum":
        return _sum(draw(st.sampled_from("+-")), draw(inner), draw(inner))
    if form == "product":
        return _product(draw(st.sampled_from("*/×÷")), draw(inner), draw(formulas("", depth - 1)))
    if form == "sign":
        return _negative(draw(st.sampled_from("-−")), draw(inner))
    if form == "least":
        return _function(draw(st.sampled_from(["min", "max"])), draw(st.lists(inner, min_size=2, max_size=3)))
    if form == "one":
        return _function(draw(st.sampled_from(["abs", "nearest", "up", "down"])), [draw(inner)])
    return _choice(draw(inner), draw(truths(unit, 1, absent)), draw(inner))
