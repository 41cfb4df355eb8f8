"""What a build keeps in the system's temporary folder goes with it, also where it is killed."""

from __future__ import annotations

import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from stitchproof.editions.own_folder import HELD, PREFIX, own_folder

MAKES_ONE = """
import sys, tempfile
sys.path[:0] = {path!r}
tempfile.tempdir = {temporary!r}
from stitchproof.editions.own_folder import own_folder
with own_folder() as folder:
    print(folder, flush=True)
    sys.stdin.read()
"""


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def started(temporary: Path) -> tuple[subprocess.Popen[str], Path]:
    code = MAKES_ONE.format(path=[entry for entry in sys.path if entry], temporary=str(temporary))
    process = subprocess.Popen([sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    return process, Path(process.stdout.readline().strip())


def test_it_goes_when_it_is_no_longer_used(temporary: Path) -> None:
    with own_folder() as folder:
        assert [each.name for each in folder.iterdir()] == [HELD]
        (folder / "more").write_text("more")
    assert list(temporary.iterdir()) == []


def test_that_of_a_killed_process_is_taken_away_and_that_of_a_living_one_is_not(temporary: Path) -> None:
    (killed, left), (living, used) = started(temporary), started(temporary)
    with killed, living:
        killed.send_signal(signal.SIGKILL)
        killed.wait()
        assert left.exists()
        with own_folder() as own, own_folder() as another:
            assert {*temporary.iterdir()} == {used, own, another}
        living.communicate("")
    assert living.returncode == 0
    assert list(temporary.iterdir()) == []


def test_what_others_made_stays(temporary: Path) -> None:
    """A folder that no build made, and one that a link leads to."""
    other, elsewhere = temporary / f"{PREFIX}notes", temporary / "elsewhere"
    for folder in (other, elsewhere):
        folder.mkdir()
        (folder / "kept").write_text("kept")
    (elsewhere / HELD).write_text("")
    (temporary / f"{PREFIX}link").symlink_to(elsewhere)
    (other / HELD).symlink_to(elsewhere / HELD)
    with own_folder():
        pass
    assert (other / "kept").exists()
    assert (elsewhere / "kept").exists()
    assert (temporary / f"{PREFIX}link").is_symlink()
