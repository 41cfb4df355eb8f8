"""The data files that ship with the compiler are read as PyYAML's own loader reads them."""

from pathlib import Path

import pytest
import yaml

from stitchproof.shipped_data import read_shipped
from tests.architecture.code_reader import SOURCE_ROOT

FILES = [
    path for room in ("standards", "stitches", "checks") for path in (SOURCE_ROOT / "stitchproof" / room).glob("*.yaml")
]


@pytest.mark.parametrize("path", sorted(FILES), ids=lambda path: path.stem)
def test_a_file_reads_as_yaml(path: Path) -> None:
    assert repr(read_shipped(path)) == repr(yaml.load(path.read_text("utf-8"), Loader=yaml.CSafeLoader))


def test_there_are_such_files() -> None:
    assert len(FILES) > 12
