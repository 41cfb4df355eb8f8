"""Input of any kind: sources that no designer meant, each answered by a report that names a place, and never by a crash.

Each case is the smallest pattern with one thing put in its way. What is asked of all of them: exit code 1 or 2, the expected
rule among the reports, a place that exists, nothing of our own failures. The numbers and sizes of the cases are invented.
"""

from __future__ import annotations

import os
import re
import signal
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType

import pytest

from stitchproof.command_line import main
from tests.checks.smallest_pattern import SMALLEST, SMALLEST_TEXT
from tests.garments.bad_sources import (
    BODIES,
    BODIES_ONE_CAUSE,
    CSV_FILES,
    FOLDERS,
    FORMULAS,
    FRAGMENTS,
    HEADERS,
    ONE_CAUSE,
    ROW,
    TEXTS,
    Files,
)

GIVES_UP_AFTER = 60
"""Seconds. A guard against a run that never ends; no case is timed."""


def _folder(path: Path) -> None:
    path.mkdir()


def _link_out(path: Path) -> None:
    outside = path.parents[2] / "outside.md"
    outside.write_text("secret\n", encoding="utf-8")
    path.symlink_to(outside)


def _link_to_nothing(path: Path) -> None:
    path.symlink_to("nowhere")


def _link_to_itself(path: Path) -> None:
    path.symlink_to(path.name)


def _endless(path: Path) -> None:
    path.symlink_to("/dev/zero")


ODD_FILES: dict[str, Callable[[Path], None]] = {
    "a folder": _folder,
    "a pipe that nobody writes to": lambda path: os.mkfifo(path),
    "a link out of the folder": _link_out,
    "a link to nothing": _link_to_nothing,
    "a link to itself": _link_to_itself,
    "a link to an endless file": _endless,
}
"""What stands where a file should."""


@pytest.fixture(autouse=True)
def gives_up() -> Iterator[None]:
    """End a run that does not end by itself."""

    def stop(_signal: int, _frame: FrameType | None) -> None:
        raise TimeoutError("the run did not end by itself")

    held = signal.signal(signal.SIGALRM, stop)
    signal.alarm(GIVES_UP_AFTER)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, held)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The smallest pattern, in a workspace of its own."""
    pattern = tmp_path / "pattern_sources" / "bad"
    pattern.mkdir(parents=True)
    (pattern / "pattern.yaml").write_text("".join(SMALLEST.values()), encoding="utf-8")
    (pattern / "text.md").write_text(f"{SMALLEST_TEXT}\n{ROW}", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return pattern


def test_the_smallest_pattern_is_good(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What the cases start from has no fault, so that each fault is the case's own. That its row stands on nothing is a note."""
    assert main(["check", str(folder)]) == 0
    assert capsys.readouterr().err.endswith("\n1 note in bad\n")


@pytest.mark.parametrize("name", HEADERS)
def test_headers(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All of pattern.yaml is something else."""
    code, content = HEADERS[name]
    _put(folder, {"pattern.yaml": content})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", FRAGMENTS)
def test_fragments(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One part of pattern.yaml is wrong."""
    code, fragment = FRAGMENTS[name]
    _put(folder, {"pattern.yaml": _merged(fragment)})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", ONE_CAUSE)
def test_one_cause_is_one_report(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What follows from a fault is silent."""
    code, fragment = ONE_CAUSE[name]
    _put(folder, {"pattern.yaml": _merged(fragment)})
    assert _reported(_refused(folder, code, capsys)) == [code]


def test_a_file_of_nothing_is_one_report(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A null is no group of keys; which keys it lacks is not told as well."""
    _put(folder, {"pattern.yaml": "~\n"})
    assert _reported(_refused(folder, "SP018", capsys)) == ["SP018"]


@pytest.mark.parametrize("name", FORMULAS)
def test_formulas(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One number is wrong."""
    code, formula = FORMULAS[name]
    _put(folder, {"pattern.yaml": _merged(f"counts:\n  a: {formula}\n")})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", TEXTS)
def test_texts(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One text is wrong."""
    code, text = TEXTS[name]
    _put(folder, {"text.md": f"{SMALLEST_TEXT}\n{text}"})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", FOLDERS)
def test_folders(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file is missing, is no text, or has a name that nobody expects."""
    code, files = FOLDERS[name]
    _put(folder, files)
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", BODIES)
def test_body_tables(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A body table is named wrongly, or the file it stands in is wrong."""
    code, fragment, files = BODIES[name]
    _put(folder, {"pattern.yaml": _merged(fragment), **files})
    said = _refused(folder, code, capsys)
    assert "root:" not in said
    assert all(len(line) < 12_000 for line in said.split("\n"))


@pytest.mark.parametrize("name", CSV_FILES)
def test_csv_files(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The file of a body table is wrong; a fault of its cells is shown in the file."""
    code, content = CSV_FILES[name]
    _put(folder, {"pattern.yaml": _merged("body: {csv: body.csv}\n"), "body.csv": content})
    said = _refused(folder, code, capsys)
    assert code != "SP079" or re.search(r"--> pattern_sources/bad/body\.csv:\d+:\d+$", said, re.MULTILINE)


@pytest.mark.parametrize("name", BODIES_ONE_CAUSE)
def test_one_cause_of_a_body_table(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What follows from a fault of the table is silent."""
    code, fragment, files = BODIES_ONE_CAUSE[name]
    _put(folder, {"pattern.yaml": _merged(fragment), **files})
    assert _reported(_refused(folder, code, capsys)) == [code]


@pytest.mark.parametrize("name", ODD_FILES)
def test_odd_body_files(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What stands in the place of a CSV file is no file of this folder; nothing of it is read or shown."""
    _put(folder, {"pattern.yaml": _merged("body: {csv: body.csv}\n")})
    ODD_FILES[name](folder / "body.csv")
    assert "secret" not in _refused(folder, "SP011", capsys)


@pytest.mark.parametrize("file", ["pattern.yaml", "text.md"])
@pytest.mark.parametrize("name", ODD_FILES)
def test_odd_files(name: str, file: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What stands in the place of a file is no file of this folder; nothing of it is read or shown."""
    (folder / file).unlink()
    ODD_FILES[name](folder / file)
    assert "secret" not in _refused(folder, "SP011", capsys)


def test_a_pattern_that_is_a_link_out_of_the_workspace(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder from a stranger cannot show what stands elsewhere on the machine; asked for by its own path it can."""
    outside = folder.parents[1] / "elsewhere" / "pattern_sources" / "good"
    outside.mkdir(parents=True)
    inside = folder.parents[1] / "within"
    (inside / "pattern_sources").mkdir(parents=True)
    for name in ("pattern.yaml", "text.md"):
        (outside / name).write_bytes((folder / name).read_bytes())
    (inside / "pattern_sources" / "good").symlink_to(outside)
    os.chdir(inside)
    for asked in ("good", "pattern_sources/good", str(inside / "pattern_sources" / "good")):
        assert main(["check", asked]) == 2
        assert "is not a pattern folder" in capsys.readouterr().err
    assert main(["check", str(outside)]) == 0


@pytest.mark.parametrize("is_file", [True, False])
def test_shared_texts_that_are_not_there(is_file: bool, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file, or a link out of the workspace, in the place of shared_text."""
    shared = folder.parent / "shared_text"
    elsewhere = folder.parents[1] / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "a.md").write_text("secret\n", encoding="utf-8")
    if is_file:
        shared.write_text("", encoding="utf-8")
    else:
        shared.symlink_to(elsewhere)
    assert main(["check", str(folder)]) == 1
    said = capsys.readouterr().err
    assert "SP011" in said
    assert "secret" not in said


@pytest.mark.parametrize("name", ["nowhere", "pattern_sources/bad/text.md", "a\nb", "a\0b", "x" * 5000, ""])
def test_patterns_that_are_not_there(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """No folder, no pattern: the command says so and does not run."""
    assert folder.is_dir()
    assert main(["check", name]) == 2
    headline = capsys.readouterr().err.split("\n")[0]
    assert "SP011" in headline
    assert len(headline) < 300


def _merged(fragment: str) -> str:
    """The smallest pattern.yaml with the keys of a fragment in place of its own."""
    own = set(re.findall(r"^(\w+):", fragment, re.MULTILINE))
    return "".join(text for key, text in SMALLEST.items() if key not in own) + fragment


def _put(folder: Path, files: Files) -> None:
    for name, content in files.items():
        if content is None:
            (folder / name).unlink()
        else:
            (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))


def _refused(folder: Path, code: str, capsys: pytest.CaptureFixture[str]) -> str:
    """Check the pattern; hold what is asked of every bad source. What was printed."""
    exit_code = main(["check", str(folder)])
    printed = capsys.readouterr()
    said = printed.out + printed.err
    assert exit_code in (1, 2), said
    assert "SP000" not in said
    assert "Traceback" not in said
    assert code in _reported(said), said
    places = re.findall(r"--> pattern_sources/bad/(?P<name>[^:]*):(?P<line>\d+):(?P<column>\d+)$", said, re.MULTILINE)
    assert places, said
    for name, line, _ in places:
        assert int(line) <= max(1, _lines(folder / name)), said
    return said


def _reported(said: str) -> list[str]:
    return re.findall(r"^(?:error|warning|note)\[(SP\d{3}) ", said, re.MULTILINE)


def _lines(path: Path) -> int:
    """Lines of a file, by any of the three ways to end one; none where there is no file to read."""
    return len(re.split(rb"\r\n|\r|\n", path.read_bytes())) if path.is_file() and not path.is_symlink() else 0
