"""The errata sheet: what reads and what it should read, for whom, what it means; whom to tell; the revision history."""

from __future__ import annotations

import shutil
from io import BytesIO
from pathlib import Path

import pytest
import yaml
from msgspec.structs import replace
from pypdf import PdfReader
from syrupy.assertion import SnapshotAssertion

from stitchproof.command_line import main
from stitchproof.comparison.compare import compare
from stitchproof.pipeline import check_pattern, record_of
from stitchproof.record.record import Record
from stitchproof.revisions.errata import errata_of
from stitchproof.revisions.history import enter, history_line
from stitchproof.revisions.print_errata import print_errata
from stitchproof.revisions.register import read_register
from tests.comparison.changed import CLONE, with_values

REGISTER = """\
copies:
  - {revision: 1, date: 2026-05-01, where: the shop page, tell: buyers by the shop's message}
  - {revision: 1, date: 2026-06-01, where: a magazine, tell: editor@example.org}
  - {revision: 2, date: 2026-07-01, where: the shop page}
"""


def test_a_correction_reads_and_should_read_for_whom_and_with_what_effect() -> None:
    sheet = errata_of(with_values("saltmarrow_yoke_top", {"body_sts[3]": "184 sts"}), "A", "a@example.org", "", "")
    row = next(each for each in sheet.rows if each.label == "Body Rnd 2")
    assert (row.sizes, row.by_size) == ("size 3", (("3", "180 → 184"),))
    assert row.reads.endswith("— 150 (164, 180, 198, 214, 232, 252, 270, 290) hdc")
    assert row.should_read.endswith("— 150 (164, 184, 198, 214, 232, 252, 270, 290) hdc")
    assert row.effect == "Worked as printed before, the piece comes out 2.4 cm / 0.9 in narrower (size 3)."
    assert [each.label for each in sheet.measures][:2] == ["Finished bust", "Finished hip"]
    assert (sheet.affected, sheet.corrected, sheet.date) == ("1", "1", "2026-11-25")


def test_the_sheet_as_markdown(snapshot: SnapshotAssertion) -> None:
    sheet = errata_of(with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"}), "A", "", "2026-12-01", "1, 2")
    files, messages = print_errata(sheet, ())
    assert messages == ()
    assert set(files) == {"errata.html", "errata.pdf", "errata.md"}
    assert files["errata.md"].decode() == snapshot


def test_every_correction_is_on_every_form_of_the_sheet() -> None:
    sheet = errata_of(with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"}), "A", "", "", "")
    files, _ = print_errata(sheet, ())
    paper = " ".join("".join(page.extract_text() for page in PdfReader(BytesIO(files["errata.pdf"])).pages).split())
    for each in (*sheet.rows, *sheet.measures):
        assert each.label.partition("<")[0].strip() in files["errata.md"].decode()
        assert " ".join(each.label.partition("<")[0].split()) in paper


MITTS = """\
title: Mitts
revision: 1
terms: US
sizes: {names: [S, M]}
counts:
  around: {by_hand: [30, 34], unit: sts}
  palm: {by_hand: [10, 12], unit: sts}
pieces: {hand: {worked: joined rounds, edge: [around]}}
"""
HAND = """\
## Hand {hand}

Rnd 1: Ch 1, sc in each of next <PALM> sts, 2 sc in next st, sc in each st around, join with sl st in first sc. — <STATED> sc
Fasten off.
"""


def _mitts(folder: Path, palm: str, stated: str, header: str = MITTS) -> Record:
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(header, encoding="utf-8")
    (folder / "10_hand.md").write_text(HAND.replace("PALM", palm).replace("STATED", stated), encoding="utf-8")
    record = record_of(check_pattern(folder, within=folder))
    assert record is not None
    return record


@pytest.mark.parametrize(
    ("old", "new", "effect"),
    [
        (("palm", "around + 1"), ("palm - 1", "around + 1"), "The count is the same; stitches are placed otherwise."),
        (
            ("palm", "around + 2"),
            ("palm", "around + 1"),
            "Worked as printed before, the counts do not come out; no finished measurement changes.",
        ),
        (("palm", "around + 1"), ("palm", "around + 2"), "No finished measurement changes."),
    ],
)
def test_the_effect_is_what_the_proofs_of_both_revisions_tell(
    old: tuple[str, str], new: tuple[str, str], effect: str, tmp_path: Path
) -> None:
    """A row that came out before is not said to be wrong, and of one that is wrong now nothing is promised."""
    before, after = _mitts(tmp_path / "old/mitts", *old), _mitts(tmp_path / "new/mitts", *new)
    (entry,) = errata_of(compare(before, after, "old", "new"), "", "", "", "").rows
    assert entry.effect == effect


def test_a_copy_with_fewer_sizes_is_told_which_sizes_the_numbers_are_for(tmp_path: Path) -> None:
    """On every form of the sheet; where the sizes are the same there is nothing to tell."""
    one_size = MITTS.replace("S, M", "S").replace("30, 34", "30").replace("10, 12", "10")
    before = _mitts(tmp_path / "old/mitts", "palm", "around + 1", one_size)
    after = _mitts(tmp_path / "new/mitts", "palm - 1", "around + 1")
    sheet = errata_of(compare(before, after, "old", "new"), "", "", "", "")
    assert sheet.rows[0].should_read.startswith("Rnd 1: Ch 1, sc in each of next 9 (11) sts")
    files, _ = print_errata(sheet, ())
    told = "Reads: numbers for the sizes of your copy, S. Should read: numbers for the sizes of the corrected pattern, S (M)."
    assert told in files["errata.md"].decode()
    assert told in files["errata.html"].decode()
    same = errata_of(with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"}), "A", "", "", "")
    assert (same.old_order, same.new_order) == ("", "")


def test_one_of_a_thing_is_told_as_it_is_printed(tmp_path: Path) -> None:
    one_size = MITTS.replace("S, M", "S").replace("30, 34", "30").replace("10, 12", "1")
    before = _mitts(tmp_path / "old/mitts", "palm", "around + 1", one_size)
    after = _mitts(tmp_path / "new/mitts", "palm + 1", "around + 1", one_size)
    (row,) = errata_of(compare(before, after, "old", "new"), "", "", "", "").rows
    assert "sc in each of next 1 st," in row.reads
    assert "sc in each of next 2 sts," in row.should_read


@pytest.fixture
def workspace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    source = tmp_path / "pattern_sources/cobblewick_hat"
    shutil.copytree(CLONE / "pattern_sources/cobblewick_hat", source)
    shutil.copytree(CLONE / "build/cobblewick_hat", tmp_path / "build/cobblewick_hat")
    header = source / "pattern.yaml"
    text = header.read_text(encoding="utf-8").replace("[8, 9, 10, 11, 11]", "[8, 9, 12, 11, 11]")
    header.write_text(text.replace("\nrevision: 1\n", "\nrevision: 2\n"), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_command_writes_the_sheet_names_whom_to_tell_and_enters_it(
    workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    source = workspace / "pattern_sources/cobblewick_hat"
    (source / "register.yaml").write_text(REGISTER, encoding="utf-8")
    before = (source / "pattern.yaml").read_text(encoding="utf-8")
    assert main(["compare", "build/cobblewick_hat", "cobblewick_hat", "--errata", "--enter"]) == 1
    told = capsys.readouterr().err
    folder = workspace / "build/cobblewick_hat_errata_1_to_2"
    assert sorted(file.name for file in folder.iterdir()) == ["errata.html", "errata.md", "errata.pdf"]
    assert "revision 1, the shop page since 2026-05-01, tell buyers by the shop's message" in told
    assert "editor@example.org" in told and "2026-07-01" not in told
    after = (source / "pattern.yaml").read_text(encoding="utf-8")
    (line,) = [each for each in after.splitlines() if each not in before.splitlines()]
    assert line.startswith('  - {revision: 2, date: 2026-11-25, changes: "Corrected: Brim, Ch ')
    assert after.replace(f"{line}\n", "") == before
    assert not check_pattern(source, within=workspace).errors
    assert main(["compare", "build/cobblewick_hat", "cobblewick_hat", "--errata", "--enter"]) == 1
    assert (source / "pattern.yaml").read_text(encoding="utf-8") == after


@pytest.mark.parametrize("asked", [(), ("--affects", "1, 2")])
def test_a_correction_with_the_revision_of_the_fault_is_refused(
    asked: tuple[str, ...], workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With nothing asked the number was not raised; with 2 among the affected ones it is the fault's own."""
    header = workspace / "pattern_sources/cobblewick_hat/pattern.yaml"
    if not asked:
        text = header.read_text(encoding="utf-8")
        header.write_text(text.replace("\nrevision: 2\n", "\nrevision: 1\n"), encoding="utf-8")
    assert main(["compare", "build/cobblewick_hat", "cobblewick_hat", "--errata", *asked]) == 2
    told = capsys.readouterr().err
    assert "SP234 revision-not-raised" in told and "raise `revision` in pattern.yaml first" in told
    assert [each.name for each in (workspace / "build").iterdir()] == ["cobblewick_hat"]


@pytest.mark.parametrize(
    ("history", "expected"),
    [
        ("", "\nrevisions:\n  - {LINE}\n"),
        ("revisions: [{revision: 1, changes: First.}]\n", "revisions: [{revision: 1, changes: First.}, {LINE}]\n"),
        ("revisions:\n- revision: 1\n  changes: First.\n", "revisions:\n- revision: 1\n  changes: First.\n- {LINE}\n"),
        (
            "revisions:\n  - revision: 1\n    changes: First.\n\n# the end\n",
            "revisions:\n  - revision: 1\n    changes: First.\n  - {LINE}\n\n# the end\n",
        ),
    ],
)
def test_the_history_gets_its_line_whatever_its_form(history: str, expected: str, tmp_path: Path) -> None:
    folder = tmp_path / "hat"
    folder.mkdir()
    top = "title: Hat\nsizes: {names: [S, M]}\ncounts: {a: {by_hand: [3, 4], unit: sts}}\n"
    (folder / "pattern.yaml").write_text(top + history, encoding="utf-8")
    sheet = errata_of(with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"}), "A", "", "2026-12-01", "0")
    done = enter(folder, "hat", replace(sheet, corrected="2"))
    assert done.written, done
    line = done.line.removeprefix("{").removesuffix("}")
    assert (folder / "pattern.yaml").read_text(encoding="utf-8") == top + expected.replace("LINE", line)


def test_a_history_line_is_yaml_whatever_stands_in_it() -> None:
    sheet = errata_of(with_values("cobblewick_hat", {"brim_sts[Child]": "12 sts"}), "A", "", 'a: "b"', "1")
    read = yaml.safe_load(history_line(replace(sheet, corrected="2: two #")))
    assert (read["revision"], read["date"]) == ("2: two #", 'a: "b"')


@pytest.mark.parametrize("text", ["[", "copies: 3", "copies:\n  - {revision: 1}\n", "copys: []\n", "\x00"])
def test_a_register_that_cannot_be_read_is_a_report(text: str, tmp_path: Path) -> None:
    (tmp_path / "register.yaml").write_text(text, encoding="utf-8")
    assert read_register(tmp_path, "hat").findings


def test_no_register_is_no_fault(tmp_path: Path) -> None:
    register = read_register(tmp_path, "hat")
    assert not register.there and not register.findings
