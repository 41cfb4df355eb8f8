"""A small pattern to start from, that checks clean and builds at once."""

from __future__ import annotations

import os
import re
from importlib.resources import files
from pathlib import Path

FILES = ("pattern.yaml", "10_pattern.md")
TITLE = "Untitled Pattern"


class StarterRefused(Exception):
    """The folder cannot be started; says why."""


def start_pattern(folder: Path) -> Path:
    """Make a pattern folder, its title taken from its name. Raises StarterRefused where something is there already."""
    if folder.exists() and (not folder.is_dir() or os.listdir(folder)):
        raise StarterRefused(f"{folder} is there already and not empty; choose another name")
    if not re.search(r"\w", folder.name):
        raise StarterRefused(f"{folder} is not a name for a folder; choose one such as my_hat")
    title = " ".join(word.capitalize() for word in re.split(r"[\W_]+", folder.name) if word) or TITLE
    folder.mkdir(parents=True, exist_ok=True)
    for name in FILES:
        text = files("stitchproof.starter").joinpath(name).read_text("utf-8")
        (folder / name).write_text(text.replace(TITLE, title), encoding="utf-8")
    return folder
