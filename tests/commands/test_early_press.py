"""The press that begins while the command is being loaded: only where it will be needed, and never left running."""

from multiprocessing import active_children
from pathlib import Path

import pytest

from stitchproof import early_press
from stitchproof.early_press import give_up, start_early, take_early
from stitchproof.editions import presses
from stitchproof.editions.made_with import KeptPdfs
from stitchproof.editions.presses import Presses
from stitchproof.processes import can_fork

NOTHING_KEPT = KeptPdfs("made with this")


@pytest.fixture
def started(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Presses]:
    """Those that were warmed up, in a workspace with two patterns, of which one was built before."""
    for name in ("new", "old"):
        (tmp_path / "pattern_sources" / name).mkdir(parents=True)
    for place in (tmp_path / "build" / "old", tmp_path / "elsewhere" / "new"):
        place.mkdir(parents=True)
        (place / ".made_from.json").write_text("{}")
    warm: list[Presses] = []
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(Presses, "warm_up", lambda self: warm.append(self))
    monkeypatch.setattr(early_press, "_waiting", [])
    return warm


@pytest.mark.parametrize(
    ("words", "is_new"),
    [
        ("new", True),
        ("pattern_sources/new --draft", True),
        ("old", False),
        ("old --to elsewhere", True),
        ("old --strict --to=elsewhere", True),
        ("new --to elsewhere --strict", False),
        ("new --to=elsewhere", False),
        ("new old", False),
        ("nowhere", False),
        ("--all", False),
        ("--edition all_sizes new", False),
        ("", False),
        ("new --to", True),
    ],
)
def test_it_begins_for_one_pattern_that_was_not_built_before(words: str, is_new: bool, started: list[Presses]) -> None:
    start_early(words.split())
    assert len(started) == is_new
    taken = take_early(NOTHING_KEPT)
    assert (taken is None) == (started == [])
    assert taken is None or (taken is started[0] and taken.kept is NOTHING_KEPT)
    assert take_early(NOTHING_KEPT) is None


@pytest.mark.parametrize("kept", [KeptPdfs("made with this", {"page": (b"PDF", {})}), KeptPdfs()])
def test_where_something_is_kept_or_there_is_nothing_to_build_it_is_given_up(
    kept: KeptPdfs, started: list[Presses], monkeypatch: pytest.MonkeyPatch
) -> None:
    closed: list[Presses] = []
    monkeypatch.setattr(Presses, "close", lambda self: closed.append(self))
    start_early(["new"])
    assert take_early(kept) is None
    assert closed == started != []


@pytest.mark.skipif(not can_fork(), reason="nothing begins early")
def test_nothing_goes_on_running(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "pattern_sources" / "new").mkdir(parents=True)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(presses, "processors", lambda: 2)
    start_early(["new"])
    assert len(active_children()) == 2
    give_up()
    assert not active_children()
