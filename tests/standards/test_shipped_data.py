"""The data files that ship with the compiler are read as PyYAML's own loader reads them, in their quick form as well."""

from pathlib import Path
from shutil import copy

import pytest
import yaml

from stitchproof.shipped_data import quick_form, quick_form_of, read_shipped
from tests.standards.write_quick_forms import DATA_FILES


@pytest.mark.parametrize("path", DATA_FILES, ids=lambda path: path.stem)
def test_a_file_reads_as_yaml(path: Path, tmp_path: Path) -> None:
    as_yaml = repr(yaml.load(path.read_text("utf-8"), Loader=yaml.CSafeLoader))
    assert repr(read_shipped(path)) == as_yaml
    assert repr(read_shipped(Path(copy(path, tmp_path)))) == as_yaml  # without its quick form


@pytest.mark.parametrize("path", DATA_FILES, ids=lambda path: path.stem)
def test_the_quick_form_of_a_file_is_made_from_it(path: Path) -> None:
    assert quick_form_of(path).read_bytes() == quick_form(path.read_bytes()), "`make quick-forms` writes it anew"


def test_there_are_such_files() -> None:
    assert len(DATA_FILES) > 12


@pytest.mark.parametrize("left", [None, b"", b"{}", b'{"made_from": 1, "data": {"ease": 1}}', quick_form(b"ease: 1")])
def test_a_quick_form_of_another_file_is_not_used(left: bytes | None, tmp_path: Path) -> None:
    path = tmp_path / "ease.yaml"
    path.write_text("ease: 2")
    if left is not None:
        quick_form_of(path).write_bytes(left)
    assert read_shipped(path) == {"ease": 2}


def test_a_quick_form_is_read_in_place_of_its_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "ease.yaml"
    path.write_text("ease: {worn: [1, 2.5, yes]}")
    quick_form_of(path).write_bytes(quick_form(path.read_bytes()))
    monkeypatch.setattr("stitchproof.shipped_data.read_as_yaml", lambda content: pytest.fail("the YAML was read"))
    assert read_shipped(path) == {"ease": {"worn": [1, 2.5, True]}}
