"""Two records of a pattern held against each other: what changed and why, what did not, and nothing that nobody would notice."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from syrupy.assertion import SnapshotAssertion

from stitchproof.comparison.compare import compare
from stitchproof.comparison.comparison import Comparison, How, LineChanged, Pair
from stitchproof.comparison.forms import as_json, as_page
from stitchproof.comparison.terminal import comparison_text
from stitchproof.comparison.words import new_text, old_text
from tests.comparison.changed import DEMOS, record_now, with_changes, with_texts, with_values
from tests.comparison.single_changes import single_changes, wrong_causes


def _line(comparison: Comparison, label: str) -> LineChanged:
    return next(each for each in comparison.lines if each.label == label)


@pytest.mark.parametrize("name", DEMOS)
def test_a_record_does_not_differ_from_itself(name: str) -> None:
    comparison = compare(record_now(name), record_now(name), "a", "b")
    assert not comparison.differs
    assert comparison.same_sizes == record_now(name).sizes
    assert "Nothing that a maker would notice has changed." in comparison_text(comparison)


@pytest.mark.parametrize(("demo", "name", "value"), list(single_changes(10, seed=11)))
def test_every_changed_number_goes_back_to_the_input_that_was_changed(demo: str, name: str, value: str) -> None:
    """`python -m tests.comparison.single_changes --number 200` tries more."""
    comparison = with_values(demo, {name: value})
    assert comparison.inputs
    assert wrong_causes(comparison, name) == []


def test_a_gauge_goes_through_counts_plans_and_yarn_to_the_lines() -> None:
    """Worked by hand for Adult: 55 cm × 1.5 = 82.5, to the nearest multiple of 8 is 80; one section has one stitch less."""
    comparison = with_changes("cobblewick_hat", gauges__crown__stitches="15")
    hat = next(each for each in comparison.numbers if each.name == "hat_sts")
    adult = next(each for each in hat.changes if each.size == "Adult")
    assert (adult.values, adult.change) == (Pair("88 sts", "80 sts"), "−8 sts")
    assert [chain.names for chain in hat.causes] == [("gauges.crown.stitches",)]
    row = _line(comparison, "Dec Rnd 1")
    assert dict(row.numbers)["Adult"] == (Pair("9", "8"), Pair("80", "72"))
    assert row.causes[0].names[-2:] == ("hat_sts", "gauges.crown.stitches")
    yarn = next(each for each in comparison.numbers if each.name == "yarn.grams")
    assert yarn.causes[0].names == ("the rows", "hat_sts", "gauges.crown.stitches")
    gone = [each for each in comparison.lines if each.how is How.REMOVED]
    assert [each.label for each in gone] == ["Dec Rnd 11"]


def test_one_size_of_one_body_measure_leaves_the_others_alone() -> None:
    comparison = with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"})
    assert {each.size for number in comparison.numbers for each in number.changes} == {"Child"}
    assert comparison.same_sizes == ("Baby", "Toddler", "Adult", "Large")
    assert "unchanged: every number and every line is the same." in comparison_text(comparison)


def test_words_changed_by_hand_are_told_word_by_word(tmp_path: Path) -> None:
    words = {"30_body.md": {"Hdc in each st around.": "Hdc in each stitch around."}}
    comparison = with_texts("cobblewick_hat", tmp_path, words)
    line = _line(comparison, "Rnd 3")
    assert [(each.words.old, each.words.new) for each in line.stretches if not each.same] == [("st", "stitch")]
    assert line.causes == ()
    assert comparison.inputs == () and comparison.numbers == ()


def test_vectors_are_aligned_size_by_size() -> None:
    comparison = with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"})
    line = _line(comparison, "Row 1")
    assert [(each.words.old, each.words.new) for each in line.stretches if not each.same] == [("10", "12")]
    assert old_text(line).endswith("— 8 (9, 10, 11, 11) sc") and new_text(line).endswith("— 8 (9, 12, 11, 11) sc")


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("pattern.yaml", "  ease: 2 cm", "  ease:   2 cm   # as it was"),
        ("pattern.yaml", "{cm: [42, 47, 52, 57, 62]}", "\n    cm: [42, 47, 52, 57, 62]"),
        ("10_notes.md", "never join, never turn", "never join,\nnever turn"),
        ("40_crown.md", "## Crown {crown}\n", "\n\n## Crown {crown}\n\n"),
    ],
)
def test_source_that_is_moved_or_wrapped_anew_reports_nothing(file: str, old: str, new: str, tmp_path: Path) -> None:
    comparison = with_texts("cobblewick_hat", tmp_path, {file: {old: new}})
    assert not comparison.differs, comparison_text(comparison)


def test_a_row_that_is_moved_added_or_taken_out_is_told_so() -> None:
    record = record_now("cobblewick_hat")
    blocks = list(record.blocks)
    place = next(i for i, each in enumerate(blocks) if each.identity == "brim/Turn ring so that")
    moved = replace(
        record, blocks=(*blocks[: place - 2], blocks[place], *blocks[place - 2 : place], *blocks[place + 1 :])
    )
    (line,) = compare(record, moved, "a", "b").lines
    assert (line.how, line.label) == (How.MOVED, "Turn ring so that the seam is inside. Do not …")
    without = replace(record, blocks=(*blocks[:place], *blocks[place + 1 :]))
    (line,) = compare(record, without, "a", "b").lines
    assert line.how is How.REMOVED
    (line,) = compare(without, record, "a", "b").lines
    assert line.how is How.ADDED


def test_findings_that_come_and_go_are_told_wherever_they_stand() -> None:
    record = record_now("cobblewick_hat")
    broken = with_values("cobblewick_hat", {"hat_sts[Adult]": "87 sts"})
    assert "SP002" in {each.code for each in broken.findings_new}
    assert not broken.findings_gone
    assert record.findings == ()


def test_a_size_more_is_told_and_the_others_are_proved_the_same(tmp_path: Path) -> None:
    lists = {
        "Adult, Large]": "Adult, Large, Largest]",
        "57, 62]": "57, 62, 67]",
        "[8, 9, 10, 11, 11]": "[8, 9, 10, 11, 11, 12]",
        "[6, 6, 7, 7, 8]": "[6, 6, 7, 7, 8, 8]",
        "5 Large.": "5 Large, 6 Largest.",
    }
    comparison = with_texts("cobblewick_hat", tmp_path, {"pattern.yaml": lists})
    assert comparison.sizes_added == ("Largest",)
    text = comparison_text(comparison)
    assert "added    Largest" in text
    assert {each.label for each in comparison.lines if each.how is not How.ADDED} == {
        "Measure around the forehead and the fullest …"
    }
    assert not [each for each in comparison.lines if each.kind == "row" and each.how is not How.ADDED]
    assert comparison.numbers == ()


def test_a_size_set_by_hand_beside_its_formula_is_the_only_input_told(tmp_path: Path) -> None:
    words = {"is: hat_around * crown.stitches": "is: hat_around * crown.stitches\n    by_hand: {Adult: 96 sts}"}
    comparison = with_texts("cobblewick_hat", tmp_path, {"pattern.yaml": words})
    assert [(each.name, each.all, each.by_size) for each in comparison.inputs] == [
        ("hat_sts", None, (("Adult", Pair("", "96 sts")),))
    ]


def test_the_text_of_a_comparison(snapshot: SnapshotAssertion) -> None:
    assert comparison_text(with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"})) == snapshot


def test_the_page_holds_every_line_and_escapes_what_it_prints() -> None:
    comparison = with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"})
    page = as_page(comparison, ())
    assert all(f"<h4>{line.label.replace('<', '&lt;').replace('>', '&gt;')} <span" in page for line in comparison.lines)
    hostile = replace(comparison, old=replace(comparison.old, where="<script>alert(1)</script>"))
    assert "<script>" not in as_page(hostile, ())


def test_the_same_two_records_give_the_same_bytes() -> None:
    first = with_changes("pebblewold_cowl", gauges__fabric__stitches="19")
    second = with_changes("pebblewold_cowl", gauges__fabric__stitches="19")
    assert as_json(first) == as_json(second)
