"""Writes the quick forms of the data files anew, after one of these was changed: `make quick-forms`."""

from __future__ import annotations

from pathlib import Path

from stitchproof.shipped_data import quick_form, quick_form_of
from tests.architecture.code_reader import SOURCE_ROOT

DATA_FILES: tuple[Path, ...] = tuple(
    sorted(
        path
        for room in ("standards", "stitches", "checks")
        for path in (SOURCE_ROOT / "stitchproof" / room).glob("*.yaml")
    )
)

if __name__ == "__main__":
    for path in DATA_FILES:
        quick_form_of(path).write_bytes(quick_form(path.read_bytes()))
