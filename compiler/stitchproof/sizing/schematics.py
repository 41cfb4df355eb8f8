"""Works the drawings out: each outline in every size, its measures bound to their corners."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from stitchproof.diagnostics.report import Report
from stitchproof.outlines.outline import Outline
from stitchproof.outlines.shapes import OTHER, SHAPES, Step, ready, walked
from stitchproof.reading.pattern_source import PatternSource, Words
from stitchproof.reading.schematic_entries import CornerEntry, MeasureEntry, ReadyShapeEntry, SchematicEntry
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.sized_claims import Term
from stitchproof.sizing.sized_pattern import PatternScope, SizedPiece
from stitchproof.sizing.sized_schematics import SizedLength, SizedMeasure, SizedSchematic
from stitchproof.sizing.terms import are_lengths, term_of
from stitchproof.source import Span

SIGNS = {"right": 1, "left": -1, "up": 1, "down": -1}


def sized_schematics(
    source: PatternSource, scope: PatternScope, pieces: tuple[SizedPiece, ...], report: Report
) -> tuple[SizedSchematic, ...]:
    """The drawings in the order written; one with a fault in its lengths or corners (reported) is left out."""
    sizer = _Drawer(scope, pieces, report)
    found = (sizer.schematic(entry) for entry in source.header.schematics)
    return tuple(each for each in found if each is not None)


class _Shape(Struct, frozen=True):
    """An outline in every size, what it is made of, and where its corners are written."""

    outlines: tuple[Outline | None, ...]
    lengths: tuple[SizedLength, ...]
    spans: dict[str, Span]


class _Drawer(Struct, frozen=True):
    scope: PatternScope
    pieces: tuple[SizedPiece, ...]
    report: Report

    def schematic(self, entry: SchematicEntry) -> SizedSchematic | None:
        of, served = self.shown(entry)
        written = entry.shape
        shape = self.ready(written) if isinstance(written, ReadyShapeEntry) else self.walk(written, entry.mirrored)
        measures = tuple(self.measures(entry))
        if shape is None or len(measures) < len(entry.measures):
            return None
        ends = [end for line in entry.lines for end in line]
        ends += [end for measure in entry.measures for end in (measure.start, measure.end)]
        known = [self.is_corner(end, shape.spans) for end in ends]
        if not all(known):
            return None
        lines = tuple((_name(start), _name(end)) for start, end in entry.lines)
        return SizedSchematic(
            entry.name,
            entry.title,
            of,
            served,
            shape.outlines,
            shape.lengths,
            shape.spans,
            lines,
            measures,
            entry.span,
        )

    def shown(self, entry: SchematicEntry) -> tuple[tuple[str, ...], tuple[int, ...]]:
        """The pieces that a drawing shows (by its own name, where it is a piece's), and the sizes that work one of them."""
        known = {piece.entry.name: piece.served for piece in self.pieces}
        for words in entry.of:
            if words.text.strip() not in known:
                self.report.add(word_not_known(words.span, "a piece of this pattern", known))
        named = [words.text.strip() for words in entry.of] or [entry.name]
        of = tuple(name for name in named if name in known)
        everyone = range(len(self.report.names))
        return of, tuple(size for size in everyone if not of or any(size in known[name] for name in of))

    def length(self, formula_term: Term | None) -> Term | None:
        """A length; None where it has a fault (reported). A written 0 is one."""
        if formula_term is None:
            return None
        return formula_term if formula_term.kind.zero or are_lengths((formula_term,), self.report) else None

    def ready(self, entry: ReadyShapeEntry) -> _Shape | None:
        found = {key: self.length(term_of(formula, self.scope, self.report)) for key, formula in entry.lengths}
        terms = {key: term for key, term in found.items() if term is not None}
        if len(terms) < len(found):
            return None
        outlines = tuple(_ready_in(entry.kind, terms, size) for size in range(len(self.report.names)))
        corners = {name for start, end, _ in SHAPES[entry.kind].measured.values() for name in (start, end)}
        return _Shape(
            outlines,
            tuple(SizedLength(term, False) for term in terms.values()),
            dict.fromkeys(sorted(corners), entry.span),
        )

    def walk(self, corners: tuple[CornerEntry, ...], mirrored: bool) -> _Shape | None:
        steps: list[tuple[CornerEntry, list[tuple[str, Term]]]] = []
        whole = True
        for corner in corners:
            found = [(way, self.length(term_of(formula, self.scope, self.report))) for way, formula in corner.steps]
            steps.append((corner, [(way, term) for way, term in found if term is not None]))
            whole = whole and len(steps[-1][1]) == len(found)
        if not whole:
            return None
        outlines = tuple(_walked_in(steps, mirrored, size) for size in range(len(self.report.names)))
        spans = {corner.name: corner.span for corner in corners}
        spans |= {OTHER + name: span for name, span in spans.items()} if mirrored else {}
        return _Shape(outlines, tuple(SizedLength(term, True) for _, terms in steps for _, term in terms), spans)

    def measures(self, entry: SchematicEntry) -> Iterator[SizedMeasure]:
        for each in entry.measures:
            term = self.length(term_of(each.shows, self.scope, self.report))
            if term is not None:
                yield _bound(each, term)

    def is_corner(self, words: Words, corners: dict[str, Span]) -> bool:
        if _name(words) in corners:
            return True
        self.report.add(word_not_known(words.span, "a corner of this drawing", corners))
        return False


def _bound(entry: MeasureEntry, term: Term) -> SizedMeasure:
    start, end = _name(entry.start), _name(entry.end)
    return SizedMeasure(entry.label, term, start, end, entry.run, entry.around, entry.beside)


def _name(words: Words) -> str:
    return " ".join(words.text.split())


def _ready_in(kind: str, terms: dict[str, Term], size: int) -> Outline | None:
    lengths = {key: float(value) for key, term in terms.items() if (value := term.at(size)) is not None}
    if len(lengths) < len(terms) or any(value <= 0 for value in lengths.values()):
        return None
    if kind == "ring" and lengths["outer"] <= lengths["inner"]:
        return None
    return ready(kind, lengths)


def _walked_in(steps: list[tuple[CornerEntry, list[tuple[str, Term]]]], mirrored: bool, size: int) -> Outline | None:
    walk = []
    for corner, terms in steps:
        moved = {"across": 0.0, "up": 0.0}
        for way, term in terms:
            value = term.at(size)
            if value is None or value < 0:
                return None
            moved["up" if way in ("up", "down") else "across"] += SIGNS[way] * float(value)
        walk.append(Step(corner.name, moved["across"], moved["up"], corner.bend))
    return walked(tuple(walk), mirrored)
