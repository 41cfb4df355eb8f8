"""Faults seeded in the rows of the demos, each alone: one report, of the right kind, in the right sizes, with its cause."""

from __future__ import annotations

from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import check_pattern
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text
from tests.garments.seeded_row_faults import SEEDED


@pytest.mark.parametrize("name", SEEDED)
def test_one_report_with_the_right_cause(name: str, tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    """Found once, in the sizes that have it; what a warning would say of the same number is told in it."""
    fault = SEEDED[name]
    outcome = check_pattern(fault.planted(tmp_path), within=tmp_path)
    found = outcome.findings
    text = as_text(facts_of(each) for each in found)
    assert [each.page.code for each in found] == [fault.code], text
    assert outcome.sized is not None
    assert tuple(outcome.sized.sizes.index(size) + 1 for size in found[0].sizes) == fault.sizes, text
    report = as_text([facts_of(found[0])])
    assert [words for words in fault.says if words not in report] == [], report
    assert report == snapshot
