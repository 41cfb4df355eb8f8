"""Files of a build are put in place whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import delivery
from stitchproof.delivery import deliver

OLD = {"hat.html": b"old page", "gone.pdf": b"old sheet"}
NEW = {"hat.html": b"new page", "hat.pdf": b"new sheet"}


def contents(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.iterdir()}


@pytest.fixture(params=["exchange", "two renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways of swapping: in one step, and where the system cannot do that."""
    if request.param == "two renames":
        monkeypatch.setattr(delivery, "_exchanged", lambda *_: False)
    return str(request.param)


def test_first_build(tmp_path: Path, way: str) -> None:
    """A folder that was not there is there whole, and nothing else is left beside it."""
    assert deliver(tmp_path / "build" / "hat", NEW) == (
        tmp_path / "build" / "hat" / "hat.html",
        tmp_path / "build" / "hat" / "hat.pdf",
    )
    assert contents(tmp_path / "build" / "hat") == NEW
    assert [each.name for each in (tmp_path / "build").iterdir()] == ["hat"]


def test_later_build_replaces_all_of_it(tmp_path: Path, way: str) -> None:
    """No file of the earlier build stays behind."""
    deliver(tmp_path / "hat", OLD)
    deliver(tmp_path / "hat", NEW)
    assert contents(tmp_path / "hat") == NEW
    assert [each.name for each in tmp_path.iterdir()] == ["hat"]


def test_failure_while_writing_leaves_the_earlier_build(
    tmp_path: Path, way: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk, half way through: the earlier build is untouched and nothing is left beside it."""
    deliver(tmp_path / "hat", OLD)
    written: list[str] = []

    def full(path: Path, content: bytes) -> int:
        if written:
            raise OSError(28, "No space left on device", str(path))
        written.append(path.name)
        return len(content)

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", full)
        with pytest.raises(OSError, match="No space left"):
            deliver(tmp_path / "hat", NEW)
    assert contents(tmp_path / "hat") == OLD
    assert [each.name for each in tmp_path.iterdir()] == ["hat"]


def test_build_killed_between_the_two_renames_is_completed(tmp_path: Path) -> None:
    """The earlier build was moved aside and the new one never came: the next build finds it again first."""
    deliver(tmp_path / "hat", OLD)
    (tmp_path / "hat").rename(tmp_path / ".hat.old-")
    delivery.finish_interrupted(tmp_path / "hat")
    assert contents(tmp_path / "hat") == OLD
    (tmp_path / "hat").rename(tmp_path / ".hat.old-")
    deliver(tmp_path / "hat", NEW)
    assert contents(tmp_path / "hat") == NEW
    assert [each.name for each in tmp_path.iterdir()] == ["hat"]
