"""Pieces in sizes of their own: printed where they still meet, refused with the counts where they don't."""

from __future__ import annotations

from pathlib import Path

import pypdf
import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import check_pattern
from stitchproof.command_line import main
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import make_editions
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.house_words import with_words
from stitchproof.editions.set_type import set_type
from stitchproof.simulation.pieces_in_sizes import Tried
from tests.architecture.code_reader import CLONE
from tests.editions.demos import SHIPPED, document_of, written
from tests.editions.drawn_pages import schematics_of
from tests.editions.page_text import block_texts, document_blocks

SLEEVED = """\
dialect: 1
title: Plain Pullover Front
sizes: {names: [S, M, L, XL]}
counts:
  body_sts: {by_hand: [40, 44, 48, 52], unit: sts}
  armhole_sts: {by_hand: [20, 20, 24, 24], unit: sts}
  sleeve_rows: {by_hand: [30, 34, 38, 40], unit: rows}
  rest: body_sts - armhole_sts
pieces:
  body: {worked: rows}
  sleeve: {worked: rows, starts_from: [body]}
"""
TEXT = """\
## Body {body}

Ch <body_sts + 1>.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — <body_sts> sc
Row 2: Ch 1, sc in each of next <armhole_sts> sts, turn, leaving rem sts unworked. — <armhole_sts> sc

## Sleeve {sleeve}

Row 1: Ch 1, sc in each of next <armhole_sts> sts, turn. — <armhole_sts> sc
Row 2: Ch 1, sc in each st across, turn. — <armhole_sts> sc
Rep Row 2 until <sleeve_rows> rows are complete. Fasten off. — <armhole_sts> sc
"""


@pytest.fixture
def pullover(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "pattern_sources" / "pullover"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(SLEEVED, encoding="utf-8")
    (folder / "10_rows.md").write_text(TEXT, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return folder


@pytest.mark.parametrize("name", SHIPPED)
def test_a_garment_in_one_size_meets(name: str) -> None:
    pattern = written(name)
    pieces, tried = [piece.name for piece in pattern.document.pieces], Tried(pattern)
    for size in range(len(pattern.document.sizes.names)):
        assert tried.slips(dict.fromkeys(pieces, size)) == ()
        assert tried.meeting(dict.fromkeys(pieces, size)) is None


def test_pieces_meet_where_the_armhole_is_the_same(pullover: Path) -> None:
    found = check_pattern(pullover).written
    assert found is not None
    tried = Tried(found)
    assert tried.sizes_that_meet({"body": 0, "sleeve": 3}, "sleeve") == (0, 1)
    assert tried.sizes_that_meet({"body": 3, "sleeve": 0}, "sleeve") == (2, 3)


def test_pieces_that_meet_are_printed_each_in_its_size(pullover: Path) -> None:
    assert main(["build", "pullover", "--size", "body=S", "--size", "sleeve=M"]) == 0
    files = sorted(file.name for file in Path("build/pullover").iterdir())
    assert "plain_pullover_front_sizes_s_m.pdf" in files
    pages = pypdf.PdfReader("build/pullover/plain_pullover_front_sizes_s_m.pdf").pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert "Size S, sleeve in size M" in text
    assert "— 40 sc" in text
    assert "Rep Row 2 until 34 rows are complete." in text


def test_yarn_and_drawings_of_pieces_in_sizes_of_their_own() -> None:
    """Yarn is counted for whole garments: the page says so. A piece is drawn in the size that it is worked in."""
    waistcoat = document_of("thornhollow_waistcoat")
    own = {piece.name: 3 for piece in waistcoat.pieces} | {"right_front": 4}
    printed = with_words(set_type(choose_sizes(waistcoat, (3, 4), own)), find_edition("one_size", ()).words)
    (materials,) = [section for section in printed.sections if section.key == "materials"]
    assert "buy for the larger one" in block_texts(materials.blocks[-1])[0]
    assert "350 (380) g" in block_texts(materials.blocks[0])[0]
    assert [each.drawn_for for each in schematics_of(printed).drawings] == ["", "Drawn for size 5."]
    whole = with_words(set_type(choose_sizes(waistcoat, (3, 4))), find_edition("one_size", ()).words)
    assert "whole garment" not in " ".join(document_blocks(whole))


def test_a_tester_of_pieces_in_sizes_of_their_own_gets_no_worksheet() -> None:
    document = document_of("cobblewick_hat")
    own = {piece.name: 3 for piece in document.pieces} | {"crown": 4}
    (copy,) = make_editions(choose_sizes(document, (3, 4), own), ["testers_copy"])
    assert sorted(file.name.rpartition(".")[2] for file in copy.files) == ["html", "pdf"]


def test_the_size_named_first_is_that_of_all_others(pullover: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", "pullover", "--size", "XL", "--size", "sleeve=S"]) == 2
    shown = capsys.readouterr().err
    assert "sleeve in size S does not meet the other pieces in size XL" in shown
    assert "sleeve meets the others in size L, XL" in shown
    assert not Path("build/pullover").exists()


@pytest.mark.parametrize(
    ("asked", "told"),
    [("sleave=S", "`sleave` is not a piece of this pattern"), ("sleeve=Q", "`Q` is not a size of this pattern")],
)
def test_what_is_not_there(asked: str, told: str, pullover: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", "pullover", "--size", asked]) == 2
    assert told in capsys.readouterr().err


@pytest.mark.parametrize(
    ("pattern", "sizes"),
    [
        ("saltmarrow_yoke_top", ["body=4", "sleeve=6"]),
        ("saltmarrow_yoke_top", ["4", "neckband=5"]),
        ("thornhollow_waistcoat", ["4", "right_front=5", "left_front=5"]),
        ("cobblewick_hat", ["Adult", "brim=Child"]),
    ],
)
def test_pieces_of_the_demos_that_do_not_meet(
    pattern: str,
    sizes: list[str],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    snapshot: SnapshotAssertion,
) -> None:
    monkeypatch.chdir(CLONE)
    assert main(["build", pattern, *(word for size in sizes for word in ("--size", size))]) == 2
    assert capsys.readouterr().err == snapshot
