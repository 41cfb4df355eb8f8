"""Examples of explanation pages as whole pattern folders: what a fragment leaves out comes from the smallest pattern."""

from __future__ import annotations

import re
from pathlib import Path

from stitchproof.diagnostics.page import Example

SMALLEST = {
    "dialect": "dialect: 1\n",
    "title": "title: Smallest\n",
    "revision": "revision: 1\n",
    "date": "date: 2026-01-01\n",
    "designer": "designer: A Designer\n",
    "contact": "contact: a@example.org\n",
    "sizes": "sizes: {names: [S, M]}\n",
    "gauges": (
        "gauges:\n"
        "  fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}\n"
    ),
    "pieces": "pieces:\n  piece: {gauge: fabric, worked: rows}\n",
}
SMALLEST_TEXT = "## Piece {piece}\n"
FOUNDED = "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nFasten off.\n"
"""Rows in which a rule finds nothing."""


def write_example(example: Example, folder: Path) -> Path:
    """The example as a pattern folder below `folder`. A fragment with `dialect:` is taken as the whole of pattern.yaml."""
    pattern = folder / "pattern_sources" / "example"
    pattern.mkdir(parents=True)
    whole = re.search(r"^dialect:", example.yaml, re.MULTILINE) is not None
    (pattern / "pattern.yaml").write_text(example.yaml if whole else _merged(example.yaml), encoding="utf-8")
    text = example.text if example.text.startswith("## ") else SMALLEST_TEXT + "\n" + example.text
    (pattern / "text.md").write_text(text, encoding="utf-8")
    for name, content in example.files:
        (pattern / name).write_text(content, encoding="utf-8")
    return pattern


def _merged(fragment: str) -> str:
    """The smallest pattern with the top-level keys of the fragment put in place of its own, as text."""
    own = set(re.findall(r"^(\w+):", fragment, re.MULTILINE))
    return "".join(text for key, text in SMALLEST.items() if key not in own) + fragment
