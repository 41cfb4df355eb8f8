"""Rows whose counts the trade knows without us: flat circles, foundations, row-ends; and what no order of sizes may change."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.stages import CheckOutcome

HEAD = (
    "dialect: 1\ntitle: Rows\nrevision: 1\ndate: 2026-01-01\ndesigner: A Designer\ncontact: a@example.org\n"
    "sizes: {{names: [{sizes}]}}\n"
    "gauges:\n  fabric: {{stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}}\n"
    "pieces:\n  piece: {{gauge: fabric, worked: {worked}}}\n"
)


def checked(folder: Path, text: str, worked: str = "rows", sizes: str = "S, M", more: str = "") -> CheckOutcome:
    """A piece of some rows, checked."""
    pattern = folder / "pattern_sources" / "rows"
    pattern.mkdir(parents=True, exist_ok=True)
    (pattern / "pattern.yaml").write_text(HEAD.format(sizes=sizes, worked=worked) + more, encoding="utf-8")
    (pattern / "rows.md").write_text(f"## Piece {{piece}}\n\n{text}\nFasten off.\n", encoding="utf-8")
    return check_pattern(pattern, within=folder)


def row_faults(outcome: CheckOutcome) -> list[str]:
    assert outcome.proof
    assert outcome.proof.whole.not_read == 0, [found.headline for found in outcome.findings]
    return [found.page.code for found in outcome.findings if found.row]


@pytest.mark.parametrize(("stitch", "begin"), [("sc", 6), ("hdc", 8), ("dc", 12)])
def test_a_flat_circle_grows_by_as_many_as_it_began_with(tmp_path: Path, stitch: str, begin: int) -> None:
    """Round k of a flat circle has k times the stitches of its first. The rates 6, 8 and 12 are published rules of thumb
    (a question on flat circles in a newspaper, 2020, pressreader.com); the counts are k times the first by any reckoning."""
    rounds = [f"Rnd 1: {begin} {stitch} in ring. — {begin} {stitch}"]
    rounds.append(f"Rnd 2: 2 {stitch} in each st around. — {2 * begin} {stitch}")
    for number in range(3, 9):
        plain = "next st" if number == 3 else f"each of next {number - 2} sts"
        group = f"[{stitch} in {plain}, 2 {stitch} in next st]"
        rounds.append(f"Rnd {number}: {group} {begin} times. — {number * begin} {stitch}")
    assert row_faults(checked(tmp_path, "\n".join(rounds), "spiral rounds")) == []


FOUNDATIONS = [
    ("sc", 1, "no", 1, "2nd"),
    ("hdc", 1, "no", 1, "2nd"),
    ("hdc", 2, "no", 2, "3rd"),
    ("hdc", 2, "yes", 1, "3rd"),
    ("dc", 3, "yes", 2, "4th"),
    ("tr", 4, "yes", 3, "5th"),
]
"""Stitch, turning chain, whether it counts, chains beyond the stitches of the row, first chain worked.

Common practice, no source.
"""


@pytest.mark.parametrize(("stitch", "turning", "counts", "beyond", "first"), FOUNDATIONS)
def test_a_foundation_chain_gives_its_row(
    tmp_path: Path, stitch: str, turning: int, counts: str, beyond: int, first: str
) -> None:
    """So many chains for a row of 20, and the next row of 20 on it."""
    says = f"counts as {stitch}" if counts == "yes" else "does not count as a st"
    second = f"Row 2: Ch {turning} ({says}), "
    if counts == "yes":
        second += f"{stitch} in next st and in each st across, turn. — 20 {stitch}"
    else:
        second += f"{stitch} in each st across, turn. — 20 {stitch}"
    passed = f" ({turning} skipped ch count as {stitch})" if counts == "yes" else ""
    row = f"Row 1: {stitch.capitalize()} in {first} ch from hook{passed} and in each ch across, turn. — 20 {stitch}\n"
    text = f"Ch {20 + beyond}.\n{row}"
    assert row_faults(checked(tmp_path / "right", text + second)) == []
    wrong = text.replace(f"Ch {20 + beyond}.", f"Ch {21 + beyond}.")
    assert row_faults(checked(tmp_path / "wrong", wrong + second)) == ["SP135"]


def test_one_stitch_in_each_row_end_of_single_crochet(tmp_path: Path) -> None:
    """A row of sc has one row-end at each side: 24 rows, 24 stitches. Common practice, no source."""
    more = "  edging: {gauge: fabric, worked: rows, starts_from: [piece]}\n"
    rows = (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. — 10 sc\n"
        "Rows 2–24: Ch 1, sc in each st across, turn. — 10 sc\nFasten off.\n\n## Edging {edging}\n\n"
        "With RS facing, join yarn at lower corner.\nRow 1: Working along row-ends, sc in each row-end across, turn. — "
    )
    right, wrong = (
        checked(tmp_path / name, f"{rows}{count} sc", more=more) for name, count in (("right", 24), ("wrong", 25))
    )
    assert row_faults(right) == []
    assert row_faults(wrong) == ["SP135"]


@pytest.mark.parametrize("order", list(permutations((0, 1, 2))))
def test_the_order_of_sizes_changes_nothing_in_a_size(tmp_path: Path, order: tuple[int, ...]) -> None:
    """Each size has the stitches and the faults that it has, wherever it stands."""
    names, stitches, groups = ("S", "M", "L"), (20, 25, 32), (4, 5, 6)
    told = [", ".join(str(values[size]) for size in order) for values in (stitches, groups)]
    more = f"counts:\n  sts: {{by_hand: [{told[0]}], unit: sts}}\n  groups: {{by_hand: [{told[1]}], unit: times}}\n"
    text = (
        "Ch <sts + 1>.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. — <sts> sc\n"
        "Row 2: Ch 1, [sc in each of next 3 sts, sc2tog] <groups> times, turn.\n"
    )
    outcome = checked(tmp_path, text, sizes=", ".join(names[size] for size in order), more=more)
    assert [(found.page.code, set(found.sizes)) for found in outcome.findings if found.row] == [("SP136", {"L"})]
    assert outcome.proof
    census = {each.stitch: dict(zip(outcome.proof.sizes, each.numbers, strict=True)) for each in outcome.proof.census}
    assert census["sc2tog"] == {"S": 4, "M": 5, "L": 6}
