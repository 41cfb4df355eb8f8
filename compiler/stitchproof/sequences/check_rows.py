"""A file of published rows from its text to outcomes and findings."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.reading.written_sequence import WrittenSequence
from stitchproof.sequences.beginnings import start_of
from stitchproof.sequences.faults.count_wrong import count_wrong
from stitchproof.sequences.faults.row_does_not_close import row_does_not_close
from stitchproof.sequences.faults.row_number_given_twice import row_number_given_twice
from stitchproof.sequences.faults.start_not_understood import start_not_understood
from stitchproof.sequences.outcomes import Fault, RowOutcome, SequenceOutcome, Verdict, WrongCount, WrongLabel
from stitchproof.sequences.work_sequence import work_sequence
from stitchproof.source import Span

LONGEST_NAME = 60


def check_rows(sequences: tuple[WrittenSequence, ...]) -> tuple[tuple[SequenceOutcome, ...], tuple[Diagnostic, ...]]:
    """All sequences worked, and what is wrong in them: a fault once, not what follows from it."""
    outcomes = tuple(work_sequence(sequence) for sequence in sequences)
    findings: list[Diagnostic] = []
    for outcome in outcomes:
        report = Report(outcome.sequence.sizes)
        report.extend(_findings(outcome))
        findings += report.findings()
    return outcomes, tuple(findings)


def _findings(outcome: SequenceOutcome) -> Iterator[Diagnostic]:
    sequence = outcome.sequence
    if sequence.start and not any(row is not None for row in start_of(sequence).rows):
        yield start_not_understood(sequence.start.span, sequence.id.text[:LONGEST_NAME])
    for row in outcome.rows:
        if row.verdict is Verdict.FAULTY:
            for size, fault in row.faults:
                yield _finding(fault, row, sequence, size)


def _finding(fault: Fault, row: RowOutcome, sequence: WrittenSequence, size: int) -> Diagnostic:
    name = f"{(row.row.name or 'a row')[:LONGEST_NAME]} of {sequence.id.text[:LONGEST_NAME]}"
    size_name = sequence.sizes[size] if size < len(sequence.sizes) else ""
    whole = row.row.written.text.span
    if isinstance(fault, WrongLabel):
        label = row.row.written.label
        return row_number_given_twice(fault, name, label.span if label else whole)
    if isinstance(fault, WrongCount):
        return count_wrong(fault, name, size_name, whole)
    return row_does_not_close(fault, name, size_name, _words(fault, row) or whole)


def _words(fault: object, row: RowOutcome) -> Span | None:
    """The words of the row where a fault shows, if it has some of its own."""
    at = getattr(fault, "at", None)
    if at is None or at.end <= at.start or at.end > len(row.row.line.text):
        return None
    return row.row.line.place(at).span
