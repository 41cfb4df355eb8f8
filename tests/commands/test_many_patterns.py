"""Many patterns in one command: side by side where there are processors, told of in their order, each whole or not there."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest

from stitchproof import build_pattern
from stitchproof.command_line import main
from stitchproof.many_patterns import ENDED, check_patterns
from stitchproof.processes import Workers, processors
from stitchproof.starter import start_pattern
from tests.diagnostics.published_sarif import only_run, valid
from tests.editions.test_presses import alive, until
from tests.hostile.test_attacks import files_below

NAMES = ("ash", "beech", "cedar", "dogwood")
FAULTY = "beech"


@pytest.fixture(scope="module")
def workspace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four patterns, one with a fault."""
    root = tmp_path_factory.mktemp("many")
    for name in NAMES:
        start_pattern(root / "pattern_sources" / name)
    header = root / "pattern_sources" / FAULTY / "pattern.yaml"
    header.write_text(header.read_text("utf-8") + "counts: {nothing: no_such_name * 2}\n", encoding="utf-8")
    return root


def started(workspace: Path, *arguments: str) -> subprocess.Popen[str]:
    """A command in a process and a group of its own: forks are for processes without threads."""
    entries = [os.path.abspath(entry) for entry in sys.path if entry]
    code = (
        f"import signal, sys; sys.path[:0] = {entries!r}; sys.argv[1:] = {list(arguments)!r}\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "from stitchproof.command_line import run\nrun()"
    )
    return subprocess.Popen(
        [sys.executable, "-c", code],
        cwd=workspace,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def test_a_fault_in_one_leaves_the_others(workspace: Path, tmp_path: Path) -> None:
    build = started(workspace, "build", "--all", "--edition", "listing")
    out, said = build.communicate(timeout=120)
    assert build.returncode == 1, said
    written = [line for line in out.splitlines() if line.startswith("build/")]
    whole = [name for name in NAMES if name != FAULTY]
    assert (
        list(dict.fromkeys(line.split("/")[1] for line in written)) == whole == sorted(os.listdir(workspace / "build"))
    )
    assert f"1 error in {FAULTY}" in said
    assert f"nothing was written for {FAULTY}" in said
    assert said.endswith(f"1 error in 4 patterns: 3 pass, 1 fails ({FAULTY})\n")
    for name in whole:
        alone = build_pattern(name, (), ("listing",), to=tmp_path, within=workspace)
        assert alone.files
        assert files_below(workspace / "build" / name) == files_below(tmp_path / name)


side_by_side = pytest.mark.skipif(
    not sys.platform.startswith("linux") or processors() < 2, reason="one pattern after the other"
)


@side_by_side
def test_stopped_from_the_keyboard_all_end(workspace: Path) -> None:
    """What is there then is whole, nothing lies beside it, and nothing goes on running."""
    build = started(workspace, "build", "ash", "cedar", "dogwood", "--to", "stopped")
    children = Path(f"/proc/{build.pid}/task/{build.pid}/children")
    until(lambda: len(children.read_text().split()) >= 2)
    os.killpg(build.pid, signal.SIGINT)
    said = build.communicate(timeout=60)[1]
    assert build.returncode == 130, said
    assert "Traceback" not in said
    until(lambda: not alive(build.pid))
    left = sorted((workspace / "stopped").iterdir()) if (workspace / "stopped").exists() else []
    assert [path for path in left if path.name not in NAMES or not (path / ".made_from.json").is_file()] == []


def test_what_is_asked_for_is_told_apart(
    workspace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """In this process: one pattern at a time."""
    monkeypatch.chdir(workspace)
    monkeypatch.setattr("stitchproof.many_patterns.processors", lambda: 1)
    assert main(["build"]) == main(["build", "ash", "--all"]) == 2
    assert main(["build", "ash", "elsewhere/ash"]) == 2
    assert "two patterns are called ash" in capsys.readouterr().err
    assert main(["build", "ash", "ash", "no_such", "--edition", "listing", "--to", "apart"]) == 2
    told = capsys.readouterr()
    assert told.out.count("apart/ash/record.json") == 1
    assert "no_such" in told.err
    assert main(["build", "ash", "cedar", "--size", "Giant"]) == 2
    assert capsys.readouterr().err.count("`Giant` is not a size of this pattern") == 2
    assert main(["build", "ash", "cedar", "--to", "pattern_sources/ash/pattern.yaml/x"]) == 2
    assert capsys.readouterr().err.count("stitchproof: cannot write") == 2
    (workspace / "none" / "pattern_sources").mkdir(parents=True)
    monkeypatch.chdir(workspace / "none")
    assert main(["build", "--all"]) == 2
    assert "there is no pattern" in capsys.readouterr().err


def test_checked_side_by_side_each_says_what_it_says_alone(
    workspace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """In the order asked for, and a last line for all of them."""
    out, said = started(workspace, "check", "dogwood", "--all").communicate(timeout=120)
    assert (out, said) == ("", "stitchproof: name each PATTERN, or all of them by --all\n")
    asked = ["dogwood", "no_such", FAULTY, "ash"]
    check = started(workspace, "check", *asked)
    out, said = check.communicate(timeout=120)
    assert check.returncode == 2
    monkeypatch.chdir(workspace)
    assert [main(["check", name]) for name in asked] == [0, 2, 1, 0]
    alone = capsys.readouterr()
    assert out == alone.out
    assert said == f"{alone.err}2 errors in 4 patterns: 2 pass, 1 fails ({FAULTY}), 1 could not run (no_such)\n"


def test_all_in_a_machine_form_are_one_document(
    workspace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each finding says of which pattern it is, and each pattern how it would end alone; one pattern needs neither."""
    monkeypatch.chdir(workspace)
    monkeypatch.setattr("stitchproof.many_patterns.processors", lambda: 1)
    assert main(["check", "--all", "--format", "json"]) == 1
    held = json.loads(capsys.readouterr().out)
    assert held["patterns"] == [proof["pattern"] for proof in held["proof"]] == list(NAMES)
    assert [found.pop("pattern") for found in held["diagnostics"]] == [FAULTY]
    ends = [(outcome["pattern"], outcome["exit"], outcome["why"]) for outcome in held.pop("outcomes")]
    assert ends == [(name, int(name == FAULTY), "") for name in NAMES]
    assert main(["check", FAULTY, "--format", "json"]) == 1
    alone = json.loads(capsys.readouterr().out)
    assert alone.keys() == held.keys()
    assert alone["diagnostics"] == held["diagnostics"]
    assert main(["check", "no_such", FAULTY, "--format", "sarif", "--output", "found.sarif"]) == 2
    run = only_run(valid((workspace / "found.sarif").read_text("utf-8")))
    assert [result["properties"]["pattern"] for result in run["results"]] == ["no_such", FAULTY]
    assert run["properties"]["patterns"] == ["no_such", FAULTY]
    assert run["invocations"][0]["executionSuccessful"] is False
    assert main(["check", "ash", FAULTY, "--output", "found.txt"]) == 1
    told = (workspace / "found.txt").read_text("utf-8").splitlines()
    last = ["nothing found in ash", f"1 error in {FAULTY}", f"1 error in 2 patterns: 1 passes, 1 fails ({FAULTY})"]
    assert told[-3:] == last


def test_strictly_a_warning_fails(
    workspace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(workspace)
    monkeypatch.setattr("stitchproof.many_patterns.processors", lambda: 1)
    odd = workspace / "pattern_sources" / "oak"
    start_pattern(odd)
    header = odd / "pattern.yaml"
    header.write_text(header.read_text("utf-8") + "accept: [{code: SP030, reason: none}]\n", encoding="utf-8")
    assert main(["check", "ash", "oak"]) == 0
    assert capsys.readouterr().err.endswith("\n1 warning in 2 patterns: 2 pass\n")
    assert main(["check", "ash", "oak", "--strict"]) == 1
    assert capsys.readouterr().err.endswith("\n1 warning in 2 patterns: 1 passes, 1 fails (oak)\n")
    shutil.rmtree(odd)


@side_by_side
def test_a_process_that_is_ended_while_patterns_are_handed_out(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What could not be handed out any more is told of as what was."""
    monkeypatch.chdir(workspace)
    handed: list[object] = []

    def submit(self: Workers, work: Callable[..., object], *arguments: object) -> Future[object]:
        handed.append(work)
        if len(handed) > 2:
            raise BrokenProcessPool
        future: Future[object] = Future()
        future.set_exception(BrokenProcessPool())
        return future

    monkeypatch.setattr(Workers, "submit", submit)
    told = list(check_patterns(["ash", "cedar", "dogwood"]))
    assert [(each.name, each.not_done) for each in told] == [(name, ENDED) for name in ("ash", "cedar", "dogwood")]


@side_by_side
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL])
def test_checks_that_are_stopped(workspace: Path, how: signal.Signals) -> None:
    """From the keyboard all end; where a process is ended from outside, what it was at is told as not done."""
    names = [f"{'./' * number}pattern_sources/ash" for number in range(12)]
    check = started(workspace, "check", *names)
    children = Path(f"/proc/{check.pid}/task/{check.pid}/children")
    until(lambda: len(children.read_text().split()) >= 2)
    started_here = [int(child) for child in children.read_text().split()]
    if how is signal.SIGINT:
        os.killpg(check.pid, how)
    else:
        os.kill(started_here[0], how)
    said = check.communicate(timeout=60)[1]
    assert "Traceback" not in said
    until(lambda: not alive(check.pid))
    assert check.returncode == (130 if how is signal.SIGINT else 2), said
    if how is signal.SIGKILL:
        assert "stitchproof: ash: its process was ended from outside; ask for it again\n" in said
        assert "could not run (ash" in said.splitlines()[-1]
