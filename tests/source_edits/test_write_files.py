"""Files are written whole or not at all, where they lie and with the rights they have."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from stitchproof.source_edits.write_files import write_files
from tests.source_edits.edited import HEADER, edit, pattern_with, sized_of
from tests.source_edits.test_set_values import CSV, TOP

SHOWN = {HEADER: f"hat/{HEADER}", "body.csv": "hat/body.csv"}
BODY = TOP + "body:\n  csv: body.csv\nmeasures:\n  ease: 2 cm\n"


def test_files_are_replaced_and_keep_their_rights(tmp_path: Path) -> None:
    sized = pattern_with(tmp_path, BODY, body_csv=CSV)
    (tmp_path / HEADER).chmod(0o640)
    edited = edit(tmp_path, sized, "ease=3 cm", "bust[M]=93 cm")
    assert write_files(tmp_path, edited, SHOWN) == ()
    assert "ease: 3 cm" in (tmp_path / HEADER).read_text()
    assert "93" in (tmp_path / "body.csv").read_text()
    assert (tmp_path / HEADER).stat().st_mode & 0o777 == 0o640
    assert sorted(each.name for each in tmp_path.iterdir()) == ["body.csv", HEADER, "text.md"]


def test_a_file_that_somebody_else_has_changed_is_left(tmp_path: Path) -> None:
    """And the other one with it."""
    sized = pattern_with(tmp_path, BODY, body_csv=CSV)
    edited = edit(tmp_path, sized, "ease=3 cm", "bust[M]=93 cm")
    (tmp_path / "body.csv").write_text(CSV + "\n", encoding="utf-8")
    (fault,) = write_files(tmp_path, edited, SHOWN)
    assert (fault.page.code, fault.headline) == (
        "SP221",
        "hat/body.csv was not written: it has changed since it was read",
    )
    assert "ease: 2 cm" in (tmp_path / HEADER).read_text()
    assert sorted(each.name for each in tmp_path.iterdir()) == ["body.csv", HEADER, "text.md"]


def test_a_file_that_changed_before_the_edit_is_told_at_once(tmp_path: Path) -> None:
    sized = pattern_with(tmp_path, BODY, body_csv=CSV)
    (tmp_path / HEADER).write_text(BODY + "# more\n", encoding="utf-8")
    assert [each.page.code for each in edit(tmp_path, sized, "ease=3 cm").faults] == ["SP221"]


def test_a_link_inside_the_folder_is_followed_and_one_that_leads_out_is_not(tmp_path: Path) -> None:
    folder = tmp_path / "hat"
    pattern_with(folder, TOP + "measures:\n  ease: 2 cm\n")
    (folder / HEADER).rename(folder / "facts.yaml")
    (folder / HEADER).symlink_to("facts.yaml")
    edited = edit(folder, sized_of(folder), "ease=3 cm")
    assert write_files(folder, edited, SHOWN) == ()
    assert (folder / HEADER).is_symlink()
    assert "ease: 3 cm" in (folder / "facts.yaml").read_text()
    again = edit(folder, sized_of(folder), "ease=4 cm")
    (folder / "facts.yaml").rename(tmp_path / "outside.yaml")
    (folder / HEADER).unlink()
    (folder / HEADER).symlink_to(tmp_path / "outside.yaml")
    (fault,) = write_files(folder, again, SHOWN)
    assert "leads out of the folder" in fault.headline
    assert "ease: 3 cm" in (tmp_path / "outside.yaml").read_text()


def test_a_file_that_may_not_be_written_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Told by the system as for a designer without the right; root has every right, so the answer is put in place."""
    sized = pattern_with(tmp_path, TOP + "measures:\n  ease: 2 cm\n")
    edited = edit(tmp_path, sized, "ease=3 cm")
    monkeypatch.setattr(os, "access", lambda path, mode: False)
    (fault,) = write_files(tmp_path, edited, SHOWN)
    assert fault.headline == "hat/pattern.yaml was not written: it may not be written"


def test_where_the_second_file_cannot_be_put_in_place_the_first_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sized = pattern_with(tmp_path, BODY, body_csv=CSV)
    edited = edit(tmp_path, sized, "ease=3 cm", "bust[M]=93 cm")
    real = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if target.name == "body.csv":
            raise PermissionError(13, "Permission denied")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    (fault,) = write_files(tmp_path, edited, SHOWN)
    assert fault.headline == "hat/body.csv was not written: permission denied"
    assert (tmp_path / HEADER).read_text() == BODY
    assert (tmp_path / "body.csv").read_text() == CSV
    assert sorted(each.name for each in tmp_path.iterdir()) == ["body.csv", HEADER, "text.md"]
