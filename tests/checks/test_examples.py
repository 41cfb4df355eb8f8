"""Every explanation page is run: its firing examples fire, once and in the sizes they name, and its near misses stay quiet.

What is found in them is also given in every form of a finding.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from urllib.parse import unquote

import pytest
from msgspec import Struct
from syrupy.assertion import SnapshotAssertion

from stitchproof import check_pattern
from stitchproof.checks.catalogue import all_pages, page_for, page_text
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.page import Example, Page
from stitchproof.diagnostics.terminal import as_text
from tests.checks.smallest_pattern import write_example
from tests.diagnostics.published_sarif import cut, only_run
from tests.diagnostics.test_forms import rebuilt
from tests.diagnostics.test_sarif import log_of

NO_SOURCE_CAN_SHOW = {"SP000", "SP039", "SP121", "SP180", "SP181", "SP182", "SP183", "SP184", "SP203"}
"""Our own bug, a broken style folder, a question without an answer, what an edition is asked for, worksheets, and a photo
that only a build opens:
no pattern source brings them about; each has a test of its own."""
NO_SOURCE_CAN_SHOW |= {"SP220", "SP221", "SP222", "SP223", "SP224", "SP225", "SP226", "SP227"}
"""What is asked of a pattern's files: edits in place, grading sheets, re-gauging. Each has a test of its own."""
NO_SOURCE_CAN_SHOW |= {"SP230", "SP231", "SP234"}
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


FIRING = [case for case in CASES if case.values[1].fires_in is not None]  # type: ignore[union-attr]


class Checked(Struct, frozen=True):
    """An example as a pattern: the workspace it was written into, and what was found in it."""

    workspace: Path
    findings: tuple[Diagnostic, ...]


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Example], Checked]:
    """An example checked, once for all tests."""

    @cache
    def outcome(example: Example) -> Checked:
        workspace = tmp_path_factory.mktemp("example")
        return Checked(workspace, check_pattern(write_example(example, workspace), within=workspace).findings)

    return outcome


@pytest.mark.parametrize(("page", "example"), CASES)
def test_example(
    page: Page, example: Example, checked: Callable[[Example], Checked], snapshot: SnapshotAssertion
) -> None:
    """A firing example gives one report of its page and no other; a near miss gives none at all."""
    beside = OF_WHOLE_PIECES - {page.code}
    findings = tuple(found for found in checked(example).findings if found.page.code not in beside)
    printed = as_text(facts_of(found) for found in findings)
    if example.fires_in is None:
        assert not [found for found in findings if not found.accepted], printed
        return
    findings = tuple(found for found in findings if page.code != "SP041" or found.page.code == page.code)
    assert [found.page.code for found in findings] == [page.code], printed
    if example.fires_in:
        assert findings[0].sizes == example.fires_in
    assert printed == snapshot


@pytest.mark.parametrize(("page", "example"), CASES)
def test_the_terminal_text_can_be_made_from_the_json(
    page: Page, example: Example, checked: Callable[[Example], Checked]
) -> None:
    findings = checked(example).findings
    assert rebuilt(as_json(map(facts_of, findings))) == as_text(facts_of(found) for found in findings)


@pytest.mark.parametrize(("page", "example"), FIRING)
def test_every_firing_example_in_sarif(page: Page, example: Example, checked: Callable[[Example], Checked]) -> None:
    """Valid; one location each; cut out of the file on disk, the region is the text that the report underlines."""
    outcome = checked(example)
    # An error that cannot be accepted stands beside the report that says so.
    findings = [each for each in outcome.findings if each.page.code == page.code]
    run = only_run(log_of(*findings))
    assert len(run["results"]) == len(findings) == 1
    for diagnostic, result in zip(findings, run["results"], strict=True):
        (location,) = result["locations"]
        places = [location, *result.get("relatedLocations", [])]
        for excerpt, place in zip([diagnostic.primary, *diagnostic.related], places, strict=True):
            physical = place["physicalLocation"]
            file = outcome.workspace / unquote(physical["artifactLocation"]["uri"])
            if "region" in physical:
                assert cut(file.read_text("utf-8"), physical["region"]) == excerpt.span.text
            else:
                assert excerpt.span.text == ""
        rule = run["tool"]["driver"]["rules"][result["ruleIndex"]]
        assert (rule["id"], rule["name"]) == (page.code, page.name) == (result["ruleId"], page.name)
        assert result["level"] == rule["defaultConfiguration"]["level"] == page.severity.value


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
