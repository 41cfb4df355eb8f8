"""Puts the files of a build in place, whole or not at all: an earlier build stays as it was until the new one is complete."""

from __future__ import annotations

import errno
import os
import shutil
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import mkdtemp

from stitchproof.plain_file import leads_out

NEW, OLD = ".new-", ".old-"
RENAME_EXCHANGE = 2
"""Flag of Linux's renameat2: the two names change places in one step."""
AT_FDCWD = -100
SIGNS_OF_A_BUILD = (".made_from.json", "record.json")
"""What every build leaves, of now and of earlier versions. A folder without is not replaced: it is somebody's own."""


class NotABuild(OSError):
    """Where the build is to go lies something that no build made."""

    def __init__(self, folder: Path, why: str) -> None:
        super().__init__(errno.EEXIST, f"{why}; name another folder with --to, or move it away", str(folder))


def deliver(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write a build folder anew. Raises OSError where the place cannot be written; the earlier build is then untouched.

    Raises NotABuild for a folder that holds anything but an earlier build.
    """
    folder.parent.mkdir(parents=True, exist_ok=True)
    finish_interrupted(folder)
    may_be_replaced(folder, files)
    with _beside(folder) as beside:
        for name, content in files.items():
            (beside / name).write_bytes(content)
        with _alone(folder.parent):
            _put_in_place(beside, folder)
    return tuple(folder / name for name in files)


def inside(products: Path, root: Path) -> Path:
    """The folder of the products. Raises NotABuild where it is a link that leads out of the workspace."""
    if leads_out(products, root):
        raise NotABuild(products, "it is a link that leads out")
    return products


def may_be_replaced(folder: Path, files: Iterable[str] = ()) -> None:
    """Raises NotABuild where a folder is none of ours: a link, a file, or files that no build wrote. files: names of the new."""
    if folder.is_symlink():
        raise NotABuild(folder, "it is a link")
    if not folder.exists():
        return
    if not folder.is_dir():
        raise NotABuild(folder, "it is no folder")
    names = os.listdir(folder)
    if names and not any(name in names for name in (*SIGNS_OF_A_BUILD, *files)):
        raise NotABuild(folder, "it holds files that no build made")
    if "pattern.yaml" in names:
        raise NotABuild(folder, "it holds the source of a pattern")


def left_out(folder: Path, files: Iterable[str]) -> tuple[Path, ...]:
    """What lies in a build folder and goes with it when these files take its place; hidden files are nobody's to miss."""
    if not folder.is_dir():
        return ()
    return tuple(folder / name for name in sorted({*os.listdir(folder)} - {*files}) if not name.startswith("."))


def finish_interrupted(folder: Path) -> None:
    """Complete what a killed build left between its two renames (the folder's own name is the journal), and take away what one
    was writing when it was killed."""
    if not folder.parent.is_dir():
        return
    old = folder.with_name(f".{folder.name}{OLD}")
    with _alone(folder.parent):
        if not old.is_symlink():
            if old.is_dir() and not folder.exists():
                old.rename(folder)
            shutil.rmtree(old, ignore_errors=True)
        for left in folder.parent.glob(f".{_literally(folder.name)}{NEW}*"):
            _take_away_if_left(left)


@contextmanager
def _alone(place: Path) -> Iterator[None]:
    """While it lasts no other build changes names here. The lock is the folder's own, and ends with the process."""
    held = os.open(place, os.O_RDONLY)
    try:
        _locked(held, wait=True)
        yield
    finally:
        os.close(held)


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """A new folder beside, locked as long as this process writes into it; what lies in it in the end is taken away."""
    with _alone(folder.parent):  # else another build could find it before it is locked, and take it away
        beside = Path(mkdtemp(prefix=f".{folder.name}{NEW}", dir=folder.parent))
        held = os.open(beside, os.O_RDONLY)
        _locked(held)
    try:
        beside.chmod(0o755)
        yield beside
    finally:
        os.close(held)
        shutil.rmtree(beside, ignore_errors=True)


def _put_in_place(beside: Path, folder: Path) -> None:
    """Another build of the same pattern may have been quicker: the later one stays."""
    if not folder.exists():
        beside.rename(folder)
    elif not _exchanged(beside, folder):
        _replaced(beside, folder)


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


def _take_away_if_left(beside: Path) -> None:
    """A folder that a build was writing goes when no process holds its lock: the lock ends with the process."""
    try:
        held = os.open(beside, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
    except OSError:
        return
    try:
        if _locked(held):
            shutil.rmtree(beside, ignore_errors=True)
    finally:
        os.close(held)


def _locked(handle: int, wait: bool = False) -> bool:
    """Whether the lock could be had. Where there are no locks, nothing is taken away."""
    try:
        import fcntl
    except ImportError:
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except OSError:
        return False
    return True


def _literally(name: str) -> str:
    """A name in which no sign means a pattern of names."""
    return "".join(f"[{sign}]" if sign in "*?[" else sign for sign in name)
