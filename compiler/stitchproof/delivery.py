"""Puts the files of a build in place, whole or not at all: an earlier build stays as it was until the new one is complete."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Mapping
from pathlib import Path
from tempfile import mkdtemp

NEW, OLD = ".new-", ".old-"
RENAME_EXCHANGE = 2
"""Flag of Linux's renameat2: the two names change places in one step."""
AT_FDCWD = -100


def deliver(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write a build folder anew. Raises OSError where the place cannot be written; the earlier build is then untouched."""
    folder.parent.mkdir(parents=True, exist_ok=True)
    finish_interrupted(folder)
    beside = Path(mkdtemp(prefix=f".{folder.name}{NEW}", dir=folder.parent))
    try:
        beside.chmod(0o755)
        for name, content in files.items():
            (beside / name).write_bytes(content)
        if not folder.exists():
            beside.rename(folder)
        elif not _exchanged(beside, folder):
            _replaced(beside, folder)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return tuple(folder / name for name in files)


def finish_interrupted(folder: Path) -> None:
    """Complete what a killed build left between its two renames: the folder's own name is the journal."""
    old = folder.with_name(f".{folder.name}{OLD}")
    if old.is_dir() and not folder.exists():
        old.rename(folder)
    shutil.rmtree(old, ignore_errors=True)


def _replaced(beside: Path, folder: Path) -> None:
    """Two renames, where the system cannot exchange names."""
    old = folder.with_name(f".{folder.name}{OLD}")
    folder.rename(old)
    beside.rename(folder)
    shutil.rmtree(old, ignore_errors=True)


def _exchanged(one: Path, other: Path) -> bool:
    """Let two folders change places in one step; False where the system or the file system cannot."""
    if not sys.platform.startswith("linux"):
        return False
    import ctypes  # the system call has no other way in from Python

    libc = ctypes.CDLL(None)
    if not hasattr(libc, "renameat2"):
        return False
    return bool(libc.renameat2(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), RENAME_EXCHANGE) == 0)
