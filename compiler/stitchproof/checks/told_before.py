"""Faults of numbers and of text that are told already, so that rows which follow from them stay silent."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from sys import modules

from stitchproof.checks.wrong_counts import text_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, Step, Word
from stitchproof.expressions import expression
from stitchproof.rows.row_tree import RowTree
from stitchproof.simulation.worked_pattern import RowFinding, WorkedPattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import Span

NAME = expression(r"[^\W\d][\w.]*")


def follows_from_told(finding: RowFinding, worked: WorkedPattern, report: Report) -> bool:
    """Whether a slip is in a line that has an error of its text, comes of one before it, or works with a count that is wrong."""
    told = [each for each in report.findings() if each.severity is Severity.ERROR and each.page.code not in row_codes()]
    sized = worked.written.expanded.sized
    size = sized.sizes[finding.size]
    # What is wrong with a step's words is wrong for all its sizes: a part meant for one is worked by another.
    if any(is_told_in(each, step) for step in (finding.step, finding.worked_at) for each in told):
        return True
    here = [each for each in told if not each.sizes or size in each.sizes]
    if any(is_told_in(each, step) for step in _since_last_count(finding, worked) for each in here):
        return True
    # First the numbers of a size, then its rows: they are made of them.
    if any(size in each.sizes and each.primary.span.file is sized.source.header_file for each in here):
        return True
    if any(_is_about_a_stitch_of(finding.step, each, sized) for each in here):
        return True
    written = list(_written(finding, worked))
    if any(text_follows_from_wrong(text, finding.size, sized) for text in written):
        return True
    wrong = {name for each in here for name in _names_at_fault(each, sized)}
    return bool(wrong) and bool(wrong & _closure({name for text in written for name in NAME.findall(text)}, sized))


def is_told_in(told: Diagnostic, step: Step) -> bool:
    """Whether a report is about the words of a step."""
    span = told.primary.span
    tokens = (*step.label, *(token for part in step.parts for token in part.tokens))
    spans = [step.place.span, *(token.place.span for token in tokens)]
    first = min(each.start for each in spans if each.file is step.place.span.file)
    last = max(each.end for each in spans if each.file is step.place.span.file)
    return span.file is step.place.span.file and first <= span.start < last


@cache
def row_codes() -> frozenset[str]:
    """The codes of the rules about worked rows."""
    from stitchproof.checks.judge import checks_of  # it knows all rules, this one's callers among them

    return frozenset(modules[check.__module__].PAGE.code for check in checks_of("WorkedPattern"))


def _since_last_count(finding: RowFinding, worked: WorkedPattern) -> list[Step]:
    """The steps of the piece, before the one with the slip, whose work no stated count has confirmed or set right."""
    since: list[Step] = []
    for read in worked.written.readings:
        if read.step is finding.worked_at:
            return since
        if read.step.piece == finding.worked_at.piece:
            since.append(read.step)
            stated = [part.reading for part in read.parts if finding.size in part.served]
            if any(isinstance(reading, RowTree) and reading.stated for reading in stated):
                # The row with the count itself stays: a step may state a count and not be worked to it.
                since = [read.step]
    return since


def _is_about_a_stitch_of(step: Step, told: Diagnostic, sized: SizedPattern) -> bool:
    """Whether a report is about the definition of a special stitch that a step works."""
    words = {token.entry for part in step.parts for token in part.tokens if isinstance(token, Word)}
    defined = [each for each in sized.source.header.special_stitches if _holds(each.span, told.primary.span)]
    return any(each.abbreviation in words for each in defined)


def _written(finding: RowFinding, worked: WorkedPattern) -> Iterator[str]:
    """The formulas of the steps of the piece up to the one with the slip."""
    for read in worked.written.readings:
        if read.step.piece == finding.worked_at.piece:
            for part in read.step.parts:
                yield from (token.written for token in part.tokens if isinstance(token, Number))
        if read.step is finding.worked_at:
            return


def _names_at_fault(told: Diagnostic, sized: SizedPattern) -> Iterator[str]:
    """The counts that an error in pattern.yaml is about."""
    span = told.primary.span
    for quantity in sized.quantities:
        definition = sized.definition(quantity.name)
        if definition and _holds(definition.span, span):
            yield quantity.name
    for claim in sized.source.header.must_hold:
        if _holds(claim.span, span):
            counts = {each.name for each in sized.quantities if each.section == "counts"}
            yield from counts & set(NAME.findall(claim.span.text))


def _holds(whole: Span, part: Span) -> bool:
    return whole.file is part.file and whole.start <= part.start < whole.end


def _closure(names: set[str], sized: SizedPattern) -> set[str]:
    """Names, and all that they are worked out from."""
    inputs = {each.name: each.inputs for each in sized.quantities}
    found: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += [*inputs.get(name, ()), *inputs.get(name.partition("(")[0], ())]
    return found
