"""Rows called for again where not every row before them could be worked."""

from __future__ import annotations

from stitchproof.sequences.outcomes import Verdict
from tests.sequences.worked_files import worked_text

FILE = """
- id: cloth
  source: {title: 'invented: a cloth', address: none}
  start: 24 sc
  rows:
  - {label: Row 1, text: 'Ch 1, turn, sc in each st to marker, 2 sc in next st', stated: 24}
  - {label: Row 2, text: 'Ch 1, turn, sc in each st across', stated: 24}
  - {label: Rows 3-6, text: Repeat Row 2, stated: 24}
"""


def test_a_row_after_one_that_is_not_worked_can_be_called_for() -> None:
    """The marker is nowhere; what the row before it was is remembered all the same."""
    (outcome,), findings = worked_text(FILE)
    assert [row.verdict for row in outcome.rows] == [Verdict.NOT_WORKED, Verdict.PROVED, Verdict.PROVED]
    assert all(found.page.code != "SP000" for found in findings)
