"""`stitchproof compare` as a user types it: folders, records, commits of git; a clear report where a side cannot be had."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from stitchproof.command_line import main

CLONE = Path(__file__).resolve().parents[2]


@pytest.fixture
def workspace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A workspace with the cowl, its record, and a git repository with two commits around a change of gauge."""
    source = tmp_path / "pattern_sources/pebblewold_cowl"
    shutil.copytree(CLONE / "pattern_sources/pebblewold_cowl", source)
    shutil.copytree(CLONE / "build/pebblewold_cowl", tmp_path / "build/pebblewold_cowl")
    _git(tmp_path, "init", "-q")
    _commit(tmp_path, "first")
    header = source / "pattern.yaml"
    text = header.read_text(encoding="utf-8")
    assert "stitches: 18" in text
    header.write_text(text.replace("stitches: 18", "stitches: 19"), encoding="utf-8")
    _commit(tmp_path, "another gauge")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _git(folder: Path, *arguments: str) -> None:
    settings = ["-c", "user.name=a", "-c", "user.email=a@example.org", "-c", "core.hooksPath=/dev/null"]
    subprocess.run(["git", *settings, *arguments], cwd=folder, check=True, capture_output=True)  # noqa: S607


def _commit(folder: Path, words: str) -> None:
    _git(folder, "add", "-A")
    _git(folder, "commit", "-q", "-m", words)


def test_a_build_against_the_source_as_it_is(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "build/pebblewold_cowl", "pebblewold_cowl"]) == 1
    told = capsys.readouterr().out
    assert "gauges.fabric.stitches  18 per 10 cm → 19 per 10 cm" in told
    assert "What did not change" in told


def test_the_same_is_exit_0(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record = "build/pebblewold_cowl/record.json"
    assert main(["compare", record, "build/pebblewold_cowl"]) == 0
    assert "Nothing that a maker would notice has changed." in capsys.readouterr().out


def test_a_commit_against_the_one_before_it(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "pebblewold_cowl@HEAD~1", "pebblewold_cowl@HEAD", "--format", "json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert {each["name"] for each in told["inputs"]} >= {"gauges.fabric.stitches"}
    assert told["format"] == "stitchproof-comparison"


def test_a_pattern_that_is_gone_by_now(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shutil.rmtree(workspace / "pattern_sources/pebblewold_cowl")
    assert main(["compare", "pebblewold_cowl@HEAD", "build/pebblewold_cowl"]) == 1


def test_the_page_goes_to_a_file(workspace: Path) -> None:
    page = workspace / "compared.html"
    asked = ["compare", "build/pebblewold_cowl", "pebblewold_cowl", "--format", "html", "--output", str(page)]
    assert main(asked) == 1
    assert page.read_text(encoding="utf-8").startswith("\n") or "<!doctype html>" in page.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("pebblewold_cowl@nothing", "SP231 revision-not-there]: git knows no commit, tag or branch `nothing`"),
        ("pebblewold_cowl@HEAD~99", "SP231"),
        ("pebblewold_cowl@--upload-pack=x", "SP231"),
        ("no_such@HEAD", "SP231 revision-not-there]: no_such was not there at `HEAD`"),
        ("no_such_pattern", "SP011"),
        ("pattern_sources/pebblewold_cowl/pattern.yaml", "SP230 record-not-readable"),
        ("\0", "SP011"),
        ("a\nb@HEAD", "SP231"),
    ],
)
def test_what_is_not_there_is_a_report(
    asked: str, words: str, workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", asked, "pebblewold_cowl"]) == 2
    told = capsys.readouterr().err
    assert words in told and "Traceback" not in told


def test_no_repository_is_a_report(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(CLONE / "pattern_sources/pebblewold_cowl", tmp_path / "pattern_sources/pebblewold_cowl")
    monkeypatch.chdir(tmp_path)
    assert main(["compare", "pebblewold_cowl@HEAD", "pebblewold_cowl"]) == 2
    assert "lies in no git repository" in capsys.readouterr().err


def test_a_damaged_record_is_a_report(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record = workspace / "build/pebblewold_cowl/record.json"
    record.write_bytes(record.read_bytes()[:2_000])
    assert main(["compare", str(record), "pebblewold_cowl"]) == 2
    assert "SP230" in capsys.readouterr().err


def test_a_source_that_no_longer_works_is_compared_as_far_as_it_goes(
    workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    header = workspace / "pattern_sources/pebblewold_cowl/pattern.yaml"
    header.write_text(
        header.read_text(encoding="utf-8").replace("stitches: 19", "stitches: nineteen"), encoding="utf-8"
    )
    assert main(["compare", "build/pebblewold_cowl", "pebblewold_cowl"]) == 1
    assert "new   error" in capsys.readouterr().out
    header.write_text("[", encoding="utf-8")
    assert main(["compare", "build/pebblewold_cowl", "pebblewold_cowl"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_nothing_that_a_repository_asks_for_is_run(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Filters, hooks, a pager, a monitor and an alias would leave a mark; reading objects runs none of them."""
    mark = workspace / "mark"
    (workspace / ".gitattributes").write_text("* filter=marked diff=marked\n", encoding="utf-8")
    command = f"touch {mark}"
    for key in ("filter.marked.smudge", "filter.marked.clean", "filter.marked.process", "diff.marked.textconv"):
        _git(workspace, "config", key, command)
    for key in ("core.fsmonitor", "core.pager", "core.sshCommand", "core.editor", "uploadpack.packObjectsHook"):
        _git(workspace, "config", key, command)
    hooks = workspace / ".git/hooks"
    hooks.mkdir(exist_ok=True)
    for name in ("post-checkout", "post-index-change", "reference-transaction"):
        (hooks / name).write_text(f"#!/bin/sh\n{command}\n", encoding="utf-8")
        (hooks / name).chmod(0o755)
    mark.unlink(missing_ok=True)
    assert main(["compare", "pebblewold_cowl@HEAD~1", "pebblewold_cowl@HEAD"]) == 1
    assert not mark.exists()


def test_links_of_the_past_are_left_where_they_are(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (workspace / "pattern_sources/pebblewold_cowl/60_more.md").symlink_to("/etc/passwd")
    _commit(workspace, "a link")
    assert main(["compare", "pebblewold_cowl@HEAD~1", "pebblewold_cowl@HEAD"]) == 0
