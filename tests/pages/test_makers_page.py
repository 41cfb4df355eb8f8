"""The maker's page in a real browser: one size, one unit, rows marked as worked, and what happens where that cannot be."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from msgspec.structs import replace
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect
from pypdf import PdfReader

from stitchproof.editions.edition import make_editions
from stitchproof.expansion.document import Document
from tests.editions.demos import SHIPPED, document_of
from tests.editions.page_text import html_blocks
from tests.editions.samples import document, prose, row, sizes_of, sts
from tests.pages.conftest import context_without_network
from tests.pages.printed import page_of, screen_pages

HAT = "cobblewick_hat"
CONTROLS = ".settings, nav, .clear, dialog, template, .worked, script"
AS_SEEN = f"""() => {{
  const hidden = [...document.body.querySelectorAll("*")].filter((each) => getComputedStyle(each).display === "none");
  hidden.forEach((each) => each.setAttribute("data-unseen", ""));
  const seen = document.body.cloneNode(true);
  hidden.forEach((each) => each.removeAttribute("data-unseen"));
  seen.querySelectorAll('[data-unseen], {CONTROLS}').forEach((each) => each.remove());
  return seen.innerHTML;
}}"""
REFUSED = "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
FULL = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }"


def makers_page(folder: Path, pattern: str = HAT) -> Path:
    return page_of(folder, "makers_page", pattern)


@contextmanager
def opened(browser: Browser, page: Path, **how: object) -> Iterator[Page]:
    with context_without_network(browser, **how) as context:
        yield shown(context, page)


def shown(context: BrowserContext, page: Path) -> Page:
    window = context.new_page()
    window.goto(page.as_uri())
    return window


def as_seen(page: Page) -> str:
    """The HTML of what is seen, the controls left out."""
    return str(page.evaluate(AS_SEEN))


def body_of(page: Path) -> str:
    return page.read_text(encoding="utf-8").partition("<body")[2].partition(">")[2]


def in_parts(html: str) -> list[list[str]]:
    """The text of every block, by the parts of the pattern: what stands before them, then each in the order of the alphabet."""
    before, *parts = html.replace("<footer", "<section").split("<section")
    return [html_blocks(before), *sorted(html_blocks(f"<section{part}") for part in parts)]


def reload(page: Page) -> None:
    """A browser hands what is kept to its other processes a moment after it was put there."""
    page.wait_for_timeout(200)
    page.reload()


@pytest.mark.parametrize("pattern", SHIPPED)
def test_a_size_reads_word_for_word_as_its_own_edition(pattern: str, browser: Browser, folder: Path) -> None:
    editions = screen_pages(folder, "one_size", pattern)
    with opened(browser, makers_page(folder, pattern)) as page:
        for number, edition in enumerate(editions, 1):
            page.select_option("#my_size", str(number))
            assert html_blocks(as_seen(page)) == html_blocks(body_of(edition))


@pytest.mark.parametrize("script", [True, False], ids=["with script", "without"])
@pytest.mark.parametrize("pattern", SHIPPED)
def test_all_sizes_read_as_their_own_edition(pattern: str, script: bool, browser: Browser, folder: Path) -> None:
    """Only the order of the parts is another one: a maker's measurements come first."""
    (edition,) = screen_pages(folder, "all_sizes", pattern)
    with opened(browser, makers_page(folder, pattern), java_script_enabled=script) as page:
        assert in_parts(as_seen(page)) == in_parts(body_of(edition))


def test_without_a_script_no_control_is_dead(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder), java_script_enabled=False) as page:
        assert page.locator("input, select, button, summary, dialog").count() == 0
        assert page.locator("nav a:visible").count() > 10


def test_marks_stay_with_their_pattern_and_revision(browser: Browser, folder: Path) -> None:
    """Pages from one folder share one storage, so each pattern and each revision must have a key of its own."""
    others = [makers_page(folder, "pebblewold_cowl"), printed(folder, revised(document_of(HAT)), "revised")]
    with context_without_network(browser) as context:
        page = shown(context, makers_page(folder))
        page.select_option("#my_size", "3")
        page.select_option("#my_units", "in")
        box(page, "Row 1").check()
        box(page, "Rnd 1", "Body").check()
        reload(page)
        assert page.locator("#my_size").input_value() == "3"
        assert page.locator("#my_units").input_value() == "in"
        assert marked(page) == ["Row worked: Row 1", "Row worked: Rnd 1"]
        page.select_option("#my_size", "5")
        assert marked(page) == ["Row worked: Row 1", "Row worked: Rnd 1"]
        for other in others:
            assert marked(shown(context, other)) == []
            assert shown(context, other).locator("#my_size").input_value() == "all"


def test_two_windows_with_one_pattern_agree(browser: Browser, folder: Path) -> None:
    with context_without_network(browser) as context:
        one, other = shown(context, makers_page(folder)), shown(context, makers_page(folder))
        box(one, "Row 1").check()
        box(other, "Row 2").check()
        expect(box(one, "Row 2")).to_be_checked()
        expect(box(other, "Row 1")).to_be_checked()
        box(one, "Row 1").uncheck()
        expect(box(other, "Row 1")).not_to_be_checked()
        one.reload()
        assert marked(one) == ["Row worked: Row 2"]


@pytest.mark.parametrize("why", [REFUSED, FULL], ids=["refused", "full"])
def test_a_browser_that_keeps_nothing_is_told_and_all_else_works(why: str, browser: Browser, folder: Path) -> None:
    with context_without_network(browser) as context:
        context.add_init_script(why)
        page = shown(context, makers_page(folder))
        expect(page.get_by_role("status")).to_contain_text("is gone when you close the page")
        page.select_option("#my_size", "2")
        box(page, "Row 1").check()
        box(page, "Row 2").check()
        assert marked(page) == ["Row worked: Row 1", "Row worked: Row 2"]
        assert "Size 2 Toddler" in html_blocks(as_seen(page))


def test_a_browser_that_keeps_marks_is_told_nothing(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder)) as page:
        expect(page.locator(".refused")).to_be_empty()


@pytest.mark.parametrize("kept", ["not json", "null", '"x"', "[]", '{"size": 99, "units": {}, "worked": 5}'])
def test_what_is_kept_and_cannot_be_read_does_no_harm(kept: str, browser: Browser, folder: Path) -> None:
    with context_without_network(browser) as context:
        page = shown(context, makers_page(folder))
        page.evaluate("kept => localStorage.setItem(`makers_page ${document.body.dataset.key}`, kept)", kept)
        reload(page)
        assert page.locator("#my_size").input_value() == "all"
        assert marked(page) == []
        box(page, "Row 1").check()
        reload(page)
        assert marked(page) == ["Row worked: Row 1"]


def test_marks_of_a_piece_are_cleared_by_keyboard_after_a_question(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder)) as page:
        clear = page.get_by_role("button", name="Clear the marks of Brim")
        expect(clear).to_be_hidden()
        for piece, row in (("Brim", "Row 1"), ("Brim", "Row 2"), ("Body", "Rnd 1")):
            box(page, row, piece).focus()
            page.keyboard.press("Space")
        clear.focus()
        page.keyboard.press("Enter")
        dialog = page.get_by_role("dialog", name="Clear all marks of Brim?")
        expect(dialog.get_by_role("button", name="Keep the marks")).to_be_focused()
        page.keyboard.press("Enter")
        expect(dialog).to_have_count(0)
        expect(clear).to_be_focused()
        page.keyboard.press("Enter")
        page.keyboard.press("Escape")
        assert len(marked(page)) == 3
        page.keyboard.press("Enter")
        page.keyboard.press("Shift+Tab")
        expect(dialog.get_by_role("button", name="Clear the marks")).to_be_focused()
        page.keyboard.press("Enter")
        assert marked(page) == ["Row worked: Rnd 1"]
        expect(clear).to_be_hidden()
        expect(page.get_by_role("checkbox").first).to_be_focused()


def test_one_unit_leaves_the_other_out_everywhere(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder)) as page:
        for unit, left_out in (("cm", "in"), ("in", "cm")):
            for size in ("all", "3"):
                page.select_option("#my_size", size)
                page.select_option("#my_units", unit)
                assert [
                    text for text in measures(page) if re.search(rf"[\d½¼¾] {left_out}\b|, {left_out}$", text)
                ] == []
                assert len([text for text in measures(page) if re.search(rf"[\d½¼¾] {unit}\b|, {unit}$", text)]) > 4


def measures(page: Page) -> list[str]:
    """What stands in tables, under Gauge and on drawings."""
    texts = page.evaluate("""() => {
      const seen = (node) => node.parentElement.getClientRects().length ? node.data : "";
      const words = (each) => {
        const nodes = document.createTreeWalker(each, NodeFilter.SHOW_TEXT);
        let text = "";
        while (nodes.nextNode()) text += seen(nodes.currentNode);
        return text;
      };
      return [...document.querySelectorAll(".sizes th, section li, svg text")].map(words);
    }""")
    return [text.replace("\N{NO-BREAK SPACE}", " ") for text in texts]


def test_parts_are_reached_by_keyboard(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder)) as page:
        page.keyboard.press("Tab")
        expect(page.get_by_role("link", name="To the instructions")).to_be_focused()
        expect(page.get_by_role("link", name="To the instructions")).to_be_in_viewport()
        summary = page.locator("summary")
        summary.focus()
        page.keyboard.press("Enter")
        page.get_by_role("link", name="Crown").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="Crown")).to_be_in_viewport()
        expect(page.locator("nav ul")).to_be_hidden()
        summary.focus()
        page.keyboard.press("Enter")
        page.keyboard.press("Tab")
        page.keyboard.press("Escape")
        expect(summary).to_be_focused()
        expect(page.locator("nav ul")).to_be_hidden()


@pytest.mark.parametrize(("width", "least"), [(360, 44), (1280, 24)])
def test_what_is_touched_is_large_enough(width: int, least: int, browser: Browser, folder: Path) -> None:
    """24 by 24 px: WCAG 2.2, success criterion 2.5.8. On a phone 44 px, as 2.5.5 has it, for what is touched most."""
    with opened(browser, makers_page(folder), viewport={"width": width, "height": 740}) as page:
        box(page, "Row 1").check()
        page.locator("summary").click()
        for control in page.locator(".worked:visible, select, summary, nav a:visible, .clear button:visible").all():
            area = control.bounding_box()
            assert area is not None
            assert min(area["width"], area["height"]) >= least, control.inner_text()
        tops = page.locator(".worked:visible").evaluate_all("all => all.map(each => each.getBoundingClientRect().top)")
        assert min(after - before for before, after in pairwise(tops)) >= least


def test_focus_is_seen(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder)) as page:
        box(page, "Row 1").check()
        for place in ("summary", "#my_size", ".worked input >> nth=0", ".clear button >> nth=0", ".to_settings"):
            page.keyboard.press("Tab")
            page.locator(place).focus()
            assert page.locator(place).evaluate("each => getComputedStyle(each).outlineStyle") == "solid", place


def test_on_paper_stands_what_she_sees(browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder)) as page:
        page.select_option("#my_size", "3")
        page.select_option("#my_units", "cm")
        box(page, "Row 1").check()
        before = html_blocks(as_seen(page))
        page.emulate_media(media="print", color_scheme="dark")
        assert html_blocks(as_seen(page)) == before
        assert page.locator("select:visible, button:visible, nav:visible").count() == 0
        assert page.locator(".worked input:visible").count() == page.locator(".worked input").count() > 20
        text = " ".join(PdfReader(BytesIO(page.pdf(format="A4"))).pages[0].extract_text().split())
        assert "Size 3 Child" in text
        assert "My size" not in text


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_boxes_are_drawn_where_colours_are_forced(scheme: str, browser: Browser, folder: Path) -> None:
    with opened(browser, makers_page(folder), forced_colors="active", color_scheme=scheme) as page:
        box(page, "Row 1").check()
        for part in ("null", "'::before'"):
            width = f"each => getComputedStyle(each, {part}).borderBottomWidth"
            assert float(box(page, "Row 1").evaluate(width).removesuffix("px")) >= 1


def test_markup_in_a_pattern_is_text(browser: Browser, folder: Path) -> None:
    sharp = "</script><script>document.title = 'x'</script>\"'><img src=x onerror=alert(1)>"
    pattern = document(
        sizes_of("S M", (1,), by_number=True),
        prose(sharp),
        row(f"R {sharp}:", sharp, (0, 1)),
        row("Rnd 2:", "Sc in next {n} sts.", (0, 1), n=sts(4, 5)),
    )
    titled = replace(pattern, title_block=replace(pattern.title_block, title=f"Hat {sharp}"))
    with opened(browser, printed(folder, titled, "sharp")) as page:
        assert page.title() == f"Hat {sharp}"
        page.get_by_role("checkbox", name=f"Row worked: R {sharp}").check()
        page.select_option("#my_size", "2")
        page.get_by_role("button", name="Clear the marks").click()
        expect(page.get_by_role("dialog")).to_be_visible()
        assert page.locator("img").count() == 0
        assert f"R {sharp}: {sharp}" in html_blocks(as_seen(page))


def revised(document: Document) -> Document:
    return replace(document, title_block=replace(document.title_block, revision="2"))


def printed(folder: Path, document: Document, name: str) -> Path:
    """The maker's page of a document."""
    (edition,) = make_editions(document, ["makers_page"])
    page = folder / f"{name}.html"
    page.write_bytes(edition.files[0].content)
    return page


def box(page: Page, row: str, piece: str = "Brim") -> Locator:
    """The box of a row, as a screen reader finds it."""
    section = page.locator("section", has=page.get_by_role("heading", name=piece, exact=True))
    return section.get_by_role("checkbox", name=f"Row worked: {row}", exact=True)


def marked(page: Page) -> list[str | None]:
    """The names of the boxes that are ticked."""
    return [each.get_attribute("aria-label") for each in page.locator(".worked input:checked").all()]
