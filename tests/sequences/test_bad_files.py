"""Files of rows that are not as they should be: a finding with its place, never a traceback."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.command_line import main
from tests.sequences.worked_files import HERE, OWN, TUNING, worked_file, worked_text

GOOD = "- id: hat\n  rows:\n  - {label: Rnd 1, text: 6 sc in ring}\n"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "SP018"),
        ("rows: none\n", "SP018"),
        ("- id: hat\n", "SP019"),
        ("- id: hat\n  rows: []\n", "SP018"),
        ("- id: hat\n  rows: none\n", "SP018"),
        ("- hat\n", "SP018"),
        (GOOD + "  colour: red\n", "SP017"),
        (GOOD.replace("text: 6", "txt: 6"), "SP017"),
        (GOOD.replace("6 sc in ring", "6 sc in ring, stated: six"), "SP018"),
        (GOOD.replace("6 sc in ring", "'6 sc in ring', stated: [6, 7]"), "SP018"),
        (GOOD.replace("- id: hat", "- id: hat\n  terms: french"), "SP018"),
        (GOOD.replace("- id: hat", "- id: hat\n  start_count: many"), "SP018"),
        (GOOD.replace("- id: hat", "- id: hat\n  source: a book"), "SP018"),
        ("- id: [\n", "SP012"),
        ("- {id: hat, rows: [[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]}\n", "SP016"),
        (GOOD.replace("6 sc in ring", "'" + "sc, " * 6000 + "'"), "SP016"),
        ("- id: hat\n  rows:\n" + "  - {text: sc}\n" * 5001, "SP016"),
    ],
)
def test_a_bad_file_is_a_finding(text: str, code: str) -> None:
    findings = worked_text(text)[1]
    assert code in [found.page.code for found in findings]


@pytest.mark.parametrize("name", ["not_there.yaml", "."])
def test_a_file_that_is_not_there_cannot_be_run(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--rows", str(tmp_path / name)]) == 2
    assert "SP011" in capsys.readouterr().err


def test_a_file_and_a_pattern_are_not_checked_together(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--rows", "rows.yaml", "cobblewick_hat"]) == 2
    assert main(["check"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_the_last_line_is_for_machines(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--rows", str(HERE / TUNING)]) == 1
    out = capsys.readouterr().out
    assert out.splitlines()[-1].startswith("clean: read=")


def test_facts_hold_every_row(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--rows", str(HERE / OWN), "--format", "json"]) == 1
    facts = json.loads(capsys.readouterr().out)["rows"]
    rows = sum(len(sequence["rows"]) for sequence in facts["sequences"])
    assert rows == sum(len(outcome.rows) for outcome in worked_file(OWN))
    assert facts["line"].startswith("clean: read=")


def test_the_files_own_judgement_changes_no_verdict() -> None:
    """Without the keys that only score (derived, row_ok) every row comes out as with them."""
    text = (HERE / OWN).read_text(encoding="utf-8")
    plain = re.sub(r", (derived|derived_as|row_ok): (\[[^\]]*\]|[^,}]*)", "", text)
    assert "derived" not in plain.partition("\n")[2]
    verdicts = [row.verdict for outcome in worked_text(plain)[0] for row in outcome.rows]
    assert verdicts == [row.verdict for outcome in worked_file(OWN) for row in outcome.rows]


ROWS = [row for name in (TUNING, OWN) for outcome in worked_file(name) for row in outcome.rows]


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_any_change_to_a_sequence_is_worked_or_told(data: st.DataObject) -> None:
    """Rows mixed, words dropped, doubled and changed, numbers changed: an outcome for every row, never an exception."""
    chosen = data.draw(st.lists(st.sampled_from(ROWS), min_size=1, max_size=4))
    start = data.draw(
        st.sampled_from(["ch 20", "magic ring", "fsc 30", "24 sc", "ch 12, join", "30 sts in moss st", ""])
    )
    lines = [f"- id: mixed\n  terms: {data.draw(st.sampled_from(['us', 'uk']))}\n  start: '{start}'\n  rows:"]
    for row in chosen:
        words = row.row.written.text.text.split()
        for _ in range(data.draw(st.integers(0, 3))):
            index = data.draw(st.integers(0, len(words) - 1))
            words[index] = data.draw(st.sampled_from(["", "2", "0", "*", "(", ")", words[index] * 2, "ch 3", "turn"]))
        text, label = " ".join(words).replace("'", "''"), row.row.name.replace("'", "''")
        lines.append(f"  - {{label: '{label}', text: '{text or 'sc'}', stated: {data.draw(st.integers(0, 99))}}}")
    outcomes, findings = worked_text("\n".join(lines))
    assert len(outcomes[0].rows) == len(chosen), [found.headline for found in findings]


@given(st.text(max_size=80))
def test_any_words_of_start_and_convention(text: str) -> None:
    quoted = "".join(sign for sign in text if sign.isprintable()).replace("'", "''")
    worked_text(
        f"- id: hat\n  start: '{quoted}'\n  convention: '{quoted}'\n  rows:\n  - {{label: Row 1, text: Sc across}}\n"
    )
