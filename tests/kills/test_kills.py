"""A build folder is the old one or the new one, whole, whatever happens to the build; `make kills` tries far more moments."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from stitchproof import build_pattern
from stitchproof.command_line import main
from stitchproof.delivery import NotABuild, deliver
from stitchproof.starter import start_pattern
from tests.kills.builds import Bench, small_files

CLONE = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    """A pattern in two versions, each built once."""
    return Bench(tmp_path_factory.mktemp("kills"))


def test_deliveries_killed_and_at_once(tmp_path: Path) -> None:
    """Two hundred kills while files are being put in place, and six first deliveries at once, ten times; in both ways."""
    paths = os.pathsep.join(entry for entry in (str(CLONE), str(CLONE / "compiler"), *sys.path) if entry)
    done = subprocess.run(
        [sys.executable, "-m", "tests.kills.deliveries", str(tmp_path), "100", "1"],
        cwd=CLONE,
        env={**os.environ, "PYTHONPATH": paths},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.count("all whole") == 2


@pytest.mark.parametrize(("how", "share"), [(9, 0.5), (9, 0.8), (9, 0.9), (9, 1.0), (2, 0.6), (2, 0.95)])
def test_a_build_that_is_stopped(bench: Bench, how: int, share: float) -> None:
    """Killed, or stopped from the keyboard (2): what lies there is whole."""
    bench.stopped(how, share * min(bench.times))


def test_a_full_disk(bench: Bench) -> None:
    """A limit of the system on the size of files stands for the full disk, which takes root to make."""
    before = bench.state()
    bench.write("new" if bench.states[before] == "old" else "old")
    build = bench.started(before=small_files)
    said = build.communicate(timeout=60)[1]
    assert build.returncode == 2, said
    assert "cannot write" in said
    assert "Traceback" not in said
    assert bench.state() == before


def test_two_builds_at_once(bench: Bench) -> None:
    """Of the same pattern, and of another beside it; then the folder is as one build leaves it."""
    start_pattern(bench.root / "pattern_sources" / "second_hat")
    bench.write("new")
    builds = [bench.started(), bench.started(), bench.started("second_hat")]
    for build in builds:
        said = build.communicate(timeout=120)[1]
        assert build.returncode == 0, said
    assert bench.states[bench.state()] == "new"
    assert bench.state("second_hat")
    assert sorted(os.listdir(bench.root / "build")) == ["first_hat", "second_hat"]


def test_a_place_that_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The system's own refusal, put in the way of the first new folder: who runs the tests may be allowed everything."""
    start_pattern(tmp_path / "pattern_sources" / "hat")
    monkeypatch.chdir(tmp_path)

    def refuse(*_: object, **__: object) -> str:
        raise OSError(30, "Read-only file system", str(tmp_path / "build"))

    monkeypatch.setattr("stitchproof.delivery.mkdtemp", refuse)
    assert main(["build", "hat", "--edition", "listing"]) == 2
    assert "Read-only file system" in capsys.readouterr().err
    assert list((tmp_path / "build").iterdir()) == []


def test_what_no_build_made_is_never_replaced(tmp_path: Path) -> None:
    """A designer's own files in a folder of that name, her source, a link: told before anything is printed."""
    start_pattern(tmp_path / "pattern_sources" / "hat")
    own = tmp_path / "build" / "hat"
    own.mkdir(parents=True)
    (own / "novel.txt").write_text("my only copy", encoding="utf-8")
    with pytest.raises(NotABuild, match="no build made"):
        build_pattern("hat", (), ("listing",), within=tmp_path)
    assert (own / "novel.txt").read_text("utf-8") == "my only copy"
    with pytest.raises(NotABuild):
        build_pattern("hat", (), ("listing",), to=tmp_path / "pattern_sources", within=tmp_path)
    assert (tmp_path / "pattern_sources" / "hat" / "pattern.yaml").is_file()
    (tmp_path / "build" / "linked").symlink_to(own)
    with pytest.raises(NotABuild, match="a link"):
        deliver(tmp_path / "build" / "linked", {"a": b""})


def test_signals_are_those_of_the_table() -> None:
    assert (signal.SIGKILL, signal.SIGINT) == (9, 2)


IN_A_CALLBACK = """
import os, signal, sys, time, weakref
from stitchproof.__main__ import _not_lost

def stopped(_):
    os.kill(os.getpid(), signal.SIGINT)
    for _ in range(1000):
        pass

class Thing:
    pass

sys.unraisablehook = _not_lost
thing = Thing()
held = weakref.ref(thing, stopped)
try:
    del thing
    time.sleep(30)
except KeyboardInterrupt:
    print("stopped")
"""


def test_a_stop_behind_an_import_is_not_lost() -> None:
    """Python clears the lock of a module in a callback, in which an exception is printed and forgotten."""
    done = subprocess.run([sys.executable, "-c", IN_A_CALLBACK], capture_output=True, text=True, timeout=60)
    assert (done.stdout, done.stderr) == ("stopped\n", "")
