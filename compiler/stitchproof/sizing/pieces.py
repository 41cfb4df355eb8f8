"""The pieces of a pattern: the sizes that work them, and the offset fabrics among them."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.mixed_dimensions import not_a_count
from stitchproof.measures.dimension import ROWS, STITCHES
from stitchproof.reading.pattern_source import PatternSource, PieceEntry, Words
from stitchproof.sizing.evaluated import evaluated, in_all, kind_reported
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.sized_pattern import EdgeStretch, OffsetWay, PatternScope, SizedOffsetFabric, SizedPiece

WAYS = ("rows", "joined rounds", "turned rounds", "spiral rounds")


def sized_pieces(source: PatternSource, scope: PatternScope, report: Report) -> tuple[SizedPiece, ...]:
    """The pieces in the order of pattern.yaml."""
    gauges = [gauge.name for gauge in source.header.gauges]
    found = []
    _known(source.header.sizes.sample, "a size of this pattern", source.header.sizes.names, report)
    for entry in source.header.pieces:
        if "gauges" not in source.header.unreadable:
            _known(entry.gauge, "a gauge of this pattern", gauges, report)
        _known(entry.worked, "a way of working a piece", WAYS, report)
        for words in entry.starts_from:
            others = [each.name for each in source.header.pieces if each is not entry]
            _known(words, "another piece of this pattern", others, report)
        served = size_indexes(entry.sizes, source.header.sizes.names, report)
        edge = tuple(_edge(entry, scope, report))
        found.append(SizedPiece(entry, served, _offset_fabric(entry, scope, report), edge))
    return tuple(found)


def _edge(entry: PieceEntry, scope: PatternScope, report: Report) -> Iterator[EdgeStretch]:
    """The stretches of the edge that a piece is picked up along: a number of rows is one of row-ends."""
    for formula in entry.edge:
        kind = kind_reported(formula, scope, report)
        if kind and kind.dimension not in (ROWS, STITCHES):
            report.add(in_all(not_a_count(formula.span, kind), report))
        elif kind:
            yield EdgeStretch(kind.dimension == ROWS, evaluated(formula, scope, report))


def size_indexes(written: tuple[Words, ...], names: tuple[str, ...], report: Report) -> tuple[int, ...]:
    """The indexes of sizes given by name; all of them where none is given."""
    if not written:
        return tuple(range(len(names)))
    for words in written:
        _known(words, "a size of this pattern", names, report)
    wanted = {words.text.strip() for words in written}
    return tuple(index for index, name in enumerate(names) if name in wanted)


def _known(words: Words | None, what: str, known: tuple[str, ...] | list[str], report: Report) -> None:
    if words and words.text.strip() not in known:
        report.add(word_not_known(words.span, what, known))


def _offset_fabric(entry: PieceEntry, scope: PatternScope, report: Report) -> SizedOffsetFabric | None:
    fabric = entry.offset_fabric
    if fabric is None or fabric.total is None or not fabric.worked:
        return None
    ways = {way.words: way for way in OffsetWay}
    _known(fabric.worked, "a way of working an offset fabric", tuple(ways), report)
    way = ways.get(fabric.worked.text.strip())
    kind = kind_reported(fabric.total, scope, report)
    if kind and not kind.dimension.is_count:
        report.add(in_all(not_a_count(fabric.total.span, kind), report))
        return None
    totals = evaluated(fabric.total, scope, report)
    return SizedOffsetFabric(fabric.total, totals, way, fabric.worked.span) if way else None
