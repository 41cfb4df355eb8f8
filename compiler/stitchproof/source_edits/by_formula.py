"""Whether a value that is asked for is the one that the formula gives anyway."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.size_names import size_index
from stitchproof.measures.values import Absent
from stitchproof.reading.pattern_source import Definition, PatternSource
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern


def follows_its_formula(name: str, size: int, text: str, sized: SizedPattern) -> bool:
    """name: in full. text: what the value is to be in the size, as a formula."""
    source = sized.source
    set_to = size_pattern(source, Report(sized.sizes), {(name, size): text}).scope.quantities.get(name)
    given = size_pattern(_without(source, name, size), Report(sized.sizes)).scope.quantities.get(name)
    if set_to is None or given is None or not set_to.values or not given.values:
        return False
    value = set_to.values[size]
    return value is not Absent.UNKNOWN and value == given.values[size]


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
