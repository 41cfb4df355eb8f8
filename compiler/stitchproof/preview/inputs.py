"""What a designer may want to try otherwise: gauges, ease, and every other value that she typed herself."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from fractions import Fraction

from msgspec import Struct

from stitchproof.formulas.kind import amount_text
from stitchproof.formulas.tree import names_in
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source_edits.edit_source import known_names


class Group(Enum):
    """Under which heading an input stands."""

    GAUGE = "gauges"
    EASE = "ease"
    OTHER = "others"


class Input(Struct, frozen=True):
    """A value that was typed. now: what all sizes share, or "" where they differ; by_size: then the value of each."""

    name: str
    group: Group
    now: str
    by_size: tuple[str, ...]
    why: str


def inputs_of(sized: SizedPattern) -> tuple[Input, ...]:
    """Gauges first, then ease, then the others, each in the order of pattern.yaml."""
    found = list(_inputs(sized))
    return tuple(sorted(found, key=lambda each: list(Group).index(each.group)))


def _inputs(sized: SizedPattern) -> Iterator[Input]:
    for name in known_names(sized):
        quantity = sized.scope.quantities.get(name)
        if quantity is None or quantity.parameter or not quantity.values or not _typed(quantity):
            continue
        texts = tuple(amount_text(value, quantity.kind) for value in quantity.values)
        alike = len(set(texts)) == 1
        yield Input(name, _group(name), texts[0] if alike else "", () if alike else texts, quantity.why)


def _typed(quantity: Quantity) -> bool:
    """Whether its value is written, and not worked out from other names."""
    formulas = [formula for formula in quantity.formulas if formula]
    if not formulas:
        return all(isinstance(value, Fraction) for value in quantity.values) and quantity.section == "body"
    return not any(True for formula in formulas for _ in names_in(formula.node))


def _group(name: str) -> Group:
    words = name.split(".")
    if words[0] == "gauges":
        return Group.GAUGE
    return Group.EASE if any("ease" in word for word in words) else Group.OTHER
