"""The drawings of a pattern, worked out: an outline in each size, and what is measured on it."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.outlines.outline import Outline
from stitchproof.reading.pattern_source import Words
from stitchproof.sizing.sized_claims import Term
from stitchproof.source import Span


class SizedLength(Struct, frozen=True):
    """A length that an outline is made of. may_be_none: whether the outline is a shape still where it is 0."""

    term: Term
    may_be_none: bool


class SizedMeasure(Struct, frozen=True, eq=False):
    """A measure of a drawing: the number that it shows, and where it is drawn (see MeasureEntry)."""

    label: Words | None
    shows: Term
    start: str
    end: str
    run: str
    around: bool
    beside: str


class SizedSchematic(Struct, frozen=True, eq=False):
    """A drawing. of: the pieces that it shows. served: the sizes that work them.

    outlines: one per size, None where a length has no value that a side can have. lengths: what the outline is made of.
    spans: where each corner is written. lines: corners joined by a thin line.
    """

    name: str
    title: Words | None
    of: tuple[str, ...]
    served: tuple[int, ...]
    outlines: tuple[Outline | None, ...]
    lengths: tuple[SizedLength, ...]
    spans: dict[str, Span]
    lines: tuple[tuple[str, str], ...]
    measures: tuple[SizedMeasure, ...]
    span: Span
