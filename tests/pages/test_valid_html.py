"""Every printed page is valid by the W3C's checker (the npm package vnu-jar, https://github.com/validator/validator)."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.architecture.code_reader import CLONE
from tests.pages.printed import LOOKED_AT, page_of

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


def test_the_checker_finds_what_is_wrong(folder: Path) -> None:
    page = folder / "wrong.html"
    page.write_text(
        '<!doctype html><html lang="en"><title>x</title><p id="a"><p id="a"><bold>b</bold>', encoding="utf-8"
    )
    told = " ".join(complaints(page))
    assert "Duplicate ID" in told
    assert "bold" in told
