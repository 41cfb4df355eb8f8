"""A browser without a network for the tests of printed pages."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
NAMES = ("chromium", "chromium-browser", "google-chrome")
PATIENCE = 20_000
"""Milliseconds. What is expected is there at once; on a busy machine at once may take a while."""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        pytest.fail("no Chromium here: .ci/setup requirements-dev.txt pages installs it")
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=list(ARGUMENTS))
        yield browser
        browser.close()


@contextmanager
def context_without_network(browser: Browser, **how: object) -> Iterator[BrowserContext]:
    """A window of its own. At the end no page in it may have asked for anything but files and data, nor have failed."""
    context = browser.new_context(**how)  # type: ignore[arg-type]  # Playwright's own names
    asked: list[str] = []
    failed: list[str] = []

    def watch(page: Page) -> None:
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: failed.append(str(error)))
        page.on("console", lambda message: failed.append(message.text) if message.type == "error" else None)

    context.on("page", watch)
    context.route(lambda url: not url.startswith(("file:", "data:")), lambda route: route.abort())
    yield context
    context.close()
    assert [url for url in asked if not url.startswith(("file:", "data:"))] == []
    assert failed == []


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("pages")
