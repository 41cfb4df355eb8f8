"""How well a file of published rows is read and proved: totals by the style of its rows."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from stitchproof.reading.sequence_file import STYLES
from stitchproof.sequences.outcomes import RowOutcome, SequenceOutcome, Verdict


class Score(Struct, frozen=True):
    """Numbers of rows. published: rows read with a count to compare; right: those whose worked count is that one.

    faulty: rows read that the file holds to be faulty; found: those called so. alarms: right rows called faulty with nothing
    wrong before them; following: the same after a fault or an unread row.
    """

    rows: int
    read: int
    published: int
    right: int
    faulty: int
    found: int
    alarms: int
    following: int
    inferred: int
    from_stated: int


def score_of(rows: Iterable[RowOutcome]) -> Score:
    """The numbers of some rows."""
    held = tuple(rows)
    read = [row for row in held if row.verdict is not Verdict.NOT_READ]
    published = [row for row in read if row.right is not None]
    faulty = [row for row in read if not row.row.written.ok]
    called = [row for row in read if row.is_called_faulty]
    wrongly = [row for row in called if row.row.written.ok]
    return Score(
        len(held),
        len(read),
        len(published),
        sum(bool(row.right) for row in published),
        len(faulty),
        sum(row.is_called_faulty for row in faulty),
        sum(row.verdict is Verdict.FAULTY for row in wrongly),
        sum(row.verdict is Verdict.FOLLOWS for row in wrongly),
        sum(row.verdict is Verdict.INFERRED for row in read),
        sum(row.verdict is Verdict.FROM_STATED for row in read),
    )


def scores_by_style(outcomes: Iterable[SequenceOutcome]) -> dict[str, Score]:
    """The totals of a file, by style."""
    rows = [row for outcome in outcomes for row in outcome.rows]
    return {style: score_of(row for row in rows if row.row.written.style == style) for style in STYLES}


def machine_line(scores: dict[str, Score]) -> str:
    """The totals in one line: shares in per cent, alarms as a number; a share of nothing is whole."""
    return "; ".join(
        f"{style}: read={share(score.read, score.rows)} right={share(score.right, score.published)}"
        f" found={share(score.found, score.faulty)} alarms={score.alarms}"
        for style, score in scores.items()
    )


def share(part: int, whole: int) -> str:
    """A share in per cent with one decimal, rounded down so that 100.0 is all of them."""
    tenths = part * 1000 // whole if whole else 1000
    return f"{tenths // 10}.{tenths % 10}"
