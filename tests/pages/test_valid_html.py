"""Every printed page is valid by the W3C's checker (the npm package vnu-jar, https://github.com/validator/validator)."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from stitchproof.preview.desk import Desk
from tests.architecture.code_reader import CLONE
from tests.pages.printed import LOOKED_AT, page_of
from tests.preview.running import HAT, session_of, workspace_with

CANNOT_HASH = "Inline script violates Content Security Policy"
"""The checker cannot work out the hash of a script of several lines; the browser does, and would not run it otherwise."""
CHECKER = CLONE / ".venv" / "pages" / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"


def complaints(*pages: Path) -> list[str]:
    """What the checker says of pages, errors and warnings alike."""
    if shutil.which("java") is None:
        pytest.skip("not run: there is no Java here, which the W3C's checker needs")
    if not CHECKER.is_file():
        pytest.skip("not run: the W3C's checker is not installed, as there is no npm here")
    command = ["java", "-jar", str(CHECKER), "--format", "json", "--stdout", "--exit-zero-always", *map(str, pages)]
    ended = subprocess.run(command, capture_output=True, text=True, check=True)
    told = [
        f"{Path(each['url']).name}:{each.get('lastLine')}: {each['message']}"
        for each in json.loads(ended.stdout)["messages"]
    ]
    return [each for each in told if CANNOT_HASH not in each]


def test_every_page_is_valid(folder: Path) -> None:
    assert complaints(*(page_of(folder, edition, pattern) for edition, pattern in LOOKED_AT)) == []


def test_the_frame_of_the_preview_is_valid(folder: Path) -> None:
    """As it stands with a fault, and what is asked for later: a number, a change that is tried, drawings."""
    workspace = workspace_with(folder / "preview", HAT)
    desk = Desk(session_of(workspace))
    file = desk.session.folder / "pattern.yaml"
    desk.session.refresh()
    text = file.read_text("utf-8")
    parts = (
        desk.number({"written": "hat_sts"}),
        desk.try_out([("change", "ease=3 cm")]),
        desk.drawings({"size": "2", "over": "yes"}),
        desk.explanation({"code": "SP012"}),
        desk.inputs({}),
    )
    file.write_text(text.replace("brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1", 1), encoding="utf-8")
    desk.session.refresh()
    pages = {"frame.html": desk.frame(), "page.html": desk.page({})}
    for number, part in enumerate(parts):
        pages[f"part_{number}.html"] = (
            f'<!doctype html><html lang="en"><title>x</title><h1>x</h1><main>{part}</main></html>'
        )
    for name, html in pages.items():
        (folder / "preview" / name).write_text(html, encoding="utf-8")
    desk.close()
    assert complaints(*((folder / "preview" / name) for name in pages)) == []


def test_the_checker_finds_what_is_wrong(folder: Path) -> None:
    page = folder / "wrong.html"
    page.write_text(
        '<!doctype html><html lang="en"><title>x</title><p id="a"><p id="a"><bold>b</bold>', encoding="utf-8"
    )
    told = " ".join(complaints(page))
    assert "Duplicate ID" in told
    assert "bold" in told
