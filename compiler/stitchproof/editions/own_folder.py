"""A folder in the system's temporary folder for what the renderer reads, gone with the process that made it.

A process that is killed takes nothing away. What it leaves is taken away by the next one that makes such a folder.
"""

from __future__ import annotations

import fcntl
import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory, gettempdir

PREFIX = "stitchproof-"
HELD = "in_use"
"""A file in the folder, locked as long as the process lives, or one that was forked from it."""


@contextmanager
def own_folder() -> Iterator[Path]:
    """An empty folder (but for HELD), as long as it is used. Raises OSError where none can be made."""
    _take_away_what_is_left()
    with TemporaryDirectory(prefix=PREFIX) as name:
        folder = Path(name)
        beside = folder / f"{HELD}.new"
        handle = os.open(beside, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600)
        try:
            with suppress(OSError):  # a file system without locks: nobody finds it unlocked there either
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            beside.rename(folder / HELD)  # only now it can be found, and locked it is
            yield folder
        finally:
            os.close(handle)


def _take_away_what_is_left() -> None:
    """Folders of this user whose process has ended. What cannot be looked into or taken away stays."""
    with suppress(OSError), os.scandir(gettempdir()) as found:
        for each in found:
            if each.name.startswith(PREFIX) and _is_left(Path(each.path)):
                shutil.rmtree(each.path, ignore_errors=True)


def _is_left(folder: Path) -> bool:
    try:
        of = os.lstat(folder)
        if not stat.S_ISDIR(of.st_mode) or of.st_uid != os.getuid():
            return False
        handle = os.open(folder / HELD, os.O_RDWR | os.O_NOFOLLOW | os.O_NONBLOCK)
    except OSError:
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return True
    except OSError:
        return False
    finally:
        os.close(handle)
