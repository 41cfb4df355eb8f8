"""Pages for the screen that are put on paper by a browser: nothing may stand beyond the right edge, as paper does not scroll."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.pages.conftest import context_without_network
from tests.pages.printed import page_of

BETWEEN_MARGINS = {"width": 700, "height": 1000}
"""Of an A4 sheet (210 mm), less about 12 mm on both sides, at 96 pixels per inch."""
FARTHEST = """() => Math.max(...[...document.querySelectorAll("main table, main pre, main p")]
    .filter(each => each.getClientRects().length)
    .map(each => each.getBoundingClientRect().right))"""


@pytest.mark.parametrize("pattern", ["cobblewick_hat", "saltmarrow_yoke_top"])
def test_all_columns_of_the_editors_sheet_are_on_the_paper(pattern: str, browser: Browser, folder: Path) -> None:
    """Nine sizes with their deviations in stitches, cm and inches are the widest tables."""
    with context_without_network(browser, viewport=BETWEEN_MARGINS) as context:
        page = context.new_page()
        page.goto(page_of(folder, "editors_sheet", pattern).as_uri())
        page.emulate_media(media="print")
        assert page.evaluate(FARTHEST) <= BETWEEN_MARGINS["width"]
