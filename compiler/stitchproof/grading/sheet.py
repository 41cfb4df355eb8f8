"""The grading sheet: one row for each named number of a pattern, one column for each size."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.tree import Amount
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.units import CM_PER_INCH, UNITS
from stitchproof.measures.values import Absent
from stitchproof.reading.pattern_source import Definition
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

NAME, UNIT, HOW, FORMULA, ROUNDING, SECTION, WHY = "Name", "Unit", "Set by", "Formula", "Rounding", "Section", "Why"
BEHIND = (HOW, FORMULA, ROUNDING, SECTION, WHY)
"""Columns behind those of the sizes."""
SIZE = "Size "
"""What a column of a size begins with, so that a size called 2 is no number."""
SHOWN_IN = ("body", "ratios", "measures", "counts")
PLACES = 6

Held = Fraction | str | None
"""A number in the row's unit, `not worked`, or None where it is not known."""


class GradeRow(Struct, frozen=True):
    """One row. unit: "" for a plain number. held: one per size. how: whether a formula gives it, or a hand.

    formula, rounding: as written, "" where there is none.
    """

    name: str
    unit: str
    held: tuple[Held, ...]
    how: str
    formula: str
    rounding: str
    section: str
    why: str


def grade_rows(sized: SizedPattern) -> tuple[GradeRow, ...]:
    """Every number that pattern.yaml names and gives, in its order. A measure typed in cm and in inches has a row for each.

    Left out are values that take a k, what only the worked rows tell, gauges, rates and the parts of plans.
    """
    definitions = {each.name: each for each in sized.source.header.definitions}
    found: list[GradeRow] = []
    for quantity in sized.quantities:
        late = quantity.name in sized.scope.late
        if quantity.section in SHOWN_IN and quantity.values and not late and not quantity.parameter:
            found += _rows(quantity, definitions.get(quantity.name.removeprefix("body.")), sized)
    return tuple(found)


def _rows(quantity: Quantity, definition: Definition | None, sized: SizedPattern) -> Iterator[GradeRow]:
    noun, size = _unit(quantity)
    held = tuple(_held(value, size) for value in quantity.values)
    yield GradeRow(
        quantity.name, noun, held, _how(definition), _formula(definition), _rounding(definition), quantity.section,
        quantity.why,
    )  # fmt: skip
    if definition and definition.inches:
        inches = tuple(
            Fraction(each.node.value) / (1 if each.node.kind.is_bare else CM_PER_INCH)
            if each and isinstance(each.node, Amount)
            else None
            for each in definition.inches.formulas
        )
        whole = inches * len(sized.sizes) if len(inches) == 1 else inches
        yield GradeRow(quantity.name, "in", whole, "by hand", "", "", quantity.section, quantity.why)


def _unit(quantity: Quantity) -> tuple[str, Fraction]:
    """The unit that values are told in, and how much of it one of the exact values is."""
    kind = quantity.kind
    if kind.dimension in (LENGTH, WEIGHT) and kind.noun in UNITS:
        return kind.noun, UNITS[kind.noun].size
    if kind.is_ratio or kind.is_bare:
        return "", Fraction(1)
    return kind.noun or kind.in_words(), Fraction(1)


def _held(value: object, unit: Fraction) -> Held:
    if isinstance(value, bool):
        return None
    if isinstance(value, Fraction):
        return value / unit
    return Absent.NOT_WORKED.value if value is Absent.NOT_WORKED else None


def _how(definition: Definition | None) -> str:
    if definition is None:
        return "body table"
    if definition.in_size:
        return f"formula; by hand in {', '.join(size.text.strip() for size, _ in definition.in_size)}"
    fixed = all(each is None or isinstance(each.node, Amount) for each in definition.formulas)
    return "by hand" if definition.by_hand or fixed else "formula"


def _formula(definition: Definition | None) -> str:
    if definition is None or definition.by_hand or not definition.formulas or definition.formulas[0] is None:
        return ""
    return "" if _how(definition) == "by hand" else " ".join(definition.formulas[0].text.split())


def _rounding(definition: Definition | None) -> str:
    if definition is None:
        return ""
    multiple = f"multiple {definition.multiple.text}" if definition.multiple else ""
    plus = f" plus {definition.plus.text}" if definition.plus and multiple else ""
    rounding = definition.rounding.text.strip() if definition.rounding else ""
    return ", ".join(part for part in (rounding, f"{multiple}{plus}") if part)


def state_of(sized: SizedPattern) -> str:
    """A short mark of what pattern.yaml and its table say, to tell whether a sheet is of an older state."""
    body = sized.source.header.body
    text = sized.source.header_file.text + (body.file.text if body and body.file else "")
    return hashlib.sha256(text.encode()).hexdigest()[:10]


def rounded(held: Held) -> Held:
    """A number as a sheet holds it: to six places."""
    return Fraction(round(held * 10**PLACES), 10**PLACES) if isinstance(held, Fraction) else held
