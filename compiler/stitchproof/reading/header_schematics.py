"""The drawings of pattern.yaml: `schematics`. Read, not worked out."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.formulas.tree import Formula
from stitchproof.outlines.outline import Bend
from stitchproof.outlines.shapes import SHAPES
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.pattern_source import Words
from stitchproof.reading.schematic_entries import CornerEntry, MeasureEntry, ReadyShapeEntry, SchematicEntry
from stitchproof.reading.shape import EXAMPLES, Shape, words_of
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode
from stitchproof.source import Span

DIRECTIONS = ("right", "left", "up", "down")
RUNS = ("straight", "across", "up", "along")
PLACES = ("left", "right", "above", "below", "inside")
MOST_CORNERS = 60
BENDS = tuple(bend.value for bend in Bend if bend is not Bend.ARC)
START = "start"
"""Said of the first corner where it is the place that the drawing begins at."""


def read_schematics(top: Shape) -> Iterator[SchematicEntry]:
    """The drawings in the order written; one that has no shape (reported) is left out."""
    for key, value in top.entries("schematics"):
        shape = Shape(value, top.report, f"the schematic `{key.text}`", key.span, "schematic")
        outline = _shape(shape)
        title, of = shape.words("title"), shape.words_list("of")
        mirrored = shape.choice("mirrored", ("yes", "no"), "no") == "yes"
        lines = tuple(_lines(shape))
        measures = tuple(_measures(shape, outline))
        shape.close()
        if outline and not shape.refused:
            yield SchematicEntry(key.text, title, of, outline, mirrored, lines, measures, key.span)


def _shape(shape: Shape) -> tuple[CornerEntry, ...] | ReadyShapeEntry | None:
    """The corners or the ready shape; None where there is none, or it cannot be read (reported)."""
    if not shape.readable:
        return None
    found: list[tuple[CornerEntry, ...] | ReadyShapeEntry] = []
    for kind in SHAPES:
        lengths = shape.group(kind, f"`{kind}` of {shape.where}")
        if lengths:
            found += _ready(kind, lengths)
            shape.refused |= {kind} if lengths.refused else set()
    corners = tuple(_corners(shape))
    if corners:
        found.append(corners)
    if len(found) != 1 and not shape.refused:
        wanted = "one shape: " + ", ".join(f"`{word}`" for word in (*SHAPES, "outline"))
        shape.report.add(wrong_kind_of_value(shape.span, shape.where, wanted, EXAMPLES["schematic"]))
        shape.refused.add("outline")
    return found[0] if len(found) == 1 else None


def _ready(kind: str, lengths: Shape) -> Iterator[ReadyShapeEntry]:
    written = {key.text for key, _ in lengths.node.entries}
    choices = SHAPES[kind].keys
    keys = next((keys for keys in choices if written & (set(keys) - set(choices[-1]))), choices[-1])
    found = [(key, lengths.formula(key, required=True)) for key in keys]
    lengths.close()
    if lengths.missing:
        lengths.refused.add(kind)
    yield ReadyShapeEntry(kind, tuple((key, formula) for key, formula in found if formula), lengths.span)


def _corners(shape: Shape) -> Iterator[CornerEntry]:
    entries = list(shape.entries("outline")) if shape.take("outline") is not None else []
    if len(entries) > MOST_CORNERS:
        wanted = f"an outline of at most {MOST_CORNERS} corners"
        shape.report.add(wrong_kind_of_value(shape.span, shape.where, wanted))
        shape.refused.add("outline")
    for number, (key, value) in enumerate(entries[:MOST_CORNERS]):
        if not number and isinstance(value, Scalar) and value.text.strip() == START:
            yield CornerEntry(key.text, (), Bend.STRAIGHT, key.span)
            continue
        corner = Shape(value, shape.report, f"the corner `{key.text}`", key.span, "corner")
        found = [(way, corner.formula(way)) for way in DIRECTIONS]
        steps = tuple((way, formula) for way, formula in found if formula)
        bend = Bend(corner.choice("curve", BENDS, Bend.STRAIGHT.value))
        corner.close()
        if not steps and corner.readable and not corner.refused:
            wanted = "how far it lies from the corner before it: right, left, up or down"
            shape.report.add(wrong_kind_of_value(key.span, corner.where, wanted, EXAMPLES["corner"]))
        if not steps or corner.refused or not corner.readable:
            shape.refused.add("outline")
        yield CornerEntry(key.text, steps, bend, key.span)


def _lines(shape: Shape) -> Iterator[tuple[Words, Words]]:
    for item in shape.listing("lines"):
        ends = item.items if isinstance(item, Listing) else ()
        found = [words_of(end, shape.report) for end in ends if isinstance(end, Scalar)]
        if len(found) == len(ends) == 2:
            yield found[0], found[1]
        else:
            wanted = "the two corners that it joins"
            shape.report.add(wrong_kind_of_value(item.span, "a line", wanted, EXAMPLES["lines"]))


def _measures(shape: Shape, outline: tuple[CornerEntry, ...] | ReadyShapeEntry | None) -> Iterator[MeasureEntry]:
    """Written as a list; of a ready shape also as the words of its lengths with their labels."""
    value = shape.take("measures")
    if isinstance(value, Mapping) and isinstance(outline, ReadyShapeEntry):
        yield from _labels(value, outline, shape)
        return
    for item in shape.listing("measures"):
        measure = _measure(item, shape)
        if measure:
            yield measure


def _labels(labels: Mapping, ready: ReadyShapeEntry, shape: Shape) -> Iterator[MeasureEntry]:
    known = SHAPES[ready.kind]
    held = Shape(labels, shape.report, f"`measures` of {shape.where}", labels.span)
    for key, formula in ready.lengths:
        label = held.words(key)
        if label:
            start, end, run = known.measured[key]
            ends = (_as_words(start, label.span), _as_words(end, label.span))
            yield MeasureEntry(label, formula, *ends, run, key in known.folded, "", label.span)
    held.close()


def _as_words(name: str, span: Span) -> Words:
    return Words(name, span)


def _measure(item: YamlNode, shape: Shape) -> MeasureEntry | None:
    measure = Shape(item, shape.report, "an entry of `measures`", item.span, "measure")
    label, shows = measure.words("label", required=True), measure.formula("shows", required=True)
    start, end = measure.words("from", required=True), measure.words("to", required=True)
    run = measure.choice("run", RUNS, "straight")
    around = measure.choice("around", ("yes", "no"), "no") == "yes"
    beside = measure.choice("beside", PLACES, "")
    measure.close()
    ready: tuple[Words | None, Formula | None, Words | None] = (start, shows, end)
    if not all(ready) or start is None or end is None or shows is None:
        return None
    return MeasureEntry(label, shows, start, end, run, around, beside, item.span)
