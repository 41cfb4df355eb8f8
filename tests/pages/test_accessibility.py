"""Every printed page keeps WCAG 2.2 AA, as far as a machine can tell.

The rules are those of axe (Deque Systems, https://github.com/dequelabs/axe-core) for the success criteria of WCAG 2.0, 2.1
and 2.2, levels A and AA (https://www.w3.org/TR/WCAG22/).
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.styles import edition_names
from tests.pages.conftest import context_without_network
from tests.pages.printed import LOOKED_AT, page_of

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
HAT = "cobblewick_hat"
PHONE, DESK = {"width": 360, "height": 740}, {"width": 1280, "height": 800}
DAMAGED = """
document.querySelector("h1").style.color = "#999";
document.querySelector("main").innerHTML += "<input>";
document.documentElement.removeAttribute("lang");
document.querySelectorAll("nav a").forEach((each) => {
  each.style.cssText = "display: block; height: 8px; padding: 0; font-size: 8px; line-height: 1";
});
document.querySelector("nav ul").style.cssText = "display: block; line-height: 1; font-size: 8px";
"""
FOUND = {"color-contrast", "html-has-lang", "label", "target-size"}
"""One rule of WCAG 2.0 A, one of AA, one of both, and the one that came with WCAG 2.2."""


def audits() -> Iterator[tuple[str, str, int, str]]:
    """Every edition of the hat at both widths, light and dark; the other patterns, in the same dress, once at each width."""
    for edition, pattern in LOOKED_AT:
        for wide, scheme in ((360, "light"), (1280, "dark"), (360, "dark"), (1280, "light")):
            if pattern == HAT or edition == "comparison" or (wide, scheme) in ((360, "light"), (1280, "dark")):
                yield edition, pattern, wide, scheme


def violations(page: Page) -> list[str]:
    """What axe finds, each with the first place where it does."""
    rules = {"type": "tag", "values": TAGS}
    results = Axe().run(page, options={"runOnly": rules, "resultTypes": ["violations"]})
    return [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in results.response["violations"]]


@pytest.mark.parametrize(("edition", "pattern", "wide", "scheme"), list(audits()))
def test_no_violation(edition: str, pattern: str, wide: int, scheme: str, browser: Browser, folder: Path) -> None:
    width = PHONE if wide == PHONE["width"] else DESK
    with context_without_network(browser, viewport=width, color_scheme=scheme) as context:
        page = context.new_page()
        page.goto(page_of(folder, edition, pattern).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width["width"]
        if edition != "makers_page" or pattern == HAT:
            assert violations(page) == []
        if edition == "makers_page":
            page.select_option("#my_size", "3")
            page.locator(".worked input:visible").first.check()
            page.locator("summary").click()
            assert page.evaluate("document.documentElement.scrollWidth") <= width["width"]
            assert violations(page) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_violation_while_it_asks(scheme: str, browser: Browser, folder: Path) -> None:
    with context_without_network(browser, viewport=PHONE, color_scheme=scheme) as context:
        page = context.new_page()
        page.goto(page_of(folder, "makers_page", HAT).as_uri())
        page.locator(".worked input:visible").first.check()
        page.locator(".clear button:visible").first.click()
        assert page.get_by_role("dialog").is_visible()
        assert violations(page) == []


def test_every_edition_on_a_screen_is_looked_at() -> None:
    """The frame of the preview is no file; it is audited as it is served, in test_preview.py."""
    assert {edition for edition, _ in LOOKED_AT} == {
        name for name in edition_names(()) if find_edition(name, ()).screen
    } - {"preview"}


def test_the_audit_finds_what_is_wrong(browser: Browser, folder: Path) -> None:
    with context_without_network(browser, color_scheme="light") as context:
        page = context.new_page()
        page.goto(page_of(folder, "all_sizes", HAT).as_uri())
        page.evaluate(DAMAGED)
        assert {each.partition(":")[0] for each in violations(page)} == FOUND
