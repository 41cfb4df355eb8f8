"""Every explanation page is run: its firing examples fire, once and in the sizes they name, and its near misses stay quiet."""

from __future__ import annotations

from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import check_pattern
from stitchproof.checks.catalogue import all_pages, page_for, page_text
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.page import Example, Page
from stitchproof.diagnostics.terminal import as_text
from tests.checks.smallest_pattern import write_example

NO_SOURCE_CAN_SHOW = {"SP000", "SP039", "SP121", "SP180", "SP181", "SP182", "SP183", "SP184", "SP203"}
"""Our own bug, a broken style folder, a question without an answer, what an edition is asked for, worksheets, and a photo
that only a build opens:
no pattern source brings them about; each has a test of its own."""
NO_SOURCE_CAN_SHOW |= {"SP220", "SP221", "SP222", "SP223", "SP224", "SP225", "SP226", "SP227"}
"""What is asked of a pattern's files: edits in place, grading sheets, re-gauging. Each has a test of its own."""
NO_SOURCE_CAN_SHOW |= {"SP230", "SP231"}
"""What a comparison is asked for: records and commits."""
OF_WHOLE_PIECES = {"SP142", "SP148", "SP165"}
"""A fragment shows a line out of a piece: the rows it calls for, what it is worked into and how it ends stand elsewhere."""
SHOWN_BY_ROWS = {"SP155", "SP156", "SP157", "SP158"}
"""Faults of published rows: their examples are files of rows, run in tests/sequences."""
PAGES = [page for page in all_pages() if page.code not in NO_SOURCE_CAN_SHOW | SHOWN_BY_ROWS]
CASES = [
    pytest.param(page, example, id=f"{page.code}-{number}")
    for page in PAGES
    for number, example in enumerate(page.examples)
]


@pytest.mark.parametrize(("page", "example"), CASES)
def test_example(page: Page, example: Example, tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    """A firing example gives one report of its page and no other; a near miss gives none at all."""
    folder = write_example(example, tmp_path)
    beside = OF_WHOLE_PIECES - {page.code}
    findings = tuple(
        found for found in check_pattern(folder, within=tmp_path).findings if found.page.code not in beside
    )
    printed = as_text(facts_of(found) for found in findings)
    if example.fires_in is None:
        assert not [found for found in findings if not found.accepted], printed
        return
    findings = tuple(found for found in findings if page.code != "SP041" or found.page.code == page.code)
    assert [found.page.code for found in findings] == [page.code], printed
    if example.fires_in:
        assert findings[0].sizes == example.fires_in
    assert printed == snapshot


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.code)
def test_page_shows_both_sides(page: Page) -> None:
    """A page has at least one example that fires and one near miss."""
    assert any(example.fires_in is not None for example in page.examples)
    assert any(example.fires_in is None for example in page.examples)


def test_codes_and_names_are_used_once() -> None:
    """A code is never used twice, and no name stands for two faults."""
    assert len({page.code for page in all_pages()}) == len(all_pages())
    assert len({page.name for page in all_pages()}) == len(all_pages())


def test_explanation_is_found_by_code_and_by_name() -> None:
    """`explain` takes either form."""
    for page in all_pages():
        assert page_for(page.code) is page
        assert page_for(page.name) is page
        assert page.checks.split()[0] in page_text(page)
