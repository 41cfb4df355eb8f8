"""From a save to the refreshed page and findings, by stage: `python -m tests.bench.preview [PATTERN] [--rounds N]`.

A preview runs in a process of its own, as a designer has it; a file is written, and what follows is timed: until the preview says
that there is something new, and until page and findings stand in a browser, or have been fetched where there is none. The edits
take turns, each there and back. Medians; in milliseconds, and against a first check of the same pattern in the same run. The
pattern is that of the nine sizes unless another is named, which has to have the edits below.
"""

from __future__ import annotations

import argparse
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from time import monotonic, perf_counter, sleep, time
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.preview.frame import said
from stitchproof.preview.session import Session
from stitchproof.stages import checked_folder
from stitchproof.workspace import workspace_at
from tests.preview.running import Known, News, get, workspace_with

if TYPE_CHECKING:
    from playwright.sync_api import Page

PATTERN = "saltmarrow_yoke_top"
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
QUIET = 0.35
"""Seconds between two edits, so that each is a save of its own and finds the preview at rest."""
SEEN = """() => {
  window.seen = [];
  new MutationObserver(() => requestAnimationFrame(() => setTimeout(() => {
    window.seen.push([performance.timeOrigin + performance.now(), Number(document.documentElement.dataset.shown)]);
  }))).observe(document.documentElement, { attributeFilter: ["data-shown"] });
}"""
"""In the browser: when each version was painted."""


class Edit(Struct, frozen=True):
    """A save: in a file, `new` in the place of `old`."""

    name: str
    file: str
    old: str
    new: str


EDITS = (
    Edit("a word in a row", "20_yoke.md", "hdc in each st around,", "hdc in every st around,"),
    Edit("a count in a row", "30_body.md", "2 hdc in each of next 2 sts", "2 hdc in each of next 3 sts"),
    Edit(
        "a line added",
        "50_neckband.md",
        "Fasten off loosely.",
        "Fasten off loosely.\n\nWeave in the ends of the neckband.",
    ),
    Edit("a header number", "pattern.yaml", "bust: 8 cm", "bust: 9 cm"),
    Edit("a gauge", "pattern.yaml", "stitches: 17", "stitches: 18"),
)


class Timed(Struct, frozen=True):
    """Seconds after a save: until news came, and until the page was there: painted, or fetched where there is no browser."""

    told: float
    there: float


@contextmanager
def preview_of(workspace: Path, pattern: str) -> Iterator[Known]:
    """A preview in a process of its own."""
    command = [sys.executable, "-m", "stitchproof", "preview", pattern, "--no-browser"]
    process = subprocess.Popen(command, cwd=workspace, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    try:
        yield Known.at(process.stdout.readline().split()[-1])
    finally:
        process.terminate()
        process.wait()


class Painted:
    """What an open page of a browser shows."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def __call__(self, version: int) -> float:
        """When that version was painted, or a later one, in seconds of the clock."""
        end = monotonic() + 30
        while monotonic() < end:
            for at, shown in self.page.evaluate("window.seen"):
                if shown >= version:
                    return float(at) / 1000
            sleep(0.02)
        raise SystemExit("the browser shows nothing new")


@contextmanager
def browser_at(address: str) -> Iterator[Painted | None]:
    """What tells when the next version was painted; None where there is no browser."""
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        yield None
        return
    from playwright.sync_api import sync_playwright

    from tests.pages.conftest import ARGUMENTS

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=list(ARGUMENTS))
        page = browser.new_page()
        page.goto(address)
        page.frame_locator("#page").locator("[data-row]").first.wait_for()
        page.evaluate(SEEN)

        yield Painted(page)
        browser.close()


def saves(folder: Path, rounds: int) -> Iterator[tuple[Edit, Path, str]]:
    """Each edit there and back, in turns: the edit, the file, and what it is to hold."""
    for _ in range(rounds):
        for edit in EDITS:
            file = folder / edit.file
            text = file.read_text("utf-8")
            if edit.old not in text:
                raise SystemExit(f"{edit.file} does not hold {edit.old!r}")
            for content in (text.replace(edit.old, edit.new, 1), text):
                yield edit, file, content


def timed_saves(workspace: Path, pattern: str, rounds: int) -> dict[str, list[Timed]]:
    """By edit, what each of its saves took."""
    times: dict[str, list[Timed]] = {edit.name: [] for edit in EDITS}
    with preview_of(workspace, pattern) as preview, browser_at(preview.address) as painted:
        news = News(preview)
        version = news.next()["shown"]
        sleep(2)  # the first looks are over
        for edit, file, content in saves(workspace / "pattern_sources" / pattern, rounds):
            start, clock = perf_counter(), time()
            file.write_text(content, encoding="utf-8")
            version = news.until(version + 1)["shown"]
            told = perf_counter() - start
            if painted:  # it fetches for itself, and another who does makes it wait
                there = painted(version) - clock
            else:
                get(preview, "page")
                get(preview, "")
                there = perf_counter() - start
            times[edit.name].append(Timed(told, there))
            sleep(QUIET)
            version = at_rest(preview)
        news.close()
    return times


def at_rest(preview: Known) -> int:
    """The version that is shown when no values that work are looked for any more."""
    while said("looking") in (frame := get(preview, "").body):
        sleep(0.05)
    shown = re.search(r'data-shown="(\d+)"', frame)
    assert shown is not None
    return int(shown[1])


def stages_of(workspace: Path, pattern: str, rounds: int) -> dict[str, dict[str, float]]:
    """By edit, median seconds of each stage of a look at the source, in this process."""
    found = workspace_at(workspace)
    folder = workspace / "pattern_sources" / pattern
    session = Session(found, folder)
    session.refresh()
    held: dict[str, dict[str, list[float]]] = {}
    for edit, file, content in saves(folder, rounds):
        file.write_text(content, encoding="utf-8")
        for stage, seconds in session.refresh().seconds.items():
            held.setdefault(edit.name, {}).setdefault(stage, []).append(seconds)
    return {name: {stage: median(each) for stage, each in stages.items()} for name, stages in held.items()}


def first_check(workspace: Path, pattern: str) -> float:
    """Seconds of a check that keeps nothing, in a process that is warm."""
    times = []
    for _ in range(5):
        start = perf_counter()
        checked_folder(workspace / "pattern_sources" / pattern, pattern, {})
        times.append(perf_counter() - start)
    return median(times)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("pattern", nargs="?", default=PATTERN)
    parser.add_argument("--rounds", type=int, default=6)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        workspace = workspace_with(Path(folder), asked.pattern)
        whole = first_check(workspace, asked.pattern)
        stages = stages_of(workspace, asked.pattern, asked.rounds)
        times = timed_saves(workspace, asked.pattern, asked.rounds)
    every = [each for held in times.values() for each in held]
    print(f"\npreview of {asked.pattern}: from a save, medians in ms; a first check of it takes {whole * 1000:.0f}")
    where = "in the browser" if next(filter(None, map(shutil.which, BROWSERS)), None) else "fetched"
    print(f"  {'':<18} {'check':>7} {'page':>7} {'findings':>9} {'told':>7} {where:>15}")
    for name, held in times.items():
        parts = [stages[name][stage] * 1000 for stage in ("check", "page", "findings")]
        print(f"  {name:<18} {parts[0]:7.1f} {parts[1]:7.1f} {parts[2]:9.1f} {_row(held)}")
    print(f"  {'all of them':<18} {'':>7} {'':>7} {'':>9} {_row(every)}")
    told, there = (median(getattr(each, what) for each in every) / whole for what in ("told", "there"))
    print(f"  against a first check: told {told:.2f}, {where} {there:.2f}")


def _row(held: list[Timed]) -> str:
    told, there = (median(getattr(each, what) for each in held) * 1000 for what in ("told", "there"))
    return f"{told:7.1f} {there:15.1f}"


if __name__ == "__main__":
    main()
