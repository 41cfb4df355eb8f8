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
from stitchproof.pipeline import check_pattern
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
