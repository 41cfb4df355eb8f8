"""The SARIF form as a user asks for it: `check` and `build` with `--format sarif`, and how the log says that they ended."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from stitchproof import __version__, stages
from stitchproof.command_line import main
from tests.diagnostics.published_sarif import cut, only_run, valid

ROOT = Path(__file__).parents[2]


@pytest.fixture
def header(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The header of the hat in a workspace of its own, which is the current folder."""
    folder = tmp_path / "pattern_sources" / "cobblewick_hat"
    shutil.copytree(ROOT / "pattern_sources" / "cobblewick_hat", folder)
    monkeypatch.chdir(tmp_path)
    return folder / "pattern.yaml"


def test_clean_hat(header: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`check --format sarif` writes the log to standard output and nothing beside it."""
    assert main(["check", "cobblewick_hat", "--format", "sarif"]) == 0
    shown = capsys.readouterr()
    run = only_run(valid(shown.out))
    assert shown.err == ""
    assert run["results"] == []
    assert run["invocations"][0]["executionSuccessful"] is True
    assert run["tool"]["driver"]["version"] == __version__


def test_build_writes_the_log_into_a_file(header: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`build --output` leaves standard output to the names of the files; the log names them too."""
    assert (
        main(["build", "cobblewick_hat", "--edition", "listing", "--format", "sarif", "--output", "found.sarif"]) == 0
    )
    run = only_run(valid(Path("found.sarif").read_text("utf-8")))
    assert run["properties"]["files"] == capsys.readouterr().out.split()
    assert run["properties"]["patterns"] == ["cobblewick_hat"]


def test_errors_are_results_of_a_run_that_succeeded(header: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 1: the pattern has a fault, the run had none."""
    text = header.read_text("utf-8")
    header.write_text(text.replace("brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1"), encoding="utf-8")
    assert main(["check", "cobblewick_hat", "--format", "sarif"]) == 1
    run = only_run(valid(capsys.readouterr().out))
    assert run["invocations"][0]["executionSuccessful"] is True
    (result,) = run["results"]
    place = result["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "pattern_sources/cobblewick_hat/pattern.yaml"
    assert cut(header.read_text("utf-8"), place["region"]) == "brim_stz"


@pytest.mark.parametrize("content", [None, b"\xff\xfe\x00", b"title: \x00\x01"])
def test_unreadable_header(header: Path, capsys: pytest.CaptureFixture[str], content: bytes | None) -> None:
    """Exit 2: a result that says why, and a run that did not succeed."""
    header.unlink()
    if content is not None:
        header.write_bytes(content)
    assert main(["check", "cobblewick_hat", "--format", "sarif"]) == 2
    run = only_run(valid(capsys.readouterr().out))
    assert run["invocations"][0]["executionSuccessful"] is False
    assert {result["ruleId"] for result in run["results"]} == {"SP011"}
    assert all(len(result["locations"]) == 1 for result in run["results"])


def test_our_own_fault(header: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Exit 3: a notification, no result."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(stages, "expand_pattern", broken)
    assert main(["check", "cobblewick_hat", "--format", "sarif"]) == 3
    run = only_run(valid(capsys.readouterr().out))
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    assert len(invocation["toolExecutionNotifications"]) == 1
    assert run["results"] == []
