"""Watches what a run opens, starts and connects to, by Python's audit hook; it looks on while it is asked to."""

from __future__ import annotations

import os
import site
import sys
import sysconfig
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from stitchproof.editions.styles import shipped_styles

CLONE = Path(__file__).parents[2]
PROGRAM = tuple(
    Path(place).resolve()
    for place in {
        *(sysconfig.get_paths()[key] for key in ("stdlib", "platstdlib", "purelib", "platlib")),
        *map(str, site.getsitepackages()),
        sys.prefix,
        sys.base_prefix,
        str(CLONE / "compiler"),
        str(CLONE / "tests"),
        str(shipped_styles()),
    }
)
"""Where the program itself lies, and its libraries."""
SYSTEM = tuple(
    map(
        Path,
        (
            "/etc/fonts",
            "/etc/mime.types",
            "/usr/share/mime",
            "/usr/share/fonts",
            "/dev/null",
            "/proc/self",
            f"/proc/{os.getpid()}/statm",
            "/usr/lib",
            "/lib",
            "/etc/ld.so.cache",
        ),
    )
)
"""What libraries look at on Linux: fonts, themselves."""
STARTS = (
    "subprocess.",
    "os.exec",
    "os.posix_spawn",
    "os.spawn",
    "os.system",
    "pty.",
    "pickle.",
    "marshal.load",
    "socket.",
)
CHANGES = (
    "os.remove",
    "os.rename",
    "os.mkdir",
    "os.rmdir",
    "os.link",
    "os.symlink",
    "os.chmod",
    "os.truncate",
    "shutil.",
)
QUIET = ("marshal.loads", "shutil.rmtree")
"""The import of compiled modules; and the removal of a folder, which tells each file by itself."""

_watched: list[tuple[str, str]] | None = None


def _hook(event: str, arguments: tuple[object, ...]) -> None:
    if _watched is None or event in QUIET:
        return
    if (event == "open" or event.startswith(CHANGES)) and isinstance(arguments[0], str | bytes):
        _watched.append((event, os.path.abspath(os.fsdecode(arguments[0]))))
    elif event.startswith(STARTS):
        _watched.append((event, repr(arguments)[:200]))


sys.addaudithook(_hook)


@contextmanager
def watched(*allowed: Path) -> Iterator[list[str]]:
    """While it lasts, gathers what goes beyond: each file opened or changed outside the allowed folders, links followed, each
    process and each socket. The list is filled at the end."""
    global _watched
    beyond: list[str] = []
    seen: list[tuple[str, str]] = []
    _watched = seen
    try:
        yield beyond
    finally:
        _watched = None
        inside = (*PROGRAM, *SYSTEM, *(folder.resolve() for folder in allowed))
        for event, what in dict.fromkeys(seen):
            if event.startswith(STARTS) or not _lies_in(what, inside):
                beyond.append(f"{event} {what}")


def _lies_in(path: str, folders: tuple[Path, ...]) -> bool:
    found = Path(os.path.realpath(path))
    return any(found.is_relative_to(folder) for folder in folders)
