"""All explanation pages, found where they stand: the rules here, and the faults of the stages. The folders are the list."""

from __future__ import annotations

import ast
import re
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from stitchproof.diagnostics.page import Page, read_page


@cache
def all_pages() -> tuple[Page, ...]:
    """Every page, by code."""
    package = files("stitchproof")
    folders = [room / "faults" for room in package.iterdir() if room.is_dir()]
    found = [page for folder in (package / "checks", *folders) if folder.is_dir() for page in _pages_in(folder)]
    return tuple(sorted(found, key=lambda page: page.code))


def _pages_in(folder: Traversable) -> list[Page]:
    found = []
    for file in folder.iterdir():
        if file.name.endswith(".py"):
            text = file.read_text("utf-8")
            if re.match(r'"""SP\d{3} ', text):
                found.append(read_page(ast.get_docstring(ast.parse(text))))
    return found


def page_for(code_or_name: str) -> Page | None:
    """The page of a code (SP007, sp7) or of a name (unknown-name)."""
    wanted = code_or_name.strip().lower()
    number = re.fullmatch(r"sp(\d{1,3})", wanted)
    code = f"SP{int(number[1]):03d}" if number else ""
    return next((page for page in all_pages() if page.code == code or page.name == wanted), None)


def page_text(page: Page) -> str:
    """A page as text for a terminal."""
    lines = [f"{page.code} {page.name} ({page.severity.value})", ""]
    for title, text in (
        ("Checks", page.checks),
        ("Matters", page.matters),
        ("Mend", page.mend),
        ("Source", page.source),
    ):
        lines += _wrapped(title, text)
    for example in page.examples:
        title = (
            "Passes:"
            if example.fires_in is None
            else "Is reported" + (f" in {', '.join(example.fires_in)}:" if example.fires_in else ":")
        )
        lines += ["", title]
        lines += [f"    {line}".rstrip() for line in example.yaml.rstrip("\n").split("\n")]
        if example.text:
            lines += [
                "    --- in the text ---",
                *(f"    {line}".rstrip() for line in example.text.rstrip("\n").split("\n")),
            ]
        for name, content in example.files:
            lines += [f"    --- {name} ---", *(f"    {line}" for line in content.rstrip("\n").split("\n"))]
    return "\n".join(lines) + "\n"


def _wrapped(title: str, text: str) -> list[str]:
    from textwrap import wrap

    return wrap(text, 96, initial_indent=f"{title:<9} ", subsequent_indent=" " * 10)
