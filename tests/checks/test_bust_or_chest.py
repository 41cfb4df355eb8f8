"""What the measure around the body is called where it is missing (common practice, no source)."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from tests.checks.smallest_pattern import write_example

TEXT = "## Yoke {yoke}\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nFasten off.\n"


@pytest.mark.parametrize(
    ("yaml", "word"),
    [
        ("", "bust"),
        ("audience: [adult]\n", "bust"),
        ("audience: [child]\n", "chest"),
        ("audience: [baby, toddler]\n", "chest"),
        ("audience: [child, adult]\n", "bust or chest"),
        ("title: Baby Jacket\n", "chest"),
        ("sizes: {names: [6 months, 12 months]}\n", "chest"),
        ("sizes: {names: [M, L]}\nbody: {from: men}\n", "chest"),
    ],
)
def test_a_child_and_a_man_have_a_chest(yaml: str, word: str, tmp_path: Path) -> None:
    pieces = "pieces:\n  yoke: {gauge: fabric, worked: rows}\n"
    folder = write_example(Example(yaml + pieces, TEXT, None, ()), tmp_path)
    (found,) = (each for each in check_pattern(folder, within=tmp_path).findings if each.page.code == "SP111")
    assert f"have no {word}, no length" in found.headline
    assert found.help[0] == f"add a line for the {word} to `finished`"
