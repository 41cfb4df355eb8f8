"""What strangers send ends in a report, and nothing is read, written, started or fetched outside.

All attacks run in this process under an audit hook; each has a workspace of its own, and beside it what must not be touched.
"""

from __future__ import annotations

import gc
import os
import signal
import tempfile
from collections.abc import Iterator
from pathlib import Path
from types import FrameType
from unicodedata import category

import pytest

from stitchproof.command_line import main
from tests.checks.smallest_pattern import SMALLEST_TEXT
from tests.hostile.attacks import IN_PATTERNS, ROW, SECRET, Attack, header
from tests.hostile.sent_back import SENT_BACK
from tests.hostile.watch import watched

ALL = (*IN_PATTERNS, *SENT_BACK)
GIVES_UP_AFTER = 60
"""Seconds. A guard against a run that never ends; no attack is timed."""


@pytest.fixture(autouse=True)
def gives_up() -> Iterator[None]:
    """End a run that does not end by itself, whatever it catches."""

    class NoEnd(BaseException):
        pass

    def stop(_signal: int, _frame: FrameType | None) -> None:
        raise NoEnd

    held = signal.signal(signal.SIGALRM, stop)
    signal.alarm(GIVES_UP_AFTER)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, held)


def put(attack: Attack, root: Path) -> Path:
    """The smallest pattern with the attack in it, in a workspace, and the secret beside that. The workspace."""
    workspace = root / "workspace"
    folder = workspace / "pattern_sources" / "bad"
    folder.mkdir(parents=True)
    (root / "outside" / "bad").mkdir(parents=True)
    for name in ("secret.md", "edition.yaml", "bad/record.json"):
        (root / "outside" / name).write_text(f"{SECRET}\n", encoding="utf-8")
    files = attack.files() if callable(attack.files) else attack.files
    for name, content in {"pattern.yaml": header(), "text.md": f"{SMALLEST_TEXT}\n{ROW}", **files}.items():
        path = Path(os.path.normpath(folder / name))
        path.parent.mkdir(parents=True, exist_ok=True)
        if callable(content):
            content(path)
        else:
            path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8", "surrogatepass"))
    return workspace


def files_below(folder: Path) -> dict[str, bytes]:
    """What lies in a folder, links not followed."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.is_symlink()
    }


@pytest.mark.parametrize("attack", ALL, ids=lambda attack: attack.name)
def test_ends_in_a_report(
    attack: Attack, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    workspace = put(attack, tmp_path)
    outside, temporary = files_below(tmp_path / "outside"), tmp_path / "temporary"
    temporary.mkdir()
    monkeypatch.chdir(workspace)
    monkeypatch.setattr(tempfile, "tempdir", str(temporary))
    monkeypatch.setattr("stitchproof.editions.presses.processors", lambda: 1)  # in this process, under the hook
    with watched(workspace, temporary) as beyond:
        code = main(list(attack.command))
        if any(temporary.iterdir()):
            gc.collect()  # what the renderer still holds there
    printed = capsys.readouterr()
    said = printed.out + printed.err
    assert code in (0, 1, 2), said
    assert (attack.expected in said) if attack.expected != "clean" else code == 0, said
    assert "SP000" not in said
    assert "Traceback" not in said
    assert not [sign for sign in said if category(sign) in ("Cc", "Cf") and sign not in "\n\t"]
    assert beyond == []
    assert files_below(tmp_path / "outside") == outside
    assert files_below(temporary) == {}
    build = workspace / "build"
    built = {} if build.is_symlink() else files_below(build)
    for words in (SECRET, "root:", *attack.never):
        assert words not in said or words in attack.never, words
        assert not [
            name for name, content in built.items() if words.encode() in content and not name.endswith(".json")
        ], words


def test_there_are_enough_attacks() -> None:
    assert len({attack.name for attack in ALL}) == len(ALL) >= 230
