"""What the formula of a value gives in a size that is set by hand beside it."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.size_names import size_index
from stitchproof.measures.values import Absent, Value
from stitchproof.reading.pattern_source import Definition, PatternSource
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern

SMALLEST = Fraction(1, 10**6)
"""A third has no end as a decimal; written out to so many places it is meant as the third."""


def value_by_formula(name: str, size: int, sized: SizedPattern) -> Value:
    """The value of a name (in full) in a size as if nothing were set by hand there; UNKNOWN where it cannot be worked out."""
    given = size_pattern(_without(sized.source, name, size), Report(sized.sizes)).scope.quantities.get(name)
    return given.values[size] if given and given.values else Absent.UNKNOWN


def follows_its_formula(name: str, size: int, text: str, sized: SizedPattern) -> bool:
    """Whether a value that is asked for is the one that the formula gives anyway. text: what it is to be, as a formula."""
    set_to = size_pattern(sized.source, Report(sized.sizes), {(name, size): text}).scope.quantities.get(name)
    if set_to is None or not set_to.values or set_to.values[size] is Absent.UNKNOWN:
        return False
    asked, given = set_to.values[size], value_by_formula(name, size, sized)
    if isinstance(asked, Fraction) and isinstance(given, Fraction):
        return abs(asked - given) * 2 <= SMALLEST
    return asked == given


def _without(source: PatternSource, name: str, size: int) -> PatternSource:
    """The pattern with the formula of a value serving a size that is set by hand now."""
    definitions = tuple(
        _freed(each, source, size) if _full(each) == name else each for each in source.header.definitions
    )
    return replace(source, header=replace(source.header, definitions=definitions))


def _freed(definition: Definition, source: PatternSource, size: int) -> Definition:
    sizes = source.header.sizes
    kept = tuple(
        each
        for each in definition.in_size
        if size_index(each[0].text.strip(), sizes.names, sizes.called_by_number) != size
    )
    return replace(definition, in_size=kept)


def _full(definition: Definition) -> str:
    return f"body.{definition.name}" if definition.section == "body" else definition.name
