"""Where the stages and checks leave their findings."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct, field

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity


class Report(Struct):
    """Collects findings; findings of one cause become one, with the sizes of all.

    names: the sizes in the pattern's order, once they are known.
    """

    names: tuple[str, ...] = ()
    _by_cause: dict[tuple[str, str, int, int], Diagnostic] = field(default_factory=dict)

    def add(self, diagnostic: Diagnostic) -> None:
        """Take a finding in; join it to one of the same code and place."""
        held = self._by_cause.get(diagnostic.cause)
        if held is None:
            # Joining a finding to itself puts its sizes in order and notices when they are all there are.
            self._by_cause[diagnostic.cause] = diagnostic.joined(diagnostic, self.names)
        else:
            self._by_cause[diagnostic.cause] = held.joined(diagnostic, self.names)

    def extend(self, diagnostics: Iterable[Diagnostic]) -> None:
        for diagnostic in diagnostics:
            self.add(diagnostic)

    def findings(self) -> tuple[Diagnostic, ...]:
        """All findings, by file, place and code."""
        return tuple(sorted(self._by_cause.values(), key=lambda found: (found.primary.span.order, found.page.code)))

    @property
    def has_errors(self) -> bool:
        return any(found.severity is Severity.ERROR for found in self._by_cause.values())


def count_words(findings: Iterable[Diagnostic], of: str) -> str:
    """The closing line of the findings: "2 errors, 1 warning in harbour_yoke"."""
    held = list(findings)
    parts = []
    for severity in Severity:
        number = sum(found.severity is severity and not found.accepted for found in held)
        if number:
            parts.append(f"{number} {severity.value}{'s' if number > 1 else ''}")
    accepted = sum(bool(found.accepted) for found in held)
    if accepted:
        parts.append(f"{accepted} accepted")
    return f"{', '.join(parts) or 'nothing found'} in {of}"
