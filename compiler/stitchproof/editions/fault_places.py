"""Where the faults of a pattern stand on its page: in which rows, by their places in the source and the numbers they print."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.expansion.document import Document, Number, Step, blocks_of, inlines_of, steps_of
from stitchproof.formulas.tree import names_in
from stitchproof.reading.pattern_source import Definition
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import Span

NAME = re.compile(r"[^\W\d][\w.]*")


def fault_marks(places: FaultPlaces, errors: Iterable[Diagnostic]) -> dict[str, tuple[str, ...]]:
    """By identity of a step: the headlines of the faults that stand in it, or in a number that it prints."""
    marks: dict[str, tuple[str, ...]] = {}
    for found in errors:
        for identity in places.rows_of(found):
            marks[identity] = (*marks.get(identity, ()), found.full_headline)
    return marks


class FaultPlaces:
    """The rows of a document with the places they were written at and the names they print."""

    def __init__(self, document: Document, sized: SizedPattern) -> None:
        self.sized = sized
        self.rows = [
            (step.identity, [*_spans(step)], frozenset(self._printed(step)))
            for step in steps_of(tuple(blocks_of(document)))
        ]
        self.uses = self._uses()

    def rows_of(self, found: Diagnostic) -> tuple[str, ...]:
        """The identities of the rows that a fault stands in, in the order of the page."""
        span, names = found.primary.span, self._names_touched(found)
        return tuple(
            identity
            for identity, spans, printed in self.rows
            if found.row == identity or any(overlap(span, each) for each in spans) or names & printed
        )

    def _printed(self, step: Step) -> Iterable[str]:
        for inline in inlines_of(step):
            if isinstance(inline, Number):
                for name in NAME.findall(inline.written):
                    yield self.sized.scope.full_name(name)

    def _uses(self) -> Mapping[str, set[str]]:
        """What each named value is worked out from. One whose formula is at fault is no quantity; what it would have used
        stands in its definition."""
        sized = self.sized
        uses: dict[str, set[str]] = {each.name: set(each.inputs) for each in sized.quantities}
        for definition in sized.source.header.definitions:
            formulas = [formula for formula in definition.formulas if formula]
            used = {node.name for formula in formulas for node in names_in(formula.node)}
            uses.setdefault(sized.scope.full_name(definition.name), {sized.scope.full_name(each) for each in used})
        return uses

    def _names_touched(self, found: Diagnostic) -> set[str]:
        """The named values that a fault of pattern.yaml makes wrong: its own, and all that are worked out from it."""
        span, sized = found.primary.span, self.sized
        written: list[Quantity | Definition] = [*sized.quantities, *sized.source.header.definitions]
        names = {
            sized.scope.full_name(each.name)
            for each in written
            if overlap(span, each.value_span) or overlap(span, each.span)
        }
        while more := {name for name, used in self.uses.items() if names & used} - names:
            names |= more
        return names


def _spans(step: Step) -> Iterable[Span]:
    return (inline.place.span for inline in inlines_of(step) if hasattr(inline, "place"))


def overlap(one: Span, other: Span) -> bool:
    """Whether two stretches of one file have something in common."""
    return one.file is other.file and one.start < other.end and other.start < one.end
