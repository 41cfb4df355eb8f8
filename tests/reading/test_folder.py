"""Which files are read, and which are refused: nothing outside the folder, nothing that is not text, nothing without end."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from tests.checks.smallest_pattern import FOUNDED, SMALLEST, write_example


def found(folder: Path, within: Path) -> list[tuple[str, str]]:
    """Code and headline of each finding."""
    return [(each.page.code, each.headline) for each in check_pattern(folder, within=within).findings]


def pattern(tmp_path: Path, yaml: str = "title: Hat\n", text: str = FOUNDED) -> Path:
    """A small pattern in a folder of its own."""
    return write_example(Example(yaml, text, None), tmp_path)


def test_texts_stand_in_the_order_that_is_asked_for(tmp_path: Path) -> None:
    folder = pattern(tmp_path, "texts: [b.md, text.md]\n")
    (folder / "b.md").write_text("Before everything.\n", encoding="utf-8")
    (folder / "not_asked_for.md").write_text("## Not printed\n\nx\n", encoding="utf-8")
    outcome = check_pattern(folder, within=tmp_path)
    assert outcome.findings == ()
    assert outcome.sized is not None
    assert [text.name for text in outcome.sized.source.texts] == ["b.md", "text.md"]


@pytest.mark.parametrize("name", ["../secret.md", "/etc/passwd", "a/../../secret.md", "missing.md", "sub"])
def test_only_files_of_the_folder_are_read(name: str, tmp_path: Path) -> None:
    folder = pattern(tmp_path, f"texts: [{name}]\n")
    (folder / "sub").mkdir()
    (folder.parent / "secret.md").write_text("Secret.\n", encoding="utf-8")
    assert [code for code, _ in found(folder, tmp_path)] == ["SP011"]


def test_links_out_of_the_folder_and_pipes_are_refused(tmp_path: Path) -> None:
    folder = pattern(tmp_path)
    (tmp_path / "secret.md").write_text("Secret.\n", encoding="utf-8")
    (folder / "link.md").symlink_to(tmp_path / "secret.md")
    (folder / "turns.md").symlink_to(folder / "turns.md")
    os.mkfifo(folder / "pipe.md")
    assert [code for code, _ in found(folder, tmp_path)] == ["SP011"] * 3


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"caf\xe9\n", "is not text in UTF-8 (line 1)"),
        (b"a\nb\n\xff", "is not text in UTF-8 (line 3)"),
        (b"a\x00b\n", "U+0000"),
        (b"a\x1b[31mb\n", "U+001B"),
        ("a\ue000b\n".encode(), "U+E000"),
        ("a\uf8ffb\n".encode(), "U+F8FF"),
    ],
)
def test_what_is_not_text_is_refused(data: bytes, words: str, tmp_path: Path) -> None:
    folder = pattern(tmp_path)
    (folder / "z.md").write_bytes(data)
    ((code, headline),) = found(folder, tmp_path)
    assert code == "SP011"
    assert words in headline


def test_a_file_and_a_folder_are_of_sensible_size(tmp_path: Path) -> None:
    folder = pattern(tmp_path)
    (folder / "large.md").write_text("a" * 2_000_001, encoding="utf-8")
    assert [code for code, _ in found(folder, tmp_path)] == ["SP016"]
    (folder / "large.md").unlink()
    for number in range(200):
        (folder / f"u{number:03}.md").write_text("x\n", encoding="utf-8")
    assert [code for code, _ in found(folder, tmp_path)] == ["SP016"]


def test_a_folder_without_a_pattern_says_so(tmp_path: Path) -> None:
    (tmp_path / "hat").mkdir()
    assert [code for code, _ in found(tmp_path / "hat", tmp_path)] == ["SP011"]


def test_a_line_of_the_table_of_sizes_is_one_slot(tmp_path: Path) -> None:
    """A line with words around its slot was once left out of the table without a word."""
    folder = pattern(tmp_path, "measures: {depth: 4 cm}\nfinished:\n  Depth: about <depth>\n")
    assert [code for code, _ in found(folder, tmp_path)] == ["SP018"]


def test_smallest_pattern_is_clean(tmp_path: Path) -> None:
    assert found(pattern(tmp_path, "".join(SMALLEST.values())), tmp_path) == []
