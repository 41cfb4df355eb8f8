"""A few changed sources of each kind: the campaign works, and finds nothing in these."""

from __future__ import annotations

import pytest

from tests.fuzz.campaign import KINDS, run


@pytest.mark.parametrize("kind", KINDS)
def test_a_few(kind: str) -> None:
    outcome = run(kind, 30, 60, 1)
    assert outcome.tried == 30
    assert [find.why for find in outcome.finds] == []
