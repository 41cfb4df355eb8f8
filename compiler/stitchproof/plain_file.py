"""Reads a plain file, so much of it and no more: a pipe that nobody writes to, or a device, would keep a command for ever.

Writes one that a command was told to write, but through no link that a folder of somebody else's could hold.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

NOT_FOLLOWED = (errno.ELOOP, errno.ENXIO)
"""What the system says of a link that is not followed, and of a socket."""


class NoPlainFile(OSError):
    """What stands there is a folder, a pipe, a device, or a link where none is followed."""

    def __init__(self, path: Path) -> None:
        super().__init__(errno.EINVAL, "it is no plain file", str(path))


class LeadsOut(OSError):
    """What is to be written is a link that leads out of its folder."""

    def __init__(self, path: Path) -> None:
        super().__init__(errno.EPERM, "it is a link that leads out of its folder", str(path))


def read_plain(path: Path, most: int, follow: bool = True) -> bytes:
    """The content of a file, cut off one byte behind `most`, so that the caller sees that there is more.

    follow: whether a link is followed. Raises NoPlainFile, and OSError where it cannot be opened.
    """
    if not stat.S_ISREG(os.stat(path, follow_symlinks=follow).st_mode):  # to open a device can do something already
        raise NoPlainFile(path)
    try:
        handle = os.open(path, os.O_RDONLY | os.O_NONBLOCK | (0 if follow else os.O_NOFOLLOW))
    except OSError as error:
        if error.errno in NOT_FOLLOWED:
            raise NoPlainFile(path) from None
        raise
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise NoPlainFile(path)
        with os.fdopen(handle, "rb", closefd=False) as opened:
            return opened.read(most + 1)
    finally:
        os.close(handle)


def write_named(path: Path, content: bytes) -> None:
    """Write the file that the user named. Raises LeadsOut, and OSError where it cannot be written."""
    may_be_written(path)
    path.write_bytes(content)


def may_be_written(path: Path) -> None:
    """Raises LeadsOut where a file that the user names is a link out of its folder: she knows the name, and not where it leads.
    The system's own links (`/dev/stdout`) lead where she says."""
    if path.is_symlink() and leads_out(path, path.parent) and not path.is_relative_to("/dev"):
        raise LeadsOut(path)


def leads_out(path: Path, folder: Path) -> bool:
    """Whether a path comes to lie outside a folder once its links are followed; one that goes round in circles does."""
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return True
