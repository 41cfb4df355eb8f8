"""The preview in a real browser: a designer edits, tries, writes, by mouse and by keyboard, on a desk and on a phone."""

from __future__ import annotations

import re
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, FrameLocator, Page, expect

from stitchproof.preview.serve import Preview
from tests.pages.test_accessibility import DESK, PHONE, TAGS
from tests.preview.running import HAT, TOP, running, session_of, workspace_with


@pytest.fixture
def hat(tmp_path: Path) -> Iterator[Preview]:
    with running(session_of(workspace_with(tmp_path, HAT))) as preview:
        yield preview


@contextmanager
def opened(browser: Browser, preview: Preview, **how: object) -> Iterator[Page]:
    """The preview in a window of its own. No page in it may have asked for anything but this preview, nor have failed."""
    context = browser.new_context(**{"viewport": DESK, **how})  # type: ignore[arg-type]  # Playwright's own names
    asked: list[str] = []
    failed: list[str] = []

    def watch(page: Page) -> None:
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: failed.append(str(error)))
        page.on("console", lambda message: failed.append(message.text) if message.type == "error" else None)

    context.on("page", watch)
    page = context.new_page()
    page.goto(preview.address)
    expect(inside(page).locator("[data-row]").first).to_be_visible()
    yield page
    context.close()
    assert [url for url in asked if not url.startswith((preview.address, "data:"))] == []
    assert failed == []


def inside(page: Page) -> FrameLocator:
    return page.frame_locator("#page")


def plant(preview: Preview, old: str, new: str, name: str = "pattern.yaml") -> None:
    """A save."""
    file = preview.app.desk.session.folder / name
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def tab(page: Page, key: str) -> None:
    page.locator(f"#tab_{key}").click()


def scrolled(page: Page) -> float:
    return float(page.evaluate("document.getElementById('page').contentWindow.scrollY"))


def shown_of(page: Page) -> int:
    return int(page.evaluate("Number(document.documentElement.dataset.shown)"))


def test_a_save_is_seen_and_the_place_is_kept(browser: Browser, hat: Preview) -> None:
    with opened(browser, hat) as page:
        page.select_option("#my_size", "3")
        row = inside(page).locator('[data-row^="body/"]').first
        row.scroll_into_view_if_needed()
        before = row.bounding_box()
        assert before and scrolled(page) > 300
        before_save = shown_of(page)
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
        plant(hat, "## Brim", "A line above it all.\n\n## Brim", "20_brim.md")
        newer(page, before_save)
        assert asked == []  # the page was sent, and nothing around it is new
        after = row.bounding_box()
        assert after and abs(after["y"] - before["y"]) < 3
        assert page.locator("#my_size").input_value() == "3"
        weights = """all => [...new Set(all.map((each) => `${each.dataset.size} ${getComputedStyle(each).fontWeight}`))].sort()"""
        told = inside(page).locator(".vector [data-size]").evaluate_all(weights)
        assert {each for each in told if each.endswith("700")} == {"3 700"}
        assert len({each.split()[0] for each in told}) == 5


ROWS = "[...document.getElementById('page').contentDocument.querySelectorAll('[data-row]')]"
HEIGHT = "document.getElementById('page').contentDocument.documentElement.scrollHeight"


def test_parts_out_of_sight_keep_their_height(browser: Browser, tmp_path: Path) -> None:
    """They are neither laid out nor painted, and nothing of the page moves for it, on the way to them or at a save."""
    with running(session_of(workspace_with(tmp_path, TOP), TOP)) as preview, opened(browser, preview) as page:
        page.wait_for_function(f"() => !{ROWS}.at(-1).checkVisibility({{ contentVisibilityAuto: true }})")
        height = page.evaluate(HEIGHT)
        row = inside(page).locator("[data-row]").last
        row.scroll_into_view_if_needed()
        page.wait_for_function(f"() => {ROWS}.at(-1).checkVisibility({{ contentVisibilityAuto: true }})")
        assert abs(page.evaluate(HEIGHT) - height) < 3
        before, before_save = row.bounding_box(), shown_of(page)
        plant(preview, "hdc in each st around,", "A word more. Hdc in each st around,", "20_yoke.md")
        newer(page, before_save)
        after = row.bounding_box()
        assert before and after and abs(after["y"] - before["y"]) < 3
        assert page.evaluate(f"{ROWS}[0].checkVisibility({{ contentVisibilityAuto: true }})") is False


def newer(page: Page, than: int) -> None:
    """Wait until a later save is shown."""
    expect(page.locator("html")).not_to_have_attribute("data-shown", str(than))


def text_of(preview: Preview, name: str) -> str:
    return (preview.app.desk.session.folder / name).read_text("utf-8")


SAVES = (
    ("pattern.yaml", "title: Cobblewick Hat", "title: Cobblewick Bonnet"),
    ("40_crown.md", "in each st around", "in every st around"),
    ("20_brim.md", "## Brim", "A line above it all.\n\n## Brim"),
    ("20_brim.md", "Do not fasten off.", "Do not fasten off yet."),
    ("40_crown.md", "Next Rnd: Hdc", "Next Rnd: Hdcc"),  # a draft: marked at the row and at the top
    ("50_finishing.md", "## ", "## Weights {back}\n\nWeigh the hat.\n\n## "),
    ("pattern.yaml", "title: Cobblewick Hat", 'title: Cobblewick <section id="part_3"> Hat'),
)
"""Of one part, of several, of none; a part more."""


def test_only_what_changed_is_put_in(browser: Browser, hat: Preview) -> None:
    """A row that is as it was stays the same element, so that what a reader marked or selected in it stays as well; and the page
    is what it would be if it were fetched anew."""
    with opened(browser, hat) as page:
        untouched = inside(page).locator('[data-row^="body/"]').first
        untouched.evaluate("each => { each.mine = 'here before'; }")
        for name, old, new in SAVES:
            for before, after in ((old, new), (new, old)):
                version = shown_of(page)
                plant(hat, before, after, name)
                newer(page, version)
                assert untouched.evaluate("each => each.mine") == "here before"
                assert as_fetched(page), f"{before!r} to {after!r}"


def as_fetched(page: Page) -> bool:
    """Whether the page inside is the page that the preview gives."""
    fresh = page.evaluate("fetch('page').then((answer) => answer.text())")
    same = page.evaluate(
        """(html) => {
          const page = document.getElementById("page").contentDocument;
          const body = new page.defaultView.DOMParser().parseFromString(html, "text/html").body;
          const clone = page.body.cloneNode(true);
          clone.querySelectorAll('.number').forEach((each) => each.setAttribute("tabindex", "-1"));
          return clone.isEqualNode(body);
        }""",
        fresh,
    )
    return bool(same)


def test_broken_unreadable_and_mended(browser: Browser, hat: Preview) -> None:
    good = text_of(hat, "pattern.yaml")
    with opened(browser, hat) as page:
        plant(hat, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
        expect(page.locator("html")).to_have_attribute("data-state", "draft")
        finding = page.locator(".finding")
        expect(finding).to_have_count(1)
        expect(finding.locator("h2")).to_contain_text("`brim_stz` is not a name of this pattern")
        expect(finding.locator("mark").first).to_have_text("brim_stz")
        finding.locator(".go").click()
        here = inside(page).locator("[data-here]")
        expect(here).to_contain_text("Fault:")
        expect(here).to_be_in_viewport()
        finding.locator("summary").click()
        expect(finding.locator("details")).to_contain_text("How to mend it")

        (hat.app.desk.session.folder / "pattern.yaml").write_text("title: [", encoding="utf-8")
        expect(page.locator("html")).to_have_attribute("data-state", "old")
        expect(page.locator("#state")).to_contain_text("An old page")
        expect(inside(page).locator("h1")).to_have_text("Cobblewick Hat")
        expect(inside(page).locator(".draft")).to_contain_text("DRAFT with 1 error")

        (hat.app.desk.session.folder / "pattern.yaml").write_text(good, encoding="utf-8")
        expect(page.locator("html")).to_have_attribute("data-state", "sound")
        expect(page.locator(".finding")).to_have_count(0)
        expect(inside(page).locator(".draft")).to_have_count(0)


def test_a_folder_taken_away_and_put_back(browser: Browser, hat: Preview, tmp_path: Path) -> None:
    folder = hat.app.desk.session.folder
    with opened(browser, hat) as page:
        shutil.move(folder, tmp_path / "elsewhere")
        expect(page.locator("html")).to_have_attribute("data-state", "old")
        shutil.move(tmp_path / "elsewhere", folder)
        expect(page.locator("html")).to_have_attribute("data-state", "sound")
        plant(hat, "title: Cobblewick Hat", "title: Cobblewick Bonnet")
        expect(inside(page).locator("h1")).to_have_text("Cobblewick Bonnet")
        expect(page.locator("h1")).to_have_text("Cobblewick Bonnet")


def test_a_number_tells_how_it_came_about(browser: Browser, hat: Preview) -> None:
    with opened(browser, hat) as page:
        number = inside(page).locator('[data-row^="body/"] .number[data-number="hat_sts"]').first
        number.click()
        panel = page.locator("#panel_number")
        expect(panel).to_be_visible()
        expect(panel.locator("h2")).to_have_text("hat_sts")
        expect(panel.locator("tbody tr")).to_have_count(5)
        expect(number).to_have_attribute("aria-pressed", "true")
        place = panel.locator(".places .go").nth(1)
        label = place.inner_text()
        place.click()
        expect(inside(page).locator("[data-here]")).to_be_in_viewport()
        assert label.partition(": ")[2][:3] in inside(page).locator("[data-here]").inner_text()


def test_what_if_and_writing(browser: Browser, hat: Preview) -> None:
    before = text_of(hat, "pattern.yaml")
    with opened(browser, hat) as page:
        tab(page, "what_if")
        page.locator('.input[data-name="gauges.crown.stitches"] input').fill("17")
        page.locator("#what_if .main").click()
        expect(page.locator("#tried")).to_contain_text("What it comes to")
        expect(page.locator("#tried_now")).to_be_visible()
        was = inside(page).locator('[data-row^="body/"] .was').first
        expect(was).to_contain_text("→")
        assert text_of(hat, "pattern.yaml") == before
        page.locator("#back").click()
        expect(inside(page).locator(".was")).to_have_count(0)

        page.locator("#what_if .main").click()
        expect(page.locator(".change")).to_contain_text("stitches: 17")
        page.locator("#write").click()
        page.locator("#sure .no").click()
        assert text_of(hat, "pattern.yaml") == before
        page.locator("#write").click()
        page.locator("#sure .yes").click()
        expect(page.locator("#tried")).to_contain_text("Written")
        assert text_of(hat, "pattern.yaml") == before.replace("stitches: 16", "stitches: 17", 1)
        newer(page, 1)
        expect(inside(page).locator(".was")).to_have_count(0)
        expect(page.locator("#tried_now")).to_be_hidden()


def test_a_value_that_works_is_tried_by_one_click(browser: Browser, hat: Preview) -> None:
    plant(hat, "is: hat_around * crown.stitches\n    round: nearest", "by_hand: [63, 72, 80, 88, 96]\n    unit: sts")
    with opened(browser, hat) as page:
        page.locator(".offer").click()
        expect(page.locator("#tried")).to_contain_text("No check would fail")
        expect(page.locator("#tried .change")).to_contain_text("[64, 72, 80, 88, 96]")
        expect(page.locator('.input[data-name="hat_sts"] input')).to_have_value("64 sts")
        expect(page.locator('.input[data-name="hat_sts"] select')).to_have_value("Baby")


def test_by_keyboard_alone(browser: Browser, hat: Preview) -> None:
    """To a number of the page and along its numbers; to a finding's place; a change tried and left."""
    plant(hat, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
    with opened(browser, hat) as page:
        expect(page.locator(".finding")).to_have_count(1)
        key = page.keyboard
        focus_by_tab(page, lambda: inside_focus(page).startswith("number"))
        first = inside_focus(page)
        key.press("ArrowRight")
        assert inside_focus(page) != first
        key.press("ArrowDown")
        key.press("Enter")
        expect(page.locator("#panel_number")).to_be_visible()
        expect(page.locator("#number h2.formula")).to_be_visible()
        focus_by_tab(page, lambda: focus(page) == "tab_number")
        key.press("ArrowLeft")
        assert focus(page) == "tab_findings"
        focus_by_tab(page, lambda: "go" in focus(page))
        key.press("Enter")
        expect(inside(page).locator("[data-here]")).to_be_in_viewport()
        page.locator("#tab_findings").focus()
        key.press("ArrowRight")
        key.press("ArrowRight")
        assert focus(page) == "tab_what_if"
        focus_by_tab(page, lambda: focus(page).startswith("input_ease"))
        key.type("3 cm")
        key.press("Enter")
        expect(page.locator("#tried")).to_contain_text("What it comes to")


def focus(page: Page) -> str:
    return str(page.evaluate("document.activeElement.id || document.activeElement.className"))


def inside_focus(page: Page) -> str:
    return str(
        page.evaluate(
            """() => {
              const now = document.getElementById("page").contentDocument.activeElement;
              const all = [...document.getElementById("page").contentDocument.querySelectorAll(".number")];
              return document.activeElement.id === "page" && now ? `${now.className} ${all.indexOf(now)}` : "";
            }"""
        )
    )


def focus_by_tab(page: Page, there: object, most: int = 80) -> None:
    for _ in range(most):
        if there():  # type: ignore[operator]  # what tells whether the focus is there
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"Tab does not lead there; the focus is at {focus(page)}")


def test_every_focus_is_seen(browser: Browser, hat: Preview) -> None:
    with opened(browser, hat) as page:
        for _ in range(14):
            page.keyboard.press("Tab")
            seen = page.evaluate(
                """() => {
                  let at = document.activeElement;
                  if (at.id === "page") at = at.contentDocument.activeElement;
                  const style = at.ownerDocument.defaultView.getComputedStyle(at);
                  return at === at.ownerDocument.body || style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
                }"""
            )
            assert seen, focus(page)


@pytest.mark.parametrize(("width", "scheme"), [(PHONE, "light"), (PHONE, "dark"), (DESK, "light"), (DESK, "dark")])
def test_no_violation(width: dict[str, int], scheme: str, browser: Browser, tmp_path: Path) -> None:
    """The frame in each of its panels, with a fault, and the page inside with a size chosen and a change shown; WCAG 2.2 AA."""
    with running(session_of(workspace_with(tmp_path, HAT))) as preview:
        plant(preview, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
        with opened(browser, preview, viewport=width, color_scheme=scheme) as page:
            expect(page.locator(".finding")).to_have_count(1)
            page.locator(".finding summary").click()
            expect(page.locator(".finding details")).to_contain_text("How to mend it")
            assert violations(page) == []
            plant(preview, "brim_chain: brim_stz + 1", "brim_chain: brim_sts + 1")
            expect(page.locator(".finding")).to_have_count(0)
            page.select_option("#my_size", "3")
            inside(page).locator('[data-row^="body/"] .number').first.click()
            expect(page.locator("#number h2.formula")).to_be_visible()
            assert violations(page) == []
            tab(page, "what_if")
            page.locator('.input[data-name="ease"] input').fill("3 cm")
            page.locator("#what_if .main").click()
            expect(page.locator("#tried")).to_contain_text("What it comes to")
            assert violations(page) == []
            tab(page, "drawings")
            page.check("#overlay")
            expect(page.locator("#drawings svg").nth(1)).to_be_visible()
            assert violations(page) == []
            tab(page, "prints")
            assert violations(page) == []
            assert page.evaluate("document.documentElement.scrollWidth") <= width["width"]
            tried = page.evaluate("document.getElementById('page').contentDocument.documentElement.outerHTML")
            assert 'class="was"' in tried
            within = page.context.new_page()
            within.goto(f"{preview.address}page")
            assert violations(within) == []


def violations(page: Page) -> list[str]:
    rules = {"runOnly": {"type": "tag", "values": TAGS}, "resultTypes": ["violations"]}
    found = Axe().run(page, options=rules)
    return [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in found.response["violations"]]


def test_a_pdf_on_demand(browser: Browser, hat: Preview) -> None:
    """The page goes on meanwhile: a save is seen while the PDF is made."""
    with opened(browser, hat) as page:
        tab(page, "prints")
        page.select_option("#edition", "all_sizes")
        page.locator("#order .main").click()
        expect(page.locator(".jobs li")).to_have_count(1)
        plant(hat, "title: Cobblewick Hat", "title: Cobblewick Bonnet")
        expect(inside(page).locator("h1")).to_have_text("Cobblewick Bonnet")
        link = page.locator(".jobs a")
        expect(link).to_be_visible()
        address = str(link.evaluate("each => each.href"))
        content = page.evaluate("(address) => fetch(address).then((answer) => answer.text())", address)
        assert content.startswith("%PDF-")


def test_drawings_follow_the_size(browser: Browser, tmp_path: Path) -> None:
    with running(session_of(workspace_with(tmp_path, TOP), TOP)) as preview, opened(browser, preview) as page:
        tab(page, "drawings")
        expect(page.locator("#drawings")).to_contain_text("Size 5")
        page.select_option("#my_size", "2")
        expect(page.locator("#drawings")).to_contain_text("Size 2")
        pieces = page.locator("#drawings figure").count()
        page.check("#overlay")
        expect(page.locator("#drawings svg")).to_have_count(2 * pieces)
        expect(page.locator('#drawings [role="img"][aria-label*="in all sizes"]')).to_have_count(pieces)


def test_two_pages_and_two_previews(browser: Browser, hat: Preview) -> None:
    """A second page of the same preview, and a second preview of the same pattern, see each save as well."""
    with running(session_of(hat.app.desk.session.workspace.root)) as other:
        assert other.port != hat.port
        with opened(browser, hat) as page, opened(browser, hat) as second, opened(browser, other) as third:
            plant(hat, "title: Cobblewick Hat", "title: Cobblewick Bonnet")
            for each in (page, second, third):
                expect(inside(each).locator("h1")).to_have_text("Cobblewick Bonnet")


def test_the_end_is_said(browser: Browser, tmp_path: Path) -> None:
    with running(session_of(workspace_with(tmp_path, HAT))) as preview:
        context = browser.new_context()
        page = context.new_page()
        page.goto(preview.address)
        expect(page.locator("#ended")).to_be_hidden()
        expect(inside(page).locator("[data-row]").first).to_be_visible()
        preview.stop()
        expect(page.locator("#ended")).to_be_visible()
        context.close()


def test_a_strangers_template_runs_nothing(browser: Browser, tmp_path: Path) -> None:
    """A pattern may bring templates. In the page they make no script runs, nothing is fetched, and the frame stays as it is."""
    hers = socket.create_server(("127.0.0.1", 0))
    hers.settimeout(0.2)
    heard: list[bytes] = []
    listening = threading.Thread(target=listen, args=(hers, heard))
    listening.start()
    workspace = workspace_with(tmp_path, HAT)
    own = workspace / "pattern_sources" / HAT / "styles"
    hostile = HOSTILE.replace("PORT", str(hers.getsockname()[1]))
    for name, text in (
        ("all_sizes/screen.html.j2", hostile),
        ("preview/preview.js", "top.taken = 1;"),
        ("preview/preview.html.j2", "x"),
    ):
        (own / name).parent.mkdir(parents=True, exist_ok=True)
        (own / name).write_text(text)
    with running(session_of(workspace)) as preview:
        context = browser.new_context()
        page = context.new_page()
        page.goto(preview.address)
        expect(inside(page).locator("p")).to_have_text("a page of hers")
        page.wait_for_timeout(500)
        assert page.evaluate("window.taken") is None
        assert re.fullmatch("[0-9]+", str(page.evaluate("document.documentElement.dataset.shown")))
        context.close()
    hers.close()
    listening.join()
    assert heard == []


def test_a_page_that_leads_away_is_not_followed(browser: Browser, tmp_path: Path) -> None:
    """It is blocked, and back with the next save that does not."""
    workspace = workspace_with(tmp_path, HAT)
    own = workspace / "styles" / "all_sizes" / "screen.html.j2"
    own.parent.mkdir(parents=True)
    own.write_text(HOSTILE.replace("60;url", "0;url").replace("PORT", "9"))
    with running(session_of(workspace)) as preview:
        context = browser.new_context()
        page = context.new_page()
        page.goto(preview.address)
        expect(inside(page).locator("p")).to_contain_text("blocked")
        own.unlink()
        expect(inside(page).locator("h1")).to_have_text("Cobblewick Hat")
        inside(page).locator(".number").first.click()
        expect(page.locator("#number h2.formula")).to_be_visible()
        context.close()


def listen(server: socket.socket, heard: list[bytes]) -> None:
    """What is said to a stranger's server until it is closed. For a frame that its policy forbids, Chromium connects ahead of
    asking whether it may, and says nothing."""
    while server.fileno() >= 0:
        with suppress(OSError):
            connection, _ = server.accept()
            with connection:
                connection.settimeout(1)
                heard += [said for said in [connection.recv(1000)] if said]


HOSTILE = """<!doctype html><html><head><meta http-equiv="refresh" content="60;url=http://127.0.0.1:PORT/">
<style>body { background: url(http://127.0.0.1:PORT/a.png) } @import "http://127.0.0.1:PORT/b.css";</style></head>
<body><p>a page of hers</p><img src="http://127.0.0.1:PORT/c.png" onerror="top.taken = 1" alt="">
<script>top.taken = 1</script><iframe src="http://127.0.0.1:PORT/"></iframe><form action="http://127.0.0.1:PORT/"></form></body></html>
"""
