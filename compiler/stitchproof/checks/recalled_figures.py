"""Says in a finding that a figure of a body table which it speaks of is from memory."""

from __future__ import annotations

import re

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.sizing.sized_pattern import SizedPattern

_NAMES = r"[^\W\d]\w*(?:\.[^\W\d]\w*)*"


def with_memory_notes(findings: tuple[Diagnostic, ...], sized: SizedPattern | None) -> tuple[Diagnostic, ...]:
    """The findings, each that names such a figure, or points at a formula that does, with a line of help that says so."""
    if sized is None or sized.body is None:
        return findings
    recalled = {row.name for row in sized.body.rows if not row.own and _is_recalled(row.name, sized)}
    return tuple(_noted(found, recalled, sized) for found in findings)


def _is_recalled(name: str, sized: SizedPattern) -> bool:
    """Whether the column that formulas work with is from memory."""
    quantity = sized.scope.quantities.get(name)
    return bool(quantity and quantity.published and quantity.kind.noun in quantity.published.from_memory)


def _noted(found: Diagnostic, recalled: set[str], sized: SizedPattern) -> Diagnostic:
    text = " ".join((found.headline, found.primary.span.text, *(each.span.text for each in found.related)))
    named = {sized.scope.full_name(word) for word in re.findall(_NAMES, text)} & recalled
    notes = tuple(
        f"{name} is from memory in the body table, not checked against a published one: confirm it, or give a row of your own"
        for name in sorted(named)
    )
    return replace(found, help=found.help + notes) if notes else found
