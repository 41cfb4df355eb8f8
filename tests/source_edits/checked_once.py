"""The check that stands before every edit: of files that are as they were, it is made once for all tests."""

from __future__ import annotations

import os
from pathlib import Path

from stitchproof.reading.folder import SHARED
from stitchproof.sizing.changes import Changes
from stitchproof.stages import CheckOutcome, checked
from stitchproof.workspace import Workspace

_outcomes: dict[tuple[object, ...], CheckOutcome] = {}


def checked_once(workspace: Workspace, pattern: str | os.PathLike[str], changes: Changes) -> CheckOutcome:
    """What `checked` gives; without changes, what it gave for the same files in the same place."""
    folder = workspace.folder_of(pattern)
    if folder is None or changes:
        return checked(workspace, pattern, changes)
    key = (workspace.root, folder, *_contents(folder), *_contents(folder.parent / SHARED))
    if key not in _outcomes:
        _outcomes[key] = checked(workspace, pattern, changes)
    return _outcomes[key]


def _contents(folder: Path) -> list[tuple[str, bytes]]:
    return [(str(file), file.read_bytes()) for file in sorted(folder.rglob("*")) if file.is_file()]
