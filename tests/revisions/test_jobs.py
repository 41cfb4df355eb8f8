"""What a designer does after publication, as she types it: what must change, what must not, who is told what.

Jobs 1, 2, 3, 5, 6 and 9 (gauge, sizes, ease, rib rate, length, row gauge) are in tests/effects.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from stitchproof.command_line import main
from tests.comparison.changed import CLONE


@pytest.fixture
def workspace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("saltmarrow_yoke_top", "cobblewick_hat"):
        shutil.copytree(CLONE / "pattern_sources" / name, tmp_path / "pattern_sources" / name)
        shutil.copytree(CLONE / "build" / name, tmp_path / "build" / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _compared(capsys: pytest.CaptureFixture[str], *asked: str) -> dict[str, Any]:
    capsys.readouterr()
    assert main(["compare", *asked, "--format", "json"]) in (0, 1)
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    return told


def _edit(workspace: Path, pattern: str, *pairs: tuple[str, str]) -> None:
    header = workspace / "pattern_sources" / pattern / "pattern.yaml"
    text = header.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    header.write_text(text, encoding="utf-8")


def test_job_4_another_yarn_at_the_same_gauge(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Grams, metres, balls and the yarn line change; no count, no measurement and no row does."""
    _edit(
        workspace,
        "saltmarrow_yoke_top",
        ("hdc: 0.0216 g", "hdc: 0.0240 g"),
        ("320 m per 100 g", "280 m per 100 g"),
        ("weighs: 392 g", "weighs: 430 g"),
    )
    told = _compared(capsys, "build/saltmarrow_yoke_top", "saltmarrow_yoke_top")
    assert {each["name"] for each in told["inputs"]} == {"yarn.weights.hdc", "yarn.length", "yarn.sample"}
    assert {each["name"].partition(".")[0] for each in told["numbers"]} == {"yarn"}
    assert {line["part"] for line in told["lines"]} <= {"materials", "notes"}
    assert not [line for line in told["lines"] if line["kind"] in ("row", "measure")]


def test_job_7_uk_terms(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every word that turned is told, no number changes, and what was left in US terms is a finding."""
    told = _compared(capsys, "cobblewick_hat", "cobblewick_hat", "--terms", "uk")
    assert told["numbers"] == [] and told["inputs"] == []
    turned = {
        (stretch["words"]["old"], stretch["words"]["new"])
        for line in told["lines"]
        for stretch in line["stretches"]
        if stretch["words"]["old"] != stretch["words"]["new"]
    }
    assert ("hdc", "htr") in turned or ("Hdc", "Htr") in turned
    assert all(not line["numbers"] for line in told["lines"] if line["how"] == "changed")
    assert main(["compare", "cobblewick_hat", "build/cobblewick_hat", "--terms", "uk"]) == 2
    assert "a record has one wording" in capsys.readouterr().err


def test_job_8_an_erratum_after_publication(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One row of one size: the sheet names it and what it does; all other sizes are proved the same."""
    _edit(workspace, "cobblewick_hat", ("[6, 6, 7, 7, 8]", "[6, 6, 8, 7, 8]"), ("\nrevision: 1\n", "\nrevision: 2\n"))
    assert main(["compare", "build/cobblewick_hat", "cobblewick_hat", "--errata"]) == 1
    told = capsys.readouterr()
    assert "Sizes Baby, Toddler, Adult, Large are unchanged" in told.out
    sheet = (workspace / "build/cobblewick_hat_errata_1_to_2/errata.md").read_text(encoding="utf-8")
    assert "(size Child)" in sheet and "(size Adult)" not in sheet
    assert "Affected: revision 1. Corrected in revision 2." in sheet
    assert "Effect: Worked as printed before, Height" in sheet
    assert "for revisions in pattern.yaml: {revision: 2" in told.err


def test_job_10_a_body_and_a_sleeve_of_two_sizes(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where the skip at the underarm is another one, the pieces do not meet: nothing is printed, and the sum is told."""
    asked = ["build", "saltmarrow_yoke_top", "--edition", "one_size", "--size", "4", "--size", "sleeve=6"]
    assert main(asked) == 2
    told = capsys.readouterr().err
    assert "sleeve" in told and "= sum:" in told and "Traceback" not in told
    assert not list((workspace / "build/saltmarrow_yoke_top").glob("*.pdf"))
