"""So much more than is typed: `body_rnds+=6`, `hem_to_underarm+=5 cm`, `ease-=1 cm`."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.effects.faults.change_not_understood import change_not_understood
from stitchproof.formulas.kind import Kind, amount_text
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Amount, Formula
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import Absent, Value
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import Span
from stitchproof.source_edits.asked import SetValue, read_set_value
from stitchproof.source_edits.set_values import noun_of
from stitchproof.spreadsheets.table import decimal_text


def added_to(name: Span, sign: str, value: Span, sized: SizedPattern, known: tuple[str, ...]) -> SetValue | Diagnostic:
    """The change that makes a typed number, in all sizes or in one, so much more, or less.

    A length that is added to a count of rows or stitches is told in these at its gauge, rounded to what the count keeps to.
    """
    read = read_set_value(name, value, sized, known)
    if isinstance(read, Diagnostic):
        return read
    quantity = sized.scope.quantities.get(read.name)
    formula = read_formula(value)
    amount = formula.node if isinstance(formula, Formula) and isinstance(formula.node, Amount) else None
    if quantity is None or not quantity.values or amount is None or read.k is not None or not _is_typed(quantity):
        why = f"`{name.text}` is no number, or list of numbers, that is typed"
        return change_not_understood(name, why, "change a number that is typed, or write the whole value")
    more = _in_units_of(quantity, amount)
    if more is None:
        told = amount_text(amount.value, amount.kind)
        why = f"`{quantity.name}` counts {quantity.kind.in_words()}, and no gauge tells how many {told} are"
        return change_not_understood(value, why, f"say it in {noun_of(quantity.kind)}")
    signed = more if sign == "+" else -more
    if read.size is not None:
        return SetValue(read.name, None, read.size, _text(quantity.values[read.size], signed, quantity), read.span)
    texts = [_text(held, signed, quantity) for held in quantity.values]
    whole = texts[0] if not quantity.by_hand and quantity.section != "body" else f"[{', '.join(texts)}]"
    whole = texts[0] if len(set(texts)) == 1 and not quantity.by_hand else whole
    return SetValue(read.name, None, None, whole, read.span)


def _is_typed(quantity: Quantity) -> bool:
    return all(each is not None and isinstance(each.node, Amount) for each in quantity.formulas)


def _in_units_of(quantity: Quantity, amount: Amount) -> Fraction | None:
    """How much it is in what the value counts; None where that cannot be told."""
    if amount.kind.is_bare:
        noun = noun_of(quantity.kind)
        return amount.value * (UNITS[noun].size if noun in UNITS else 1)
    if amount.kind.dimension == quantity.kind.dimension:
        return amount.value
    if amount.kind.dimension == LENGTH and quantity.cm_per_unit:
        return amount.value / quantity.cm_per_unit
    return None


def _text(held: Value, more: Fraction, quantity: Quantity) -> str:
    if not isinstance(held, Fraction):
        return Absent.NOT_WORKED.value
    kind: Kind = quantity.kind
    total = held + more
    if kind.dimension.is_count and not kind.is_ratio:
        multiple = next((each for each in quantity.multiples if each), None)
        total = round_to(total, Direction.NEAREST, multiple or Multiple())
    noun = noun_of(kind)
    size = UNITS[noun].size if noun in UNITS else Fraction(1)
    return f"{decimal_text(total / size)} {noun}".strip()
