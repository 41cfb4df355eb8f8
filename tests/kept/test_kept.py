"""A pattern that is followed while it is written says at each save what a first check would say."""

from collections.abc import Callable
from pathlib import Path

import pytest

from stitchproof.diagnostics.report import Report
from stitchproof.kept import RUNS_KEPT, Kept, made_once
from stitchproof.simulation.worked_pattern import WorkedPiece
from stitchproof.stages import checked_folder
from tests.kept.edits import copied, differences

Save = Callable[[str, str, str], list[str]]


@pytest.mark.parametrize(("demo", "number"), [("cobblewick_hat", 5), ("saltmarrow_yoke_top", 3)])
def test_each_save_comes_out_as_a_first_check_does(demo: str, number: int) -> None:
    assert list(differences(demo, number, seed=5)) == []


def test_a_line_in_one_text_leaves_the_other_texts_and_all_numbers_as_they_are(tmp_path: Path) -> None:
    folder, kept = copied("saltmarrow_yoke_top", tmp_path), Kept()
    first = checked_folder(folder, "top", {}, kept=kept)
    body = folder / "30_body.md"
    body.write_text(body.read_text("utf-8") + "\nFasten off.\n", "utf-8")
    again = checked_folder(folder, "top", {}, kept=kept)
    assert first.document and again.document
    pieces = zip(first.document.pieces, again.document.pieces, strict=True)
    assert [old.name for old, new in pieces if old is not new] == ["body"]
    assert first.sized and again.sized
    before, after = first.sized.scope.quantities, again.sized.scope.quantities
    assert {name for name in before if before[name] is not after[name]} == first.sized.scope.late


@pytest.fixture
def worked_again(tmp_path: Path) -> Save:
    """Saves a text of the top with other words, and gives the pieces that are worked again."""
    folder, kept = copied("saltmarrow_yoke_top", tmp_path), Kept()
    seen: list[WorkedPiece] = []

    def new_pieces() -> list[str]:
        worked = checked_folder(folder, "top", {}, kept=kept).worked
        assert worked
        new = [piece for piece in worked.pieces if all(piece is not other for other in seen)]
        seen.extend(new)
        return [piece.name for piece in new]

    def save(name: str, old: str, new: str) -> list[str]:
        text = (folder / name).read_text("utf-8")
        assert text.count(old) == 1
        (folder / name).write_text(text.replace(old, new), "utf-8")
        return new_pieces()

    new_pieces()
    return save


def test_a_piece_is_worked_again_only_where_something_else_is_left_to_it(worked_again: Save) -> None:
    """Other words that make the same fabric leave the pieces after them alone; another count does not."""
    yoke = "20_yoke.md"
    assert worked_again(yoke, "hdc in each st around,", "hdc in every st around,") == ["yoke"]
    assert worked_again(yoke, "hdc in every st around,", "sc in every st around,") == [
        "yoke",
        "body",
        "sleeve",
        "neckband",
    ]


def test_a_piece_with_a_fault_is_kept_as_well(worked_again: Save) -> None:
    """What is broken stays as it is while she writes elsewhere; and what comes after it is kept both ways."""
    body, right, wrong = "30_body.md", "2 hdc in each of next 2 sts", "2 hdc in each of next 3 sts"
    assert worked_again(body, right, wrong) == ["body", "sleeve", "neckband"]
    assert worked_again("50_neckband.md", "Fasten off loosely.", "Fasten off.") == ["neckband"]
    assert worked_again(body, wrong, right) == ["body", "neckband"]
    assert worked_again(body, right, wrong) == ["body"]
    assert worked_again(body, wrong, right) == ["body"]


def test_what_nobody_asks_for_any_more_is_let_go() -> None:
    kept, made = Kept(), []

    def ask(name: str) -> None:
        made_once(kept, name, (), Report(), lambda _: made.append(name))

    kept.begin()
    ask("once")
    for _ in range(RUNS_KEPT):
        kept.begin()
        ask("always")
    ask("once")
    assert made == ["once", "always"]
    for _ in range(RUNS_KEPT + 1):
        kept.begin()
        ask("always")
    ask("once")
    assert made == ["once", "always", "once"]


def test_other_inputs_make_it_anew_and_findings_are_told_each_time(tmp_path: Path) -> None:
    folder, kept = copied("cobblewick_hat", tmp_path), Kept()
    header = folder / "pattern.yaml"
    text = header.read_text("utf-8")
    header.write_text(text.replace("dialect: 1", "dialect: 1\nnonsense: 1"), "utf-8")
    told = [[found.page.code for found in checked_folder(folder, "hat", {}, kept=kept).findings] for _ in range(3)]
    assert told[0] and told[0] == told[1] == told[2]
    header.write_text(text, "utf-8")
    assert checked_folder(folder, "hat", {}, kept=kept).findings == ()
