"""`stitchproof preview` as a user types it: what it prints, how it ends."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from stitchproof.command_line import main
from tests.architecture.code_reader import SOURCE_ROOT
from tests.preview.running import HAT, Known, get, workspace_with


def test_it_prints_its_address_and_ends_with_ctrl_c(tmp_path: Path) -> None:
    command = [sys.executable, "-W", "error", "-m", "stitchproof", "preview", HAT, "--no-browser"]
    process = subprocess.Popen(
        command,
        cwd=workspace_with(tmp_path, HAT),
        env={"PYTHONPATH": str(SOURCE_ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    first = process.stdout.readline()
    assert first.startswith(f"The page of {HAT} is at  http://127.0.0.1:")
    assert "Ctrl-C" in process.stdout.readline()
    assert get(Known.at(first.split()[-1]), "page").status == 200
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=60)
    assert (process.returncode, out, err) == (0, "", "")


def test_a_port_that_is_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(workspace_with(tmp_path, HAT))
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        assert main(["preview", HAT, "--port", str(port)]) == 2
    told = f"stitchproof: port {port} is taken; leave --port out for one that is free, or name another one\n"
    assert capsys.readouterr() == ("", told)


def test_no_such_pattern(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(workspace_with(tmp_path, HAT))
    assert main(["preview", "cobblewick_mitten"]) == 2
    assert capsys.readouterr().err == (
        "stitchproof: cobblewick_mitten is not a pattern folder, nor a name under pattern_sources/; "
        "the patterns here are cobblewick_hat\n"
    )


@pytest.mark.parametrize("port", ["0", "65536", "-1", "http", "1e3", "٣"])
def test_a_port_that_is_none(port: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["preview", HAT, "--port", port])
    assert ended.value.code == 2
    assert "a port is a number from 1 to 65535" in capsys.readouterr().err or port == "-1"
