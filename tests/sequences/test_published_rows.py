"""Rows that others published, and rows of our own in their styles: read, worked, and the right ones called faulty.

The source of each sequence stands in its file: title and address as published, or "invented".
"""

from __future__ import annotations

import pytest

from stitchproof.sequences.outcomes import SequenceOutcome, Verdict
from stitchproof.sequences.scores import machine_line, scores_by_style
from tests.sequences.worked_files import KEPT_ASIDE, OWN, TUNING, worked_file

SEQUENCES = [
    pytest.param(outcome, id=f"{name.partition('_')[0]}-{outcome.sequence.id.text}")
    for name in (TUNING, OWN)
    for outcome in worked_file(name)
]
NOT_READ = {
    ("dots", "Row 3"): "tells in prose how two stitches are worked together",
}
COUNT_DIFFERS = {
    ("p023", "Row (b)"): "follows a faulty row that states no count",
    ("dots", "Row 3"): "not read",
}


@pytest.mark.parametrize("outcome", SEQUENCES)
def test_rows_are_read(outcome: SequenceOutcome) -> None:
    unread = {(outcome.sequence.id.text, row.row.name) for row in outcome.rows if row.verdict is Verdict.NOT_READ}
    assert unread == {key for key in NOT_READ if key[0] == outcome.sequence.id.text}


@pytest.mark.parametrize("outcome", SEQUENCES)
def test_counts_agree(outcome: SequenceOutcome) -> None:
    differing = {
        (outcome.sequence.id.text, row.row.name)
        for row in outcome.rows
        if row.right is False and row.verdict is not Verdict.NOT_READ
    }
    assert differing <= set(COUNT_DIFFERS), differing


@pytest.mark.parametrize("outcome", SEQUENCES)
def test_faulty_rows_are_found_and_no_right_row_is_called_faulty(outcome: SequenceOutcome) -> None:
    called = [row.row.name for row in outcome.rows if row.is_called_faulty]
    known = [row.row.name for row in outcome.rows if not row.row.written.ok and row.verdict is not Verdict.NOT_READ]
    assert called == known


def test_the_shares_of_the_tuning_file() -> None:
    """The last line that the command prints; a change for the worse shows here first."""
    line = machine_line(scores_by_style(worked_file(TUNING)))
    assert line == (
        "clean: read=100.0 right=100.0 found=100.0 alarms=0; loose: read=100.0 right=98.4 found=100.0 alarms=0"
    )


def test_the_shares_of_the_rows_kept_aside() -> None:
    """Eight published sequences on which nothing was tuned but one convention, that "each sc" may be each stitch.

    Before it the line was: clean 100.0 and 75.0 (3 of 4 counts) with 1 alarm, loose 76.0 and 76.4 with 1 alarm.
    """
    line = machine_line(scores_by_style(worked_file(KEPT_ASIDE)))
    assert (
        line == "clean: read=100.0 right=100.0 found=100.0 alarms=0; loose: read=76.0 right=82.3 found=100.0 alarms=0"
    )


def test_conventions_that_the_print_does_not_tell_are_named() -> None:
    """Elvira Cardigan, front: no turning chain is a stitch, yet rows that skip their first stitch need it to be one."""
    elvira = next(outcome for outcome in worked_file(TUNING) if outcome.sequence.id.text == "p002")
    assert elvira.conventions == (
        "ch 3 before dc counts as a stitch",
        "ch 2 before hdc counts as a stitch",
        "ch 3 before dc does not count",
    )
