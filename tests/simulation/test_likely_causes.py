"""What a report of a row offers as its likely cause: never a 0, the same words once, and no value of a size that is wrong too."""

from __future__ import annotations

from pathlib import Path

from stitchproof.pipeline import check_pattern

COUNTS = ("SP135", "SP136", "SP137")
HEADER = """\
dialect: 1
title: Mitts
terms: US
sizes: {{names: [S, M, L]}}
counts:
  around: {{by_hand: [33, 34, 38], unit: sts}}
  palm: {{by_hand: {palm}, unit: sts}}
  gap: {{by_hand: [8, 10, 10], unit: sts}}
pieces: {{hand: {{worked: joined rounds, edge: [around]}}}}
"""
SKIPPED = (
    "Ch 1, sc in each of next 10 sts, ch <gap>, skip next <gap> sts, sc in each st around, join with sl st in first sc."
)


def _sums(row: str, into: Path, palm: str = "[15, 16, 18]") -> dict[str, str]:
    """The notes beside the sums of the one error about the counts of the row, by size."""
    (into / "pattern.yaml").write_text(HEADER.format(palm=palm), encoding="utf-8")
    (into / "10_hand.md").write_text(f"## Hand {{hand}}\n\nRnd 1: {row}\nFasten off.\n", encoding="utf-8")
    (found,) = [each for each in check_pattern(into, within=into).findings if each.page.code in COUNTS]
    return {line.size: line.note for line in found.sums}


def test_a_number_that_would_be_0_is_never_offered(tmp_path: Path) -> None:
    """Half the round in another stitch than stated: the sum would close with "in each of next 0 sts"."""
    row = "Ch 1, dc in each of next <palm> sts, sc in each st around, join with sl st in first sc. — <around> sc"
    assert all(" 0 " not in f" {note}" for note in _sums(row, tmp_path).values())


PALMS = (
    "Ch 1, sc in each of next <palm> sts, 2 sc in each of next 2 sts, sc in each of next <palm> sts, join with sl st in "
    "first sc. — <around + 2> sc"
)


def test_two_places_with_the_same_words_are_told_once(tmp_path: Path) -> None:
    told = "next 16 sts for 15 (one off) in either place would fit"
    assert _sums(PALMS, tmp_path, "[15, 16, 18]") == {"S": told}


def test_a_value_may_be_that_of_a_size_where_it_is_right(tmp_path: Path) -> None:
    told = "next 15 sts for 16 (16 is the value of size M)"
    assert _sums(PALMS, tmp_path, "[16, 16, 18]")["S"].startswith(told)


def test_a_value_is_not_taken_over_from_a_size_that_is_wrong_itself(tmp_path: Path) -> None:
    """10 sts are skipped in M and in L, and neither closes: so neither has it from the other."""
    notes = _sums(f"{SKIPPED} — <around + 1> sts", tmp_path)
    assert set(notes) == {"S", "M", "L"}
    assert all("is the value of size" not in note for note in notes.values())
