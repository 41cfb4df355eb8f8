"""The explanation pages about published rows are run as files of rows: what fires fires alone, what is quiet stays so."""

from __future__ import annotations

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof.checks.catalogue import all_pages
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.page import Example, Page
from stitchproof.diagnostics.terminal import as_text
from tests.sequences.worked_files import worked_text

CODES = ("SP155", "SP156", "SP157", "SP158")
CASES = [
    pytest.param(page, example, id=f"{page.code}-{number}")
    for page in all_pages()
    if page.code in CODES
    for number, example in enumerate(page.examples)
]


@pytest.mark.parametrize(("page", "example"), CASES)
def test_example(page: Page, example: Example, snapshot: SnapshotAssertion) -> None:
    findings = worked_text(example.yaml)[1]
    printed = as_text(facts_of(found) for found in findings)
    if example.fires_in is None:
        assert not findings, printed
        return
    assert [found.page.code for found in findings] == [page.code], printed
    assert printed == snapshot


def test_all_pages_are_run() -> None:
    assert {case.values[0].code for case in CASES} == set(CODES)  # type: ignore[union-attr]
