"""The outcome of a file of rows as a table, and as facts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from msgspec.structs import asdict

from stitchproof.diagnostics.terminal import printable
from stitchproof.sequences.outcomes import RowOutcome, SequenceOutcome, Verdict
from stitchproof.sequences.scores import Score, machine_line, score_of, scores_by_style, share

_HEAD = ("sequence", "rows", "read", "counts", "faulty", "inferred", "from stated")
WORDS_SHOWN = 60


def table_text(outcomes: Iterable[SequenceOutcome]) -> str:
    """A line for each sequence, what was inferred and what was not read below it, the totals, and the machine's line last."""
    held = tuple(outcomes)
    lines = [_HEAD, *(_line(outcome) for outcome in held)]
    widths = [max(len(line[column]) for line in lines) for column in range(len(_HEAD))]
    printed = []
    for number, line in enumerate(lines):
        cells = [
            line[0].ljust(widths[0]),
            *(cell.rjust(width) for cell, width in zip(line[1:], widths[1:], strict=True)),
        ]
        printed.append("  ".join(cells).rstrip())
        if number:
            printed += [f"    {printable(note)}" for note in _notes(held[number - 1])]
    scores = scores_by_style(held)
    printed += ["", *(_total(style, score) for style, score in scores.items() if score.rows), machine_line(scores)]
    return "\n".join(printed) + "\n"


def _line(outcome: SequenceOutcome) -> tuple[str, ...]:
    score = score_of(outcome.rows)
    called = sum(row.verdict is Verdict.FAULTY for row in outcome.rows)
    return (
        printable(outcome.sequence.id.text)[:WORDS_SHOWN],
        str(score.rows),
        str(score.read),
        f"{score.right}/{score.published}",
        str(called),
        str(score.inferred),
        str(score.from_stated),
    )


def _notes(outcome: SequenceOutcome) -> list[str]:
    notes = []
    if outcome.conventions:
        notes.append("inferred: " + "; ".join(outcome.conventions))
    for row in outcome.rows:
        if row.verdict in (Verdict.NOT_READ, Verdict.NOT_WORKED):
            notes.append(f"{row.row.name or 'a row'} {row.verdict.value}: “{row.words[:WORDS_SHOWN]}”")
    return notes


def _total(style: str, score: Score) -> str:
    return (
        f"{style}: {score.read} of {score.rows} rows read ({share(score.read, score.rows)} %); {score.right} of"
        f" {score.published} counts agree ({share(score.right, score.published)} %); {score.found} of {score.faulty} rows known"
        f" to be faulty found; {score.alarms} false alarms, {score.following} more that follow one of them or a fault;"
        f" {score.inferred} inferred, {score.from_stated} from stated"
    )


def table_facts(outcomes: Iterable[SequenceOutcome]) -> dict[str, Any]:
    """The same as facts: sequences with their rows, totals by style, and the machine's line."""
    held = tuple(outcomes)
    scores = scores_by_style(held)
    return {
        "sequences": [_facts(outcome) for outcome in held],
        "totals": {style: asdict(score) for style, score in scores.items()},
        "line": machine_line(scores),
    }


def _facts(outcome: SequenceOutcome) -> dict[str, Any]:
    sequence = outcome.sequence
    return {
        "id": sequence.id.text,
        "source": {"title": sequence.title, "address": sequence.address},
        "sizes": list(sequence.sizes),
        "rows": [_row(row) for row in outcome.rows],
    }


def _row(row: RowOutcome) -> dict[str, Any]:
    return {
        "label": row.row.name,
        "style": row.row.written.style,
        "verdict": row.verdict.value,
        "conventions": list(row.conventions),
        "count_agrees": row.right,
        "not_read": row.words if row.verdict in (Verdict.NOT_READ, Verdict.NOT_WORKED) else "",
    }
