"""Edited files put in the place of those that were read, whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from tempfile import mkstemp

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.source_edits.edit_source import EditedSource
from stitchproof.source_edits.faults.source_not_written import source_not_written


def write_files(folder: Path, edited: EditedSource, shown: Mapping[str, str]) -> tuple[Diagnostic, ...]:
    """Write what changed; what stands in the way is told, and then nothing is written. shown: each file as the user sees it.

    A file keeps its permissions. A link inside the folder is followed, one that leads out of it is not.
    """
    beside: list[tuple[Path, Path]] = []
    done: list[tuple[Path, bytes]] = []
    try:
        for name in edited.changed:
            target = (folder / name).resolve()
            fault = _in_the_way(folder, target, edited.before[name].content, shown[name])
            if fault:
                return (fault,)
            try:
                beside.append((_written_beside(target, edited.after[name].content), target))
            except OSError as error:
                return (_not_written(shown[name], error),)
        for (new, target), name in zip(beside, edited.changed, strict=True):
            try:
                new.replace(target)
            except OSError as error:
                _put_back(done)
                return (_not_written(shown[name], error),)
            done.append((target, edited.before[name].content))
    finally:
        for new, _ in beside:
            new.unlink(missing_ok=True)
    return ()


def _put_back(done: list[tuple[Path, bytes]]) -> None:
    """Files that were replaced before another could not be, as they were."""
    for target, content in done:
        _written_beside(target, content).replace(target)


def _in_the_way(folder: Path, target: Path, before: bytes, shown: str) -> Diagnostic | None:
    if not target.is_relative_to(folder.resolve()):
        return source_not_written(shown, "it is a link that leads out of the folder", "put the file itself there")
    try:
        now = target.read_bytes()
    except OSError as error:
        return _not_written(shown, error)
    if now != before:
        return source_not_written(shown, "it has changed since it was read", "run the command again")
    return None if os.access(target, os.W_OK) else source_not_written(shown, "it may not be written", _RIGHT)


_RIGHT = "give yourself the right to write it"


def _not_written(shown: str, error: OSError) -> Diagnostic:
    return source_not_written(shown, (error.strerror or str(error)).lower(), _RIGHT)


def _written_beside(target: Path, content: bytes) -> Path:
    """The new content in a file beside the old one, with its permissions, safe on the disk."""
    handle, name = mkstemp(prefix=f".{target.name}.new-", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as opened:
            opened.write(content)
            opened.flush()
            os.fsync(opened.fileno())
        os.chmod(name, target.stat().st_mode & 0o7777)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
    return Path(name)
