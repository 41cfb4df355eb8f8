"""Looks a git repository over before it is read: what a stranger's could make a reader do outside of it is refused.

Git follows what a repository names: another folder for its data, objects borrowed from elsewhere, files that its configuration
includes, references that are paths. All of these are left to git itself.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from stitchproof.plain_file import read_plain

CONTROL = ".git"
MOST_ENTRIES = 500_000
MOST_BYTES = 1_000_000
LONGEST_REFERENCE = 4_096
NOT_READ = frozenset({"hooks", "lfs", "modules", "logs", "worktrees"})
"""Folders that no commit is read from."""
MOST_MEMORY = 2_000_000_000
"""Bytes that reading a repository may take, over what is there before: an object can be packed to burst."""
_INCLUDES = re.compile(rb"^\s*\[\s*include", re.IGNORECASE | re.MULTILINE)
_REFERENCE = re.compile(rb"ref: (refs/[^\s\0]+)\s*")


class NotSound(Exception):
    """Why a repository is not read, as the end of a sentence that begins with "git's data"."""


def sound_repository(folder: Path) -> Path | None:
    """The root of the repository that a folder lies in, None where there is none. Raises NotSound, and OSError."""
    root = next((each for each in (folder, *folder.parents) if os.path.lexists(each / CONTROL)), None)
    if root is None:
        return None
    control = root / CONTROL
    if control.is_symlink():
        raise NotSound("are a link")
    if control.is_dir():
        if os.path.lexists(control / "commondir"):
            raise NotSound("lie elsewhere")
        _look_over(control)
        return root
    for place in _elsewhere(root, control):
        _look_over(place)
    return root


def is_plain_name(name: str) -> bool:
    """Whether the name of a commit, tag or branch is no path out of the repository."""
    return bool(name) and ".." not in name and not name.startswith(("/", "-")) and name.isprintable()


@contextmanager
def bounded_memory() -> Iterator[None]:
    """While it lasts, too much of it is a MemoryError. Where the system knows no such limit, there is none."""
    try:
        import resource

        soft, hard = resource.getrlimit(resource.RLIMIT_AS)
        used = int(Path("/proc/self/statm").read_text("ascii").split()[0]) * resource.getpagesize()
    except (ImportError, OSError, ValueError):
        yield
        return
    most = used + MOST_MEMORY
    limits = [most, *(limit for limit in (soft, hard) if limit != resource.RLIM_INFINITY)]
    resource.setrlimit(resource.RLIMIT_AS, (min(limits), hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, (soft, hard))


def _elsewhere(root: Path, control: Path) -> tuple[Path, Path]:
    """Where the data of a linked worktree lie: a folder that names this worktree in turn, inside git's data of another."""
    named = read_plain(control, LONGEST_REFERENCE, follow=False).decode("utf-8", "replace").strip()
    place = (root / named.removeprefix("gitdir:").strip()).resolve()
    if place.parent.name != "worktrees" or not named.startswith("gitdir:"):
        raise NotSound("lie elsewhere")
    try:
        back = read_plain(place / "gitdir", LONGEST_REFERENCE, follow=False).decode("utf-8", "replace").strip()
        shared = read_plain(place / "commondir", LONGEST_REFERENCE, follow=False).decode("utf-8", "replace").strip()
    except OSError:
        raise NotSound("lie elsewhere") from None
    if (place / back).resolve() != control.resolve() or (place / shared).resolve() != place.parent.parent:
        raise NotSound("lie elsewhere")
    return place, place.parent.parent


def _look_over(control: Path) -> None:
    for number, entry in enumerate(_entries(control)):
        if number > MOST_ENTRIES:
            raise NotSound(f"are more than {MOST_ENTRIES:,} files")
        if entry.is_symlink() or not (entry.is_file() or entry.is_dir()):
            raise NotSound(f"hold a link, a pipe or a device ({entry.name[:40]})")
    for name in ("alternates", "http-alternates"):
        if (control / "objects" / "info" / name).exists():
            raise NotSound("borrow objects from elsewhere")
    for name in ("config", "config.worktree"):
        if (control / name).exists() and _INCLUDES.search(read_plain(control / name, MOST_BYTES)):
            raise NotSound("include other files in their configuration")
    refs = (path for path in (control / "refs").rglob("*") if path.is_file())
    for path in (*(path for path in control.iterdir() if path.name.isupper() and path.is_file()), *refs):
        said = read_plain(path, LONGEST_REFERENCE)
        if said.startswith(b"ref:") and (b".." in said or not _REFERENCE.fullmatch(said)):
            raise NotSound("hold a reference that is a path")


def _entries(folder: Path) -> Iterator[os.DirEntry[str]]:
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name not in NOT_READ:
                yield entry
                if entry.is_dir(follow_symlinks=False):
                    yield from _entries(Path(entry.path))
