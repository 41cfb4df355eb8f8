"""How a named value is named from outside a formula: `body.head[Child]`, `gauges.crown.stitches`, `after_dec(3)[M]`."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.expressions import expression
from stitchproof.source import Span

_NAME = expression(r"\s*(?P<name>[^\W\d][\w.]*)(?:\((?P<k>[0-9]{1,6})\))?(?:\[\s*(?P<size>[^\[\]]*?)\s*\])?\s*")


class DottedName(Struct, frozen=True):
    """name, size: where each stands (size None for all sizes); k: of a value such as `after_dec(3)`, None for all."""

    name: Span
    k: Fraction | None
    size: Span | None


def read_dotted(span: Span) -> DottedName | None:
    """The name written at a span; None where it is none."""
    parts = _NAME.fullmatch(span.text)
    if not parts:
        return None
    size = span.part(*parts.span("size")) if parts["size"] is not None else None
    return DottedName(span.part(*parts.span("name")), Fraction(parts["k"]) if parts["k"] else None, size)
