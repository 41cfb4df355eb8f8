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


@pytest.mark.parametrize(
    ("row", "offered", "help_"),
    [
        ("sc in each st around", ["32 sts", "36 sts"], "take one of these counts"),
        ("2 sc in next st, sc in each st to last 2 sts, sc2tog", ["32 sts", "36 sts"], "take one of these counts"),
        ("sc in each of next 33 sts", [], "change the rows as well"),
    ],
)
def test_a_multiple_is_offered_where_the_rows_come_out_with_it(
    row: str, offered: list[str], help_: str, tmp_path: Path
) -> None:
    """A row that is written over another number is a fault with any of them; the value is left out, and why."""
    header = HEADER.replace("{by_hand: [33, 34], unit: sts}", "{by_hand: [33, 32], unit: sts, multiple: 4}")
    (tmp_path / "pattern.yaml").write_text(header.replace("  half: around / 2\n", ""), encoding="utf-8")
    text = f"## Hand {{hand}}\n\nRnd 1: Ch 1, {row}, join with sl st in first sc. — <around> sts\nFasten off.\n"
    (tmp_path / "10_hand.md").write_text(text, encoding="utf-8")
    (found,) = [each for each in check_pattern(tmp_path, within=tmp_path).findings if each.page.code == "SP002"]
    assert [each.value for each in found.alternatives] == offered
    assert bool(found.left_out) is not bool(offered)
    assert found.help[0].startswith(help_)


def test_no_more_than_some_checks_with_the_rows_are_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each finding asks for two, whatever the number of sizes; what is not asked any more is offered by its numbers."""
    from stitchproof import stages

    asked = []
    real = stages.try_changes

    def counted(source: object, changes: object, rows: bool = False) -> object:
        asked.append(rows)
        return real(source, changes, rows=rows)  # type: ignore[arg-type]

    monkeypatch.setattr(stages, "try_changes", counted)
    counts = "".join(f"  part_{n}: {{by_hand: [33, 35], unit: sts, multiple: 4}}\n" for n in range(8))
    (tmp_path / "pattern.yaml").write_text(HEADER.replace("  half: around / 2\n", counts), encoding="utf-8")
    row = "Rnd 1: Ch 1, sc in each st around, join with sl st in first sc. — <around> sc\nFasten off.\n"
    (tmp_path / "10_hand.md").write_text(f"## Hand {{hand}}\n\n{row}", encoding="utf-8")
    found = [each for each in check_pattern(tmp_path, within=tmp_path).findings if each.page.code == "SP002"]
    assert len(found) == 8
    assert asked.count(True) == 12
    assert len(found[-1].alternatives) == len(found[0].alternatives) > 0
