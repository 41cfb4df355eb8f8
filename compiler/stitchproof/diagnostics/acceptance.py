"""Warnings that the designer accepts, each with a reason. Errors cannot be accepted."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.acceptance_matches_nothing import acceptance_matches_nothing
from stitchproof.diagnostics.faults.error_cannot_be_accepted import error_cannot_be_accepted
from stitchproof.diagnostics.page import Severity
from stitchproof.source import Span


class Acceptance(Struct, frozen=True):
    """A warning accepted: its code or name, the piece and row it stands in ("" for any), and why.

    covers: of one that stands in a text, the lines that it is for. about: the named value that the warning is about ("" for any).
    """

    code: str
    piece: str
    row: str
    reason: str
    span: Span
    covers: Span | None = None
    about: str = ""

    def names(self, found: Diagnostic) -> bool:
        """Whether a finding is the one that is meant."""
        wanted = self.code.strip().lower()
        if wanted not in (found.page.code.lower(), found.page.name):
            return False
        if self.covers and not _inside(found.primary.span, self.covers):
            return False
        if self.about and self.about not in (found.about, found.about.removeprefix("body.")):
            return False
        if self.piece and self.piece != found.piece:
            return False
        row = found.row.removeprefix(f"{found.piece}/")
        return not self.row or self.row.rstrip(":") in (found.row, row, row.split("/")[0])


def _inside(span: Span, outer: Span) -> bool:
    return span.file is outer.file and outer.start <= span.start <= outer.end


def with_acceptances(findings: Iterable[Diagnostic], acceptances: Iterable[Acceptance]) -> tuple[Diagnostic, ...]:
    """The findings, the accepted ones marked; and a warning for each acceptance that matches nothing any more."""
    held = list(findings)
    for acceptance in acceptances:
        matching = [index for index, found in enumerate(held) if acceptance.names(found)]
        errors = [held[index] for index in matching if held[index].severity is Severity.ERROR]
        if errors:
            held.append(error_cannot_be_accepted(acceptance.span, errors[0]))
        elif not matching:
            held.append(acceptance_matches_nothing(acceptance.span, acceptance.code))
        for index in matching:
            if held[index].severity is not Severity.ERROR:
                held[index] = replace(held[index], accepted=acceptance.reason)
    return tuple(sorted(held, key=lambda found: (found.primary.span.order, found.page.code)))
