"""What a page or a message may print of a source. Only standards bodies, law and public authorities can be named."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from stitchproof.shipped_data import read_shipped


def printable_source(key: str) -> str:
    """Organisation, title and edition of a source, in one line; "" for "" and for a source that may not be named."""
    entry = _entries().get(key)
    if entry is None:
        return ""
    edition = f" ({entry['edition']})" if "edition" in entry else ""
    return f"{entry['organisation']}, {entry['title']}{edition}"


@cache
def _entries() -> dict[str, dict[str, Any]]:
    entries: dict[str, dict[str, Any]] = read_shipped(Path(__file__).with_name("sources.yaml"))["sources"]
    return entries
