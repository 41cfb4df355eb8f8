"""Files of rows, worked once for all tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.reading.sequence_file import read_sequences
from stitchproof.sequences.check_rows import check_rows
from stitchproof.sequences.outcomes import SequenceOutcome
from stitchproof.source import SourceFile

HERE = Path(__file__).parent
TUNING, OWN, KEPT_ASIDE = "tuning_rows.yaml", "own_rows.yaml", "kept_aside_rows.yaml"
LOOSE, UNSEEN, FURTHER = "loose_rows.yaml", "unseen_rows.yaml", "further_rows.yaml"


@cache
def worked_file(name: str) -> tuple[SequenceOutcome, ...]:
    """The sequences of a file beside this one, each with what came of its rows."""
    report = Report()
    sequences = read_sequences(SourceFile(name, (HERE / name).read_text(encoding="utf-8")), report)
    assert report.findings() == ()
    return check_rows(sequences)[0]


def worked_text(text: str) -> tuple[tuple[SequenceOutcome, ...], tuple[Diagnostic, ...]]:
    """The sequences of a text and all findings."""
    report = Report()
    outcomes, findings = check_rows(read_sequences(SourceFile("rows.yaml", text), report))
    return outcomes, (*report.findings(), *findings)
