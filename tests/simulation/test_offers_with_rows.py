"""A whole number that is offered for a count with a fraction is one with which the rows still come out."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.pipeline import check_pattern

HEADER = """\
dialect: 1
title: Mitts
terms: US
sizes: {names: [S, M]}
counts:
  around: {by_hand: [33, 34], unit: sts}
  half: around / 2
pieces: {hand: {worked: joined rounds, edge: [around]}}
"""


def _not_whole(row: str, folder: Path) -> Diagnostic:
    (folder / "pattern.yaml").write_text(HEADER, encoding="utf-8")
    end = "join with sl st in first sc. — <around> sc\nFasten off.\n"
    (folder / "10_hand.md").write_text(f"## Hand {{hand}}\n\nRnd 1: Ch 1, {row}, {end}", encoding="utf-8")
    (found,) = [each for each in check_pattern(folder, within=folder).findings if each.page.code == "SP001"]
    return found


@pytest.mark.parametrize(
    ("row", "offered"),
    [
        ("sc in each of next <half> sts, sc in each st around", ["16 sts", "17 sts"]),
        ("sc in each of next <half> sts, sc in each of next <half> sts", []),
    ],
)
def test_half_a_round_is_offered_where_the_rest_of_it_may_differ(row: str, offered: list[str], tmp_path: Path) -> None:
    """Twice 16 is not 33, nor is twice 17: then no rounding is advised either."""
    found = _not_whole(row, tmp_path)
    assert [each.value for each in found.alternatives] == offered
    assert ("`round: nearest`" in found.help[0]) is bool(offered)
    assert bool(found.left_out) is not bool(offered)
