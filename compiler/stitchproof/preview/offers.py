"""The values that would work, looked for while nobody waits: a page and its findings are shown without them first."""

from __future__ import annotations

from collections.abc import Callable

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.reading.pattern_source import Header, PatternSource, TextFile
from stitchproof.sizing.changes import Changes
from stitchproof.stages import CheckOutcome, GivenUp, try_changes, with_offers

Inputs = tuple[Header, tuple[TextFile, ...], tuple[TextFile, ...]]


def as_read(outcome: CheckOutcome) -> Inputs | None:
    """The source, as it was read; None where it could not be."""
    source = outcome.sized.source if outcome.sized else None
    return (source.header, source.texts, source.shared_texts) if source else None


class Offers:
    """Completes the findings of one pattern. What was tried on a source is held as long as the source is the same."""

    def __init__(self, shown: str) -> None:
        """shown: what the folder is called in reports."""
        self.shown = shown
        self.inputs: Inputs | None = None
        self.found: dict[frozenset[object], tuple[Diagnostic, ...]] = {}

    def completed(self, outcome: CheckOutcome, give_up: Callable[[], bool]) -> CheckOutcome | None:
        """The outcome with the values that work; None where that was given up before the end. give_up: asked before each
        value that was not tried yet."""

        def tried(source: PatternSource, changes: Changes) -> tuple[Diagnostic, ...]:
            key = frozenset(changes.items())
            if key not in self.found:
                if give_up():
                    raise GivenUp
                self.found[key] = try_changes(source, changes)
            return self.found[key]

        inputs = as_read(outcome)
        if inputs and inputs != self.inputs:
            self.inputs, self.found = inputs, {}
        try:
            return with_offers(outcome, self.shown, tried)
        except GivenUp:
            return None
