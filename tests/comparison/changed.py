"""Records of the demos as they are, and with an input changed."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from stitchproof.comparison.compare import compare
from stitchproof.comparison.comparison import Comparison
from stitchproof.pipeline import check_pattern, record_of
from stitchproof.record.json_form import from_bytes
from stitchproof.record.record import Record
from stitchproof.sizing.changes import Changes

CLONE = Path(__file__).resolve().parents[2]
DEMOS = ("cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat")


@cache
def record_now(name: str) -> Record:
    """The committed record; another test holds that it is what the pattern comes to."""
    return from_bytes((CLONE / "build" / name / "record.json").read_bytes())


def with_changes(name: str, **changes: str) -> Comparison:
    """A demo against itself with other values; a dot in a name is written as two underlines."""
    return with_values(name, {key.replace("__", "."): value for key, value in changes.items()})


def with_values(name: str, changes: Changes) -> Comparison:
    """A demo against itself with other values, by their dotted names."""
    record = record_of(check_pattern(name, changes, within=CLONE))
    assert record is not None
    return compare(record_now(name), record, "old", "new")


def with_texts(name: str, into: Path, replaced: dict[str, dict[str, str]]) -> Comparison:
    """A demo against a copy in which words of its files are replaced: by file, old → new; each must be there."""
    folder = into / name
    folder.mkdir(parents=True)
    for file in sorted((CLONE / "pattern_sources" / name).iterdir()):
        text = file.read_text(encoding="utf-8")
        for old, new in replaced.get(file.name, {}).items():
            assert old in text, old
            text = text.replace(old, new)
        (folder / file.name).write_text(text, encoding="utf-8")
    record = record_of(check_pattern(folder, within=CLONE))
    assert record is not None
    return compare(record_now(name), record, "old", "new")
