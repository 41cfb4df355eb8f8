"""One root cause is one report: what a warning says of a number is told in the error of the row that the number spoils."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from stitchproof.checks.told_before import NAME, is_told_in, row_codes
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.expansion.document import Number, Step
from stitchproof.simulation.worked_pattern import WorkedPattern

OF_NUMBERS = ("SP054", "SP055")
"""A number typed by hand, and one that falls from a size to the next: where its row does not come out, that is why."""

OF_DRAWINGS = ("SP200", "SP201")
"""A drawing that is no shape, or whose line is not as long as it says."""


def with_one_root(findings: tuple[Diagnostic, ...], worked: WorkedPattern | None) -> tuple[Diagnostic, ...]:
    """The findings; a warning that the help of a row's error now says is left out, unless it is accepted. A drawing waits, in a
    size, for the other errors of that size."""
    findings = tuple(_of_drawings_after_numbers(findings))
    warnings = [found for found in findings if found.page.code in OF_NUMBERS and not found.accepted]
    if worked is None or not warnings:
        return findings
    said: set[int] = set()
    kept = []
    for found in findings:
        causes = [each for each in warnings if _is_cause(each, found, worked)]
        said |= {id(each) for each in causes}
        kept.append(replace(found, help=(*found.help, *(_in_help(each) for each in causes))) if causes else found)
    return tuple(found for found in kept if id(found) not in said)


def _of_drawings_after_numbers(findings: tuple[Diagnostic, ...]) -> Iterator[Diagnostic]:
    """The findings; those about drawings without the sizes that have another error. A drawing is made of the numbers."""
    wrong = {
        size
        for found in findings
        if found.severity is Severity.ERROR and found.page.code not in OF_DRAWINGS
        for size in found.sizes
    }
    for found in findings:
        left = tuple(size for size in found.sizes if size not in wrong)
        if found.page.code not in OF_DRAWINGS or left == found.sizes:
            yield found
        elif left:
            yield replace(
                found, sizes=left, in_all_sizes=False, sums=tuple(line for line in found.sums if line.size in left)
            )


def _is_cause(warning: Diagnostic, error: Diagnostic, worked: WorkedPattern) -> bool:
    """Whether a number that a warning is about stands in the row that an error is about."""
    if error.severity is not Severity.ERROR or error.page.code not in row_codes():
        return False
    return any(is_told_in(warning, step) or warning.about in _names(step) for step in _steps(error, worked))


def _steps(error: Diagnostic, worked: WorkedPattern) -> Iterator[Step]:
    for read in worked.written.readings:
        if read.step.piece == error.piece and read.step.identity == error.row:
            yield read.step


def _names(step: Step) -> set[str]:
    """The names that the slots of a step ask for."""
    tokens = (token for part in step.parts for token in part.tokens)
    return {name for token in tokens if isinstance(token, Number) for name in NAME.findall(token.written)}


def _in_help(warning: Diagnostic) -> str:
    return "; ".join((warning.full_headline, *warning.help))
