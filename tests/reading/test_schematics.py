"""Drawings as they are written: every way to get one wrong ends in a report that says what to write instead."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.expansion.document import Schematics, blocks_of

TOP = """\
dialect: 1
title: Drawn
revision: 1
date: 2026-01-01
designer: A Designer
contact: a@example.org
sizes: {names: [S, M, L]SAMPLE}
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}
pieces:
  piece: {gauge: fabric, worked: rows}
measures:
  width: {by_hand: [40, 44, 48], unit: cm}
  unsure: nowhere * 2
schematics:
  piece:
"""
PANEL = "    panel: {width: width, height: 30 cm}\n"
SQUARE = "    outline:\n      a: start\n      b: {right: width}\n      c: {up: 30 cm}\n      d: {left: width}\n"

WRONG = {
    "no shape": ("    title: Nothing\n", "SP018", "one shape"),
    "two shapes": (PANEL + SQUARE, "SP018", "one shape"),
    "a shape half told": ("    panel: {width: width}\n", "SP019", "height"),
    "a length that is a count": ("    panel: {width: 40 sts, height: 30 cm}\n", "", "length"),
    "a bare number": ("    panel: {width: 40, height: 30 cm}\n", "", "length"),
    "a corner without a way": ("    outline:\n      a: start\n      b: {curve: across then up}\n", "SP018", "how far"),
    "a curve that is none": (SQUARE.replace("{up: 30 cm}", "{up: 30 cm, curve: round}"), "SP018", "across then up"),
    "a line to nowhere": (SQUARE + "    lines: [[a, e]]\n", "SP033", "a corner of this drawing"),
    "a line with three ends": (SQUARE + "    lines: [[a, b, c]]\n", "SP018", "two corners"),
    "a measure to nowhere": (
        SQUARE + "    measures:\n      - {label: W, shows: width, from: a, to: q}\n",
        "SP033",
        "a corner of this drawing",
    ),
    "a measure without an end": (SQUARE + "    measures:\n      - {label: W, shows: width, from: a}\n", "SP019", "to"),
    "an unknown length": (SQUARE.replace("right: width", "right: widht"), "SP007", "width"),
    "a label of no length": (PANEL + "    measures: {depth: Depth}\n", "SP017", "depth"),
    "a piece that is none": (SQUARE + "    of: [peace]\n", "SP033", "piece"),
    "an image where there is none": (
        SQUARE + "    measures:\n      - {label: W, shows: width, from: other a, to: b}\n",
        "SP033",
        "a corner of this drawing",
    ),
    "words instead of a drawing": ("    a square\n", "SP018", "keys with values"),
}


def findings(body: str, folder: Path, sample: str = "") -> list[tuple[str, str]]:
    pattern = folder / "pattern_sources" / "drawn"
    pattern.mkdir(parents=True)
    text = TOP.replace("SAMPLE", f", sample: {sample}" if sample else "") + body
    (pattern / "pattern.yaml").write_text(text.replace("  unsure: nowhere * 2\n", ""), encoding="utf-8")
    (pattern / "text.md").write_text("## Piece {piece}\n", encoding="utf-8")
    found = check_pattern(pattern, within=folder).findings
    return [(each.page.code, " ".join([each.headline, *each.help])) for each in found]


@pytest.mark.parametrize("body", [PANEL, SQUARE])
def test_a_shape_is_enough_for_a_drawing(body: str, tmp_path: Path) -> None:
    assert findings(body, tmp_path) == []


@pytest.mark.parametrize("name", WRONG)
def test_what_is_wrong_is_told_once(name: str, tmp_path: Path) -> None:
    body, code, words = WRONG[name]
    found = findings(body, tmp_path)
    assert len(found) == 1, found
    assert found[0][0] == code or not code
    assert words in found[0][1]


def test_a_sample_in_a_size_that_is_none(tmp_path: Path) -> None:
    ((code, words),) = findings(PANEL, tmp_path, sample="XL")
    assert (code, "`XL` is not a size of this pattern" in words) == ("SP033", True)


def test_what_is_not_known_is_not_drawn_and_not_reported_again(tmp_path: Path) -> None:
    """One root cause, one report; the other drawing is drawn."""
    pattern = tmp_path / "pattern_sources" / "drawn"
    pattern.mkdir(parents=True)
    second = PANEL.replace("width: width", "width: unsure") + "  other:\n" + PANEL
    (pattern / "pattern.yaml").write_text(TOP.replace("SAMPLE", "") + second, encoding="utf-8")
    (pattern / "text.md").write_text("## Piece {piece}\n", encoding="utf-8")
    outcome = check_pattern(pattern, within=tmp_path)
    assert [each.page.name for each in outcome.findings] == ["unknown-name"]
    assert outcome.written is not None
    (block,) = [each for each in blocks_of(outcome.written.document) if isinstance(each, Schematics)]
    assert [each.name for each in block.drawings] == ["other"]
