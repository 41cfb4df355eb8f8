"""Many patterns in one command: side by side where there are processors, told of in their order, each whole or not there."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from stitchproof import build_pattern
from stitchproof.command_line import main
from stitchproof.processes import processors
from stitchproof.starter import start_pattern
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
    """A build in a process and a group of its own: forks are for processes without threads."""
    entries = [os.path.abspath(entry) for entry in sys.path if entry]
    code = (
        f"import signal, sys; sys.path[:0] = {entries!r}; sys.argv[1:] = {['build', *arguments]!r}\n"
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
    build = started(workspace, "--all", "--edition", "listing")
    out, said = build.communicate(timeout=120)
    assert build.returncode == 1, said
    written = [line for line in out.splitlines() if line.startswith("build/")]
    whole = [name for name in NAMES if name != FAULTY]
    assert (
        list(dict.fromkeys(line.split("/")[1] for line in written)) == whole == sorted(os.listdir(workspace / "build"))
    )
    assert f"1 error in {FAULTY}" in said
    assert f"nothing was written for {FAULTY}" in said
    for name in whole:
        alone = build_pattern(name, (), ("listing",), to=tmp_path, within=workspace)
        assert alone.files
        assert files_below(workspace / "build" / name) == files_below(tmp_path / name)


@pytest.mark.skipif(not sys.platform.startswith("linux") or processors() < 2, reason="nothing runs beside the build")
def test_stopped_from_the_keyboard_all_end(workspace: Path) -> None:
    """What is there then is whole, nothing lies beside it, and nothing goes on running."""
    build = started(workspace, "ash", "cedar", "dogwood", "--to", "stopped")
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
    monkeypatch.setattr("stitchproof.build_many.processors", lambda: 1)
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
