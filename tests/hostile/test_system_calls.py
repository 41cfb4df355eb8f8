"""The same as the system sees it: which files a check and a build open, children and native libraries included, and no socket."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.hostile.attacks import Attack, header, link, pipe, text
from tests.hostile.test_attacks import put
from tests.hostile.watch import CLONE, PROGRAM, SYSTEM

OPENED = re.compile(r'^(?:\d+ +)?open(?:at)?\((?:AT_FDCWD, )?"(?P<path>/[^"]*)", (?P<how>[A-Z_|]+)')
RUN = re.compile(r'^(?:\d+ +)?execve\("(?P<path>[^"]*)".* = 0$')
READ_BY_SYSTEMS = (
    *SYSTEM,
    *map(
        Path,
        (
            "/proc",
            "/sys",
            "/dev",
            "/etc/localtime",
            "/etc/locale.alias",
            "/etc/ssl",
            "/usr/share/zoneinfo",
            "/usr/share/fontconfig",
            "/usr/share/locale",
        ),
    ),
    *(Path(entry).resolve() for entry in sys.path if entry),
)
"""What Python, the C library and the font library look at on Linux."""
HOSTILE = Attack(
    "many at once",
    {
        **text("::: note\n[see](http://evil.example/) ![see](http://evil.example/a.png)\n:::\n"),
        "pattern.yaml": header("title: <4 sts> </title><img src=file:///etc/passwd>\n".replace("<4 sts> ", "")),
        "styles/parts/tokens.css": "@import url(http://evil.example/a.css); body{background:url(file:///etc/passwd)}",
        "notes.txt": link("outside/secret.md"),
        "more": link("outside"),
        "pipe": pipe,
    },
    "",
)


@pytest.mark.skipif(not shutil.which("strace"), reason="not run: strace is not there (apt-get install strace)")
@pytest.mark.parametrize(
    "command", [("check", "bad"), ("build", "bad", "--draft", "--edition", "all_sizes")], ids=" ".join
)
def test_nothing_outside_is_opened_and_no_socket_made(command: tuple[str, ...], tmp_path: Path) -> None:
    workspace, log = put(HOSTILE, tmp_path), tmp_path / "log"
    (tmp_path / "temporary").mkdir()
    trace = ["strace", "-f", "-qq", "-o", str(log), "-e", "trace=open,openat,socket,connect,execve"]
    done = subprocess.run(
        [*trace, sys.executable, "-m", "stitchproof", *command],
        cwd=workspace,
        env={
            "HOME": str(tmp_path / "temporary"),
            "PATH": "/usr/bin:/bin",
            "PYTHONDONTWRITEBYTECODE": "1",
            "PYTHONPATH": str(CLONE / "compiler"),
            "TMPDIR": str(tmp_path / "temporary"),
        },
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    if "ptrace" in done.stderr and not log.stat().st_size:
        pytest.skip("not run: strace may not look at processes here")
    assert done.returncode in (0, 1, 2), done.stderr
    calls = log.read_text("utf-8", "replace").splitlines()
    allowed = (workspace.resolve(), (tmp_path / "temporary").resolve(), *PROGRAM, *READ_BY_SYSTEMS)
    opened = {match["path"]: match["how"] for call in calls if (match := OPENED.match(call))}
    assert len(opened) > 100
    beyond = [path for path in opened if not any(Path(path).resolve().is_relative_to(each) for each in allowed)]
    assert not beyond, "\n".join(beyond)
    written = [path for path, how in opened.items() if "O_WRONLY" in how or "O_RDWR" in how]
    ours = (workspace.resolve(), (tmp_path / "temporary").resolve(), Path("/dev"))
    assert [path for path in written if not any(Path(path).is_relative_to(each) for each in ours)] == []
    assert not [call for call in calls if "socket(" in call or "connect(" in call]
    assert len([call for call in calls if RUN.match(call)]) == 1  # Python itself
