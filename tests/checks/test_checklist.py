"""The checklist table holds every check once, names rules that exist, and agrees with their pages about how bad a fault is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stitchproof import checks
from stitchproof.checks.catalogue import all_pages
from stitchproof.checks.checklist import Check, checklist, checklist_text, rules_beyond
from stitchproof.diagnostics.page import Page, Severity

LENGTHS = {
    "NU": 17, "PL": 12, "ME": 12, "SV": 10, "WO": 12, "AB": 6, "TE": 4, "MA": 5, "SC": 3, "CH": 4, "LA": 8,
}  # fmt: skip
"""The groups of the editor's checklist and how many checks each has: 93 together."""
PAGES = {page.code: page for page in all_pages()}
CHECKED = [pytest.param(check, PAGES[code], id=f"{check.id}-{code}") for check in checklist() for code in check.codes]


def test_every_check_stands_once_and_in_order() -> None:
    """93 checks, numbered through within their groups."""
    wanted = [f"{group}{number}" for group, length in LENGTHS.items() for number in range(1, length + 1)]
    assert [check.id for check in checklist()] == wanted
    assert len(wanted) == 93


@pytest.mark.parametrize(("check", "page"), CHECKED)
def test_a_rule_is_as_severe_as_its_check(check: Check, page: Page) -> None:
    """1 and 2 that a machine decides are errors; 3, and what a person decides, warnings; 4 is a note."""
    wanted = {
        ("M", 1): Severity.ERROR, ("M", 2): Severity.ERROR, ("M", 3): Severity.WARNING, ("M", 4): Severity.NOTE,
        ("P", 1): Severity.WARNING, ("P", 2): Severity.WARNING, ("P", 3): Severity.WARNING, ("P", 4): Severity.NOTE,
    }  # fmt: skip
    assert page.severity is wanted[check.mode, check.severity]
    assert check.reported_as is page.severity


@pytest.mark.parametrize("check", checklist(), ids=lambda check: check.id)
def test_a_check_says_who_finds_it(check: Check) -> None:
    """A rule, or who else; and why it is left to them."""
    assert check.codes or check.left_for
    assert check.left_for in ("", "rows", "editions", "person")
    assert check.because or not check.left_for
    assert check.left_for == "person" or check.mode != "H"


def test_every_rule_is_on_the_list_or_beyond_it() -> None:
    """No rule is forgotten, and none stands in both."""
    folder = Path(checks.__file__).parent
    titles = (re.match(r'"""(SP\d{3}) ', file.read_text("utf-8")) for file in sorted(folder.glob("*.py")))
    rules = {title[1] for title in titles if title}
    listed = {code for check in checklist() for code in check.codes}
    beyond = {rule.code for rule in rules_beyond()}
    assert rules - listed - beyond == set()
    assert listed & beyond == set()
    assert beyond <= rules


def test_the_table_names_every_check_and_rule() -> None:
    """`explain checklist` prints each check with its rule, no line too wide for a terminal."""
    text = checklist_text()
    for check in checklist():
        assert re.search(rf"^ +{check.id} ", text, re.MULTILINE)
        for code in check.codes:
            assert code in text
    assert max(map(len, text.split("\n"))) <= 120
