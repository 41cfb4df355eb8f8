"""The drawings that pattern.yaml asks for, as written: outlines in named lengths, and what is measured on them."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.formulas.tree import Formula
from stitchproof.outlines.outline import Bend
from stitchproof.reading.pattern_source import Words
from stitchproof.source import Span


class CornerEntry(Struct, frozen=True, eq=False):
    """A corner of an outline. steps: how one gets there from the corner before it, by direction."""

    name: str
    steps: tuple[tuple[str, Formula], ...]
    bend: Bend
    span: Span


class ReadyShapeEntry(Struct, frozen=True, eq=False):
    """A ready shape (panel, tube, ring, circle) and the lengths it is made of."""

    kind: str
    lengths: tuple[tuple[str, Formula], ...]
    span: Span


class MeasureEntry(Struct, frozen=True, eq=False):
    """A line on the drawing that is lettered and measured. start, end: the corners it runs between.

    run: across, up, straight or along the outline. around: whether the piece lies double there, and half of it is seen.
    beside: where the line stands (left, right, above, below, inside), or "" where that is left to the drawing.
    """

    label: Words | None
    shows: Formula
    start: Words
    end: Words
    run: str
    around: bool
    beside: str
    span: Span


class SchematicEntry(Struct, frozen=True, eq=False):
    """One drawing. shape: its corners, or a ready shape. of: the pieces that it shows, by name. lines: corners joined by a
    thin line inside the outline."""

    name: str
    title: Words | None
    of: tuple[Words, ...]
    shape: tuple[CornerEntry, ...] | ReadyShapeEntry
    mirrored: bool
    lines: tuple[tuple[Words, Words], ...]
    measures: tuple[MeasureEntry, ...]
    span: Span
