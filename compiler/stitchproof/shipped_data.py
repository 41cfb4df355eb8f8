"""Reads the data files that ship with the compiler."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml


def read_shipped(path: Path) -> dict[str, Any]:
    """One of our own YAML files. The loader is a safe one, in C where PyYAML was built with it."""
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    data: dict[str, Any] = yaml.load(path.read_text("utf-8"), Loader=loader)  # noqa: S506  # a safe loader either way
    return data
