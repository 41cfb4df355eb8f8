"""The same pattern gives the same files: in another folder, language, time zone, year and hash order, on one processor or two."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from stitchproof.starter import start_pattern
from tests.architecture.code_reader import CLONE

LATER = """
import datetime, time
class Later(datetime.datetime):
    now = classmethod(lambda kind, tz=None: kind(2042, 7, 1, 12, 0, 0, 0, tz))
    utcnow = today = classmethod(lambda kind: kind(2042, 7, 1, 12))
datetime.datetime = Later
time.time = lambda: 2287828800.0
"""
"""What makes a process believe in another year; no clock of the machine is touched."""
HERE = {"PYTHONHASHSEED": "1", "TZ": "America/Lima", "LC_ALL": "C.UTF-8"}
ELSEWHERE = {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C"}


NAMES = ("first_hat", "cobblewick_hat")


@pytest.mark.skipif(not hasattr(os, "sched_setaffinity"), reason="processors cannot be chosen")
def test_every_file_is_the_same_wherever_it_is_made(tmp_path: Path) -> None:
    """Of the pattern that everybody starts from and of a demo: one after the other, or each in a process of its own."""
    made = []
    for folder, environment, processors in (("here", HERE, 2), ("far/away", ELSEWHERE, 1)):
        root = tmp_path / folder
        start_pattern(root / "pattern_sources" / "first_hat")
        shutil.copytree(CLONE / "pattern_sources" / "cobblewick_hat", root / "pattern_sources" / "cobblewick_hat")
        made.append((root, build(root, environment, processors, LATER if processors == 1 else "")))
    for _, process in made:
        said, _ = process.communicate(timeout=120)
        assert process.returncode == 0, said
    for name in NAMES:
        one, other = ({file.name: file.read_bytes() for file in (root / "build" / name).iterdir()} for root, _ in made)
        assert {name.rpartition(".")[2] for name in one} >= {"pdf", "html", "json", "xlsx"}
        assert one == other


def build(root: Path, environment: dict[str, str], processors: int, clock: str) -> subprocess.Popen[str]:
    """Start a build of one PDF and of the editor's workbook of each."""
    arguments = ["build", *NAMES, "--edition", "all_sizes", "--edition", "editors_sheet"]
    code = f"import sys; sys.path[:0] = {[entry for entry in sys.path if entry]!r}; sys.argv[1:] = {arguments!r}\n"
    these = sorted(os.sched_getaffinity(0))[:processors]
    return subprocess.Popen(
        [sys.executable, "-c", f"{code}{clock}from stitchproof.command_line import run\nrun()"],
        cwd=root,
        env={**os.environ, **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        preexec_fn=lambda: os.sched_setaffinity(0, these),
    )
