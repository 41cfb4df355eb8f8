"""The last place of a kind is the last of that kind, whatever lies behind it. Common practice, no source."""

from __future__ import annotations

import pytest

from tests.sequences.worked_files import worked_text

SHELLS = """
- id: shells
  source: {{title: 'invented: shells on arches', address: none}}
  terms: us
  start: ch 26
  rows:
  - label: Row 1
    text: Sc in 2nd ch from hook and in each ch across, turn
    style: clean
    stated: 25
  - label: Row 2
    text: Ch 1, sc in first sc, *ch 3, sk next 3 sc, sc in next sc; rep from * to end, turn
    style: clean
    stated: null
  - label: Row 3
    text: Ch 3 (counts as dc), 2 dc in first sc, *sc in next ch-3 sp, 5 dc in next sc; rep from * {extent}, {close}, turn
    style: clean
    stated: {stated}
"""


@pytest.mark.parametrize("extent", ["to last ch-3 sp", "4 more times"])
@pytest.mark.parametrize("place", ["last ch-3 sp", "next ch-3 sp"])
def test_last_space_before_a_last_stitch(extent: str, place: str) -> None:
    """3 + 5 × 6 + 1 + 3 = 37 sts: after five passes the sixth arch and the last sc are left."""
    close = f"sc in {place}, 3 dc in last sc"
    _, findings = worked_text(SHELLS.format(extent=extent, close=close, stated=37))
    assert findings == ()


def test_places_passed_over_before_the_last_space_are_told() -> None:
    """After four passes an arch and an sc lie before the last arch."""
    text = SHELLS.format(extent="3 more times", close="sc in last ch-3 sp, 3 dc in last sc", stated="null")
    _, findings = worked_text(text)
    assert [found.page.code for found in findings] == ["SP155"]
