"""A pattern whose pages are begun before it is judged is judged as any other one."""

from itertools import chain
from pathlib import Path
from random import Random

import pytest

from stitchproof.stages import CheckOutcome, checked_folder
from tests.kept.edits import copied, saves, told


@pytest.mark.parametrize(("demo", "number"), [("cobblewick_hat", 7), ("pebblewold_cowl", 4)])
def test_what_is_told_before_is_what_is_judged(demo: str, number: int, tmp_path: Path) -> None:
    folder, clean = copied(demo, tmp_path), 0
    for save in chain(["as it is"], saves(folder, number, Random(4))):  # noqa: S311  # a draw of tests, no secret
        before: list[CheckOutcome] = []
        at_once, later = checked_folder(folder, demo, {}), checked_folder(folder, demo, {}, ready=before.append)
        assert told(later) == told(at_once), save
        if not at_once.errors:
            clean += 1
            (known,) = before
            assert known.document is later.document, save
            assert known.sized is later.sized, save
    assert clean
